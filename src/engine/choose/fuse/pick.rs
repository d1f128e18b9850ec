//! A device put into its place, and which one goes to the far end of a run.

use crate::engine::choose::fuse::options::{Device, base_need, devices, plainness, style_without_rating, wrong};
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::fault::backup::backup;
use crate::engine::simulate::fault::fuse::{Clearing, Fuse, FuseNeed, LinksBefore};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// A place for a device at the near end of a branch.
pub(crate) struct Fitting<'z> {
    /// The branch that it protects.
    pub branch: usize,
    /// The branches at whose far ends a fault is its own to clear.
    pub ends: &'z [usize],
    /// What the thinnest conductor there carries, and which that is.
    pub thinnest: (Amps, usize),
    /// The fuse-links before it.
    pub before: LinksBefore,
}

/// The fuse-links between a place and its battery: before the near end, or the one there too.
pub(crate) fn links_before<'a>(
    loops: &FaultLoops<'a, '_>,
    branch: usize,
    far_end: bool,
    near: &[Option<Fuse<'a>>],
) -> LinksBefore {
    let way = loops.upward(branch).skip(usize::from(!far_end));
    way.filter_map(|b| near.get(b)?.as_ref()).fold(LinksBefore::default(), |sum, fuse| sum.and(fuse))
}

/// A device at its place; without one the place alone, with a style to speak of. `near` has the devices before it.
/// `None` while nothing is known of the run.
pub(crate) fn fit<'a>(
    loops: &FaultLoops<'a, '_>,
    place: &Fitting,
    device: Option<Device<'a>>,
    near: &[Option<Fuse<'a>>],
) -> Option<Fuse<'a>> {
    let Fitting { branch, ends, thinnest, before } = *place;
    let prospective = loops.prospective(branch, before.least);
    let need = FuseNeed {
        ampacity: thinnest.0,
        thinnest: thinnest.1,
        prospective: prospective.amps,
        likely: prospective.likely,
        ..base_need(loops, branch)?
    };
    let alone = device.is_some_and(|(style, _)| breaking(style, need.circuit) >= prospective.amps);
    let backup = if alone { None } else { backup(loops, branch, near, &prospective, need.circuit) };
    let clearing =
        device.map(|(style, rating)| loops.clearing(branch, ends, false, style, rating, prospective.amps, before.warm));
    Some(Fuse {
        branch,
        far_end: false,
        need: FuseNeed { backed: backup.map(|b| b.remaining), ..need },
        prospective,
        backup,
        style: device.map(|d| d.0).or_else(|| style_without_rating(loops, branch, &need)),
        rating: device.map(|d| d.1),
        pinned: loops.run(branch).is_some_and(|r| r.fuse.is_some()),
        ruling: "",
        clearing: clearing.unwrap_or_default(),
    })
}

/// The device at the far end of a branch that is fed from there too: of those that its cable takes the one with the
/// least wrong, then the plainest.
pub(crate) fn far_fuse<'a>(loops: &FaultLoops<'a, '_>, branch: usize, near: &[Option<Fuse<'a>>]) -> Option<Fuse<'a>> {
    let link = *loops.link(branch).filter(|l| l.is_sized())?;
    let before = links_before(loops, branch, true, near);
    let prospective = loops.prospective_far(branch, before.least);
    let need = FuseNeed {
        ampacity: link.ampacity,
        thinnest: branch,
        prospective: prospective.amps,
        likely: prospective.likely,
        ..base_need(loops, branch)?
    };
    let with = |device: Option<Device<'a>>| Fuse {
        branch,
        far_end: true,
        need,
        prospective,
        backup: None,
        style: device.map(|d| d.0).or_else(|| style_without_rating(loops, branch, &need)),
        rating: device.map(|d| d.1),
        pinned: loops.run(branch).is_some_and(|r| r.fuse.is_some()),
        ruling: "",
        clearing: device.map_or_else(Clearing::default, |(style, rating)| {
            loops.clearing(branch, &[branch], true, style, rating, prospective.amps, Ohms::ZERO)
        }),
    };
    let all = devices(loops, branch, link.ampacity).into_iter().map(|device| {
        let fuse = with(Some(device));
        (wrong(loops, &fuse, None) + plainness(device), fuse)
    });
    Some(all.min_by(|a, b| a.0.total_cmp(&b.0)).map_or_else(|| with(None), |(_, fuse)| fuse))
}
