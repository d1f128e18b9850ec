//! Which devices come into question for a cable?
//!
//! Of each style that there is to choose from the ratings between what the load
//! asks for and what the cable carries; what the plan gives is the only one.
//! Whether a start passes, a fault is broken or cleared is left to whoever
//! chooses among them.

use crate::catalogue::FuseStyle;
use crate::engine::judge::finding::{Grade, Kind, Severity};
use crate::engine::judge::fuse::breaking::fuse_grade;
use crate::engine::judge::fuse::faults::fuse_grades;
use crate::engine::judge::fuse::limits::{FuseLimits, at_least, breaks};
use crate::engine::judge::fuse::window::start_grade;
use crate::engine::physics::fuse_link::rating::{breaking, cold_carrying, made_near, styles};
use crate::engine::simulate::circuit::demand::carried;
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// A device: its style and rating.
pub type Device<'a> = (&'a FuseStyle, Amps);

/// Kilograms of copper that would be given to be rid of a stop: more than there can be.
pub const STOP: f64 = 1e8;
/// The same of a rating that rises away from its battery.
pub const RISES: f64 = 1e6;
/// The same of a caution: a fault that is opened late or not surely broken, a start that may open the device.
const CAUTION: f64 = 1e4;
/// The same of the caution of mere service that a fault may open the device upstream too. Some metres of a pair one
/// size up: nobody lays a main of twice the copper for it. Our own border.
pub const SERVICE: f64 = 0.5;
const NOTE: f64 = 1e-3;
/// So little that no cable grows by sizes for the sake of a plainer device; our own border.
const LESS_PLAIN: f64 = 0.2;
const AMPERE: f64 = 1e-7;

/// What a finding of this severity counts.
pub fn weight((kind, severity): Grade) -> f64 {
    match severity {
        Severity::Stop => STOP,
        Severity::Caution if kind == Kind::FuseSelective => SERVICE,
        Severity::Caution => CAUTION,
        Severity::Note => NOTE,
    }
}

/// What all findings of a device count; `up` is the next one upstream. Where none breaks the fault the one that breaks
/// most is the least wrong.
pub fn wrong(loops: &FaultLoops, fuse: &Fuse, up: Option<&Fuse>) -> f64 {
    fuse_grades(loops, fuse, up).map(|grade| weight(grade) + short_of(fuse, grade)).sum()
}

/// What of that is for the fault that it has to break.
pub fn unbroken(loops: &FaultLoops, fuse: &Fuse) -> f64 {
    let grade = fuse_grade(loops, fuse).map(|severity| (Kind::FuseBreaking, severity));
    grade.map_or(0.0, |grade| weight(grade) + short_of(fuse, grade))
}

/// By how much a stop is more than one where the fault is not broken.
fn short_of(fuse: &Fuse, grade: Grade) -> f64 {
    match fuse.fitted() {
        Some((style, _)) if grade == (Kind::FuseBreaking, Severity::Stop) => {
            STOP * (1.0 - breaking(style, fuse.need.circuit) / fuse.prospective.amps).max(0.0)
        }
        _ => 0.0,
    }
}

/// What of that is so whatever stands before it: a start that may open it.
pub fn wrong_anywhere<'a>(loops: &FaultLoops<'a, '_>, branch: usize, (style, rating): Device<'a>) -> f64 {
    let Some(need) = base_need(loops, branch) else { return 0.0 };
    let slow = cold_carrying(style, loops.site.surroundings.coldest);
    let grade = start_grade(&FuseLimits::of(&loops.site.catalogue), style, rating, &need, slow);
    let pinned = loops.run(branch).is_some_and(|r| r.fuse.is_some());
    let small = pinned && rating < at_least(style, &need).value;
    grade.filter(|_| !small).map_or(0.0, |severity| weight((Kind::FuseSurge, severity)))
}

/// What a device counts by itself: the plainer its style, the less; of one style the smaller rating.
pub fn plainness((style, rating): Device) -> f64 {
    LESS_PLAIN * f64::from(style.order.saturating_sub(1)) + AMPERE * rating.get()
}

/// For a branch with a fuse of its own in a cable that carries so much.
pub fn devices<'a>(loops: &FaultLoops<'a, '_>, branch: usize, ampacity: Amps) -> Vec<Device<'a>> {
    let (Some(run), Some(need)) = (loops.run(branch), base_need(loops, branch)) else { return Vec::new() };
    let pin = loops.style_pin(branch);
    let all = || styles(&loops.site.catalogue, pin);
    if let Some(given) = run.fuse {
        let having: Vec<_> = all().filter(|s| s.ratings.contains(&given)).map(|s| (s, given)).collect();
        let near = || made_near(all(), given).into_iter().flatten().map(|(s, _)| (s, given)).next();
        return if having.is_empty() { near().into_iter().collect() } else { having };
    }
    let most = FuseLimits::of(&loops.site.catalogue).at_most(ampacity);
    let fits = |style: &'a FuseStyle| {
        let least = at_least(style, &need).value;
        let made = style.rated >= need.circuit;
        let within = move |r: &&Amps| made && **r >= least && **r <= most;
        style.ratings.iter().filter(within).map(move |r| (style, *r))
    };
    all().flat_map(fits).collect()
}

/// The largest rating that a cable stands which carries so much; any where the plan gives one.
pub fn stands(loops: &FaultLoops, branch: usize, ampacity: Amps) -> Amps {
    match loops.run(branch).and_then(|run| run.fuse) {
        Some(_) => Amps::new(f64::INFINITY),
        None => FuseLimits::of(&loops.site.catalogue).at_most(ampacity),
    }
}

/// What a device at the near end of a branch has to do, faults and its cable left out.
pub fn base_need(loops: &FaultLoops, branch: usize) -> Option<FuseNeed> {
    let design = loops.design(branch)?;
    let (steady, loading) = carried(design.current, design.pulsed, loops.site.fuse_loading());
    Some(FuseNeed {
        loading,
        air: design.air + loops.site.catalogue.rules.fuse_air.value,
        steady,
        starts: design.starts,
        circuit: loops.sources.highest,
        ..FuseNeed::default()
    })
}

/// Style to speak of where no rating fits: the first that reaches what the load asks for and breaks the
/// fault; else of those that reach as far, or at all, the one that breaks most.
pub fn style_without_rating<'a>(loops: &FaultLoops<'a, '_>, branch: usize, need: &FuseNeed) -> Option<&'a FuseStyle> {
    let all = || styles(&loops.site.catalogue, loops.style_pin(branch));
    let most = |style: &&FuseStyle| breaking(style, need.circuit);
    let stronger = |a: &'a FuseStyle, b: &'a FuseStyle| if most(&b) > most(&a) { b } else { a };
    let reaches = |s: &&FuseStyle| s.ratings.last().is_some_and(|r| *r >= at_least(s, need).value);
    let reaching = || all().filter(reaches);
    reaching().find(|s| breaks(s, need)).or_else(|| reaching().reduce(stronger)).or_else(|| all().reduce(stronger))
}
