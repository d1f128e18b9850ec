//! How much room does each rule leave a fuse?

use crate::engine::judge::fuse::chain::selective;
use crate::engine::judge::fuse::limits::{FuseLimits, at_least};
use crate::engine::judge::fuse::placement::within;
use crate::engine::judge::fuse::unmade::is_unmade;
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::circuit::result::Margin;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// The room that each rule leaves; a rule that cannot be judged is left out.
pub fn margins(loops: &FaultLoops, fuse: &Fuse, upstream: Option<&Fuse>) -> Vec<Margin> {
    let mut all = Vec::with_capacity(8);
    let mut add = |rule, have: Figure, need: Figure, at_least| all.push(Margin { rule, have, need, at_least });
    let Some((style, rating)) = fuse.fitted() else { return all };
    let (limits, need, clearing) = (FuseLimits::of(&loops.site.catalogue), &fuse.need, &fuse.clearing);
    add("steady current", rating.into(), at_least(style, need).value.into(), true);
    add("cable ampacity", rating.into(), limits.at_most(need.ampacity).into(), false);
    if let Some((start, rides)) = limits.hardest(style, rating, need).filter(|h| h.1.is_finite()) {
        add("start surge", rides.into(), start.lasts.into(), true);
    }
    // A rating that is not made has no style to be judged by.
    if fuse.prospective.amps.get() > 0.0 && !is_unmade(loops, fuse) {
        add("breaking capacity", breaking(style, need.circuit).into(), fuse.prospective.amps.into(), true);
    }
    if let (Some(far), Some(needs)) = (clearing.far, clearing.needs) {
        add("far-end fault", far.amps.into(), needs.into(), true);
    }
    if let Some(through) = clearing.through {
        add("let-through energy", through.energy.into(), clearing.stands.into(), false);
    }
    let parted = upstream.filter(|u| loops.cuts_off_others(u, fuse));
    if let Some((up, _)) = parted.and_then(|u| Some((u.rating?, selective(loops, fuse, u)?))) {
        add("fuse upstream", up.into(), (rating * limits.selectivity()).into(), true);
    }
    if let (Some(run), Some(within)) = (loops.run(fuse.branch), within(loops, fuse.branch)) {
        add("distance from the source", run.fuse_distance.into(), within.into(), false);
    }
    all
}
