//! Can the fuses in a row be parted, so that only the nearest opens?
//!
//! A fuse that the plan leaves open is raised to `selectivity-ratio` times the
//! largest one behind it, as far as its cable allows and as long as it clears
//! its own faults as well as before. From the ends to the battery, since a
//! raised fuse asks for more upstream.

use crate::engine::judge::fuse::chain::selective;
use crate::engine::judge::fuse::limits::{FuseChoice, FuseLimits};
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed, GivenUp};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// Raise what can be raised.
pub(crate) fn part<'a>(loops: &FaultLoops<'a, '_>, near: &mut [Option<Fuse<'a>>]) {
    let upstream: Vec<Option<usize>> = (0..near.len())
        .map(|branch| loops.upward(branch).skip(1).find(|&b| near.get(b).is_some_and(Option::is_some)))
        .collect();
    let mut wanted = vec![Amps::ZERO; near.len()];
    let ratio = FuseLimits::of(&loops.site.catalogue).selectivity();
    for branch in (0..near.len()).rev() {
        let Some(fuse) = near.get(branch).copied().flatten() else { continue };
        let floor = wanted.get(branch).copied().unwrap_or(Amps::ZERO);
        let raised = if fuse.pinned { None } else { raised(loops, &fuse, floor) };
        if let (Some(raised), Some(place)) = (raised, near.get_mut(branch)) {
            *place = Some(raised);
        }
        let Some(up) = upstream.get(branch).copied().flatten() else { continue };
        let parted = match (near.get(branch), near.get(up)) {
            (Some(Some(fuse)), Some(Some(up))) => {
                !loops.cuts_off_others(up, fuse) || selective(loops, fuse, up) != Some(false)
            }
            _ => true,
        };
        let rating = near.get(branch).and_then(|f| f.as_ref()?.rating);
        if let (false, Some(rating), Some(place)) = (parted, rating, wanted.get_mut(up)) {
            *place = place.max(rating * ratio);
        }
    }
}

/// The same fuse with at least `floor`; `None` where it has that, or where nothing of that size does as well.
fn raised<'a>(loops: &FaultLoops<'a, '_>, fuse: &Fuse<'a>, floor: Amps) -> Option<Fuse<'a>> {
    let rating = fuse.rating.filter(|r| r.get() < floor.get())?;
    let gave_up = GivenUp { beyond: false, ..fuse.gave_up };
    let need = FuseNeed { floor, ..gave_up.of(&fuse.need, fuse.need.ampacity) };
    let before = fuse.clearing.links_before;
    let clears = |c: FuseChoice<'a>| {
        let then = loops.clearing(fuse.branch, false, c.style, c.rating, fuse.prospective.amps, before);
        let as_soon = then.opens_in_time(loops.fault_open)
            || !fuse.clearing.opens_in_time(loops.fault_open)
                && (then.stands_the_wait() || !fuse.clearing.stands_the_wait());
        (as_soon && then.is_stood() && c.rating.get() > rating.get()).then_some((c, then))
    };
    let limits = FuseLimits::of(&loops.site.catalogue);
    let (choice, clearing) = limits.fitting(loops.style_pin(fuse.branch), &need).find_map(clears)?;
    Some(Fuse { style: Some(choice.style), rating: Some(choice.rating), ruling: "selectivity", clearing, ..*fuse })
}
