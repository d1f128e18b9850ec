//! Can the fuses in a row be parted, so that only the nearest opens?
//!
//! A fuse that the plan leaves open is raised to `selectivity-ratio` times the
//! largest one behind it, as far as its cable allows and as long as it clears
//! its own faults as well as before. From the ends to the battery, since a
//! raised fuse asks for more upstream.

use crate::engine::choose::fuse::choice::{FuseChoice, FuseNeed, styles};
use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::judge::fuse::chain::selective;
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;

/// Raise what can be raised.
pub(crate) fn part<'a>(ground: &Ground<'a>, near: &mut [Option<Fuse<'a>>]) {
    let upstream: Vec<Option<usize>> = (0..near.len())
        .map(|branch| ground.upward(branch).skip(1).find(|&b| near.get(b).is_some_and(Option::is_some)))
        .collect();
    let mut wanted = vec![Amps::ZERO; near.len()];
    let ratio = ground.site.catalogue.rules.selectivity.value;
    for branch in (0..near.len()).rev() {
        let Some(fuse) = near.get(branch).copied().flatten() else { continue };
        let floor = wanted.get(branch).copied().unwrap_or(Amps::ZERO);
        let raised = if fuse.pinned { None } else { raised(ground, &fuse, floor) };
        if let (Some(raised), Some(place)) = (raised, near.get_mut(branch)) {
            *place = Some(raised);
        }
        let Some(up) = upstream.get(branch).copied().flatten() else { continue };
        let parted = match (near.get(branch), near.get(up)) {
            (Some(Some(fuse)), Some(Some(up))) => {
                !ground.cuts_off_others(up, fuse) || selective(ground, fuse, up) != Some(false)
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
fn raised<'a>(ground: &Ground<'a>, fuse: &Fuse<'a>, floor: Amps) -> Option<Fuse<'a>> {
    let rating = fuse.rating.filter(|r| r.get() < floor.get())?;
    let pin = ground.run(fuse.branch)?.fuse_style.as_deref();
    let mut need = FuseNeed { floor, ..fuse.need };
    if fuse.gave_up.breaking {
        need.prospective = Amps::ZERO;
    }
    if fuse.gave_up.start {
        need.starts = Starts::NONE;
    }
    let before = fuse.clearing.links_before;
    let clears = |c: FuseChoice<'a>| {
        let then = ground.clearing(fuse.branch, false, c.style, c.rating, fuse.prospective.amps, before);
        let as_soon = then.opens_in_time(ground.fault_open)
            || !fuse.clearing.opens_in_time(ground.fault_open)
                && (then.stands_the_wait() || !fuse.clearing.stands_the_wait());
        (as_soon && then.is_stood() && c.rating.get() > rating.get()).then_some((c, then))
    };
    let (choice, clearing) =
        styles(&ground.site.catalogue, pin).filter_map(|s| ground.rules.in_style(s, &need)).find_map(clears)?;
    Some(Fuse { style: Some(choice.style), rating: Some(choice.rating), ruling: "selectivity", clearing, ..*fuse })
}
