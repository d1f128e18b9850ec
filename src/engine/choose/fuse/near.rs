//! Which fuses stand at the near ends, parted from each other as far as they can be?

use crate::engine::choose::fuse::part::part;
use crate::engine::choose::fuse::pick::fuse_at;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;

/// A fuse at the near end of every run that has its own; parents first, since
/// the fuse-links upstream are in the way of the fault.
pub(crate) fn near_fuses<'a>(loops: &FaultLoops<'a, '_>) -> Vec<Option<Fuse<'a>>> {
    let mut near: Vec<Option<Fuse>> = Vec::with_capacity(loops.links.len());
    for branch in 0..loops.links.len() {
        let own = loops.run(branch).is_some_and(|r| r.own_fuse);
        let before = loops.upward(branch).filter_map(|b| near.get(b)?.as_ref()).map(Fuse::resistance).sum();
        near.push(if own { fuse_at(loops, branch, false, before) } else { None });
    }
    part(loops, &mut near);
    clear_again(loops, &mut near);
    near
}

/// Other fuse-links upstream are another resistance in the way of the fault.
fn clear_again(loops: &FaultLoops, near: &mut [Option<Fuse>]) {
    for branch in 0..near.len() {
        let before = loops.upward(branch).skip(1).filter_map(|b| near.get(b)?.as_ref()).map(Fuse::resistance).sum();
        let Some(Some(fuse)) = near.get_mut(branch) else { continue };
        if let Some((style, rating)) = fuse.fitted() {
            fuse.clearing = loops.clearing(branch, false, style, rating, fuse.prospective.amps, before);
        }
    }
}
