//! Which rule set the rating of a fuse?

use crate::engine::judge::fuse::chain::is_unparted;
use crate::engine::judge::fuse::limits::{FuseLimits, at_least};
use crate::engine::judge::fuse::window::fuse_start_grade;
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// In words: what would be chosen without it is smaller. `near` has all fuses of near ends.
pub(crate) fn ruling(loops: &FaultLoops, fuse: &Fuse, near: &[Option<Fuse>]) -> &'static str {
    let Some((style, rating)) = fuse.fitted() else { return "nothing fits" };
    if fuse.pinned {
        return "given";
    }
    let limits = FuseLimits::of(&loops.site.catalogue);
    let pin = loops.style_pin(fuse.branch);
    let smallest = |need: FuseNeed| limits.first(pin, &need).map(|c| c.rating);
    let no_fault = FuseNeed { prospective: Amps::ZERO, ..fuse.need };
    let steady_only = FuseNeed { starts: Starts::NONE, ..no_fault };
    if smallest(steady_only) == Some(rating) {
        let wide = at_least(style, &fuse.need).value.get() < 0.5 * rating.get();
        return if wide && style.ratings.first() == Some(&rating) { "smallest made" } else { "steady current" };
    }
    if smallest(no_fault) == Some(rating) {
        return "start surge";
    }
    let likely = FuseNeed { prospective: fuse.need.likely, ..fuse.need };
    if smallest(fuse.need) == Some(rating) || smallest(likely) == Some(rating) {
        return "breaking capacity";
    }
    // Of the style chosen alone: the plainer ones have other ratings.
    let in_style = |need: &FuseNeed| limits.in_style(style, need).map(|c| c.rating);
    if in_style(&steady_only) == Some(rating) {
        return "steady current";
    }
    if in_style(&no_fault) == Some(rating) {
        return "start surge";
    }
    let smaller = style.ratings.iter().rev().find(|r| **r < rating).map(|r| Fuse { rating: Some(*r), ..*fuse });
    let Some(smaller) = smaller else { return "breaking capacity" };
    // The start may open this one too, and the smaller one worse.
    let (opens, worse) = (fuse_start_grade(&limits, fuse), fuse_start_grade(&limits, &smaller));
    if worse.is_some_and(|worse| opens.is_none_or(|opens| worse < opens)) {
        return "start surge";
    }
    let behind = |f: &&Fuse| loops.upstream(f.branch, near).is_some_and(|up| up.branch == fuse.branch);
    let mut below = near.iter().flatten().filter(|f| f.branch != fuse.branch).filter(behind);
    let asks = |f: &Fuse| is_unparted(loops, f, &smaller) || f.rating > smaller.rating;
    if !fuse.far_end && below.any(asks) { "selectivity" } else { "voltage drop" }
}
