//! What must be wrong beyond a branch, whatever is chosen there?
//!
//! Of two devices in a row either the upper is so much the larger or slower, or
//! it may open too; and some open on a start wherever they stand. Both follow
//! from the devices alone. So the least of it beyond a branch, for each device
//! that may stand before it, is summed from the ends to the batteries. Faults,
//! which depend on the cables too, are left out: what is found is never more
//! than what there will be.

use crate::engine::choose::fuse::options::{CAUTION, Device};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::engine::simulate::fault::selectivity::{ChainLink, may_part};

/// One device that a branch may have, `None` where none fits, and what is wrong with it anywhere.
pub type Kind<'a> = (Option<Device<'a>>, f64);

/// By branch, by which of the devices stands at the nearest branch before it that has one; one alone where none does.
#[derive(Clone, Debug)]
pub struct Unavoidable(Vec<Vec<f64>>);

impl Unavoidable {
    /// `kinds` has the devices of each branch with a fuse of its own, and nothing for the others; `rises` is what a
    /// rating counts that is larger than the one before it.
    pub fn of(loops: &FaultLoops, kinds: &[Vec<Kind>], rises: f64) -> Self {
        let mut least: Vec<Vec<f64>> = vec![Vec::new(); kinds.len()];
        for branch in (0..kinds.len()).rev() {
            let before = loops.upward(branch).skip(1).find(|&b| !kinds[b].is_empty());
            let above = before.map_or(&[(None, 0.0)][..], |b| &kinds[b]);
            let children = loops.branch(branch).map_or(&[][..], |b| &b.children);
            let beyond = |state: usize| -> f64 { children.iter().map(|&c| least[c][state]).sum() };
            least[branch] = if kinds[branch].is_empty() {
                (0..above.len()).map(beyond).collect()
            } else {
                let inside: Vec<f64> = kinds[branch].iter().enumerate().map(|(k, kind)| kind.1 + beyond(k)).collect();
                let others = before.is_some_and(|b| loops.cuts_off(b, branch));
                let edge = |up: &Kind, down: &Kind| between(loops, up.0, down.0, others, rises);
                let least = |up: &Kind| {
                    let each = kinds[branch].iter().zip(&inside).map(|(down, inside)| inside + edge(up, down));
                    each.fold(f64::INFINITY, f64::min)
                };
                above.iter().map(least).collect()
            };
        }
        Unavoidable(least)
    }

    /// Beyond the near end of a branch, its own device among it, with such a device before it.
    pub fn least(&self, branch: usize, state: usize) -> f64 {
        self.0[branch].get(state).copied().unwrap_or(0.0)
    }
}

/// What is wrong between two devices in a row wherever they stand; `others`: whether the upper feeds anything else.
pub fn between(loops: &FaultLoops, up: Option<Device>, down: Option<Device>, others: bool, rises: f64) -> f64 {
    let (Some(up), Some(down)) = (up, down) else { return 0.0 };
    let link = |(style, rating)| ChainLink { style, rating };
    let ratio = FuseLimits::of(&loops.site.catalogue).selectivity();
    let rising = if down.1 > up.1 { rises } else { 0.0 };
    rising + if others && !may_part(link(up), link(down), ratio) { CAUTION } else { 0.0 }
}
