//! Which devices stand at the near ends, as chosen together with the sizes?

use crate::engine::choose::circuit::offer::{Asked, Cable};
use crate::engine::choose::circuit::together::together;
use crate::engine::choose::fuse::options::Device;
use crate::engine::choose::fuse::pick::{Fitting, fit, links_before};
use crate::engine::choose::fuse::ruling::ruling;
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::simulate::circuit::result::Protector;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// The devices of all branches as they were chosen; chosen now, for the sizes as they are, where they were not.
pub(crate) fn chosen<'a>(loops: &mut FaultLoops<'a, '_>) -> Vec<Option<Device<'a>>> {
    let styles = &loops.site.catalogue.fuse_styles;
    let device = |branch: usize| match loops.design(branch).map(|d| d.protector) {
        Some(Protector::Of(style, rating)) => Some(styles.get(style).map(|s| (s, rating))),
        Some(Protector::Missing) => Some(None),
        _ => None,
    };
    let known: Option<Vec<_>> = (0..loops.links.len()).map(device).collect();
    known.unwrap_or_else(|| {
        let as_it_is = |link: &_| Cable { link: *link, drop: Volts::ZERO, mass: Kilograms::ZERO };
        let asked: Vec<Asked> =
            loops.links.iter().map(|link| Asked { cables: vec![as_it_is(link)], room: None }).collect();
        together(loops, &asked).map(|found| found.device).unwrap_or_default()
    })
}

/// A fuse at the near end of every run that has its own; parents first, since the fuse-links upstream are in the way
/// of the fault.
pub(crate) fn near_fuses<'a>(loops: &FaultLoops<'a, '_>, devices: &[Option<Device<'a>>]) -> Vec<Option<Fuse<'a>>> {
    let limits = FuseLimits::of(&loops.site.catalogue);
    let mut near: Vec<Option<Fuse>> = Vec::with_capacity(loops.links.len());
    for branch in 0..loops.links.len() {
        let own = loops.run(branch).is_some_and(|r| r.own_fuse) && loops.link(branch).is_some_and(|l| l.is_sized());
        if !own {
            near.push(None);
            continue;
        }
        let before = links_before(loops, branch, false, &near);
        let (ends, thinnest) = (loops.zone(branch), limits.thinnest(loops, branch));
        let place = Fitting { branch, ends: &ends, thinnest, before };
        let device = devices.get(branch).copied().flatten();
        near.push(fit(loops, &place, device, &near));
    }
    for branch in 0..near.len() {
        let words = near[branch].as_ref().map(|fuse| ruling(loops, fuse, &near));
        if let (Some(fuse), Some(words)) = (&mut near[branch], words) {
            fuse.ruling = words;
        }
    }
    near
}
