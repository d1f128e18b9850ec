//! Which fuses, where, and do they clear every fault in time?
//!
//! - [`choice`]: the smallest rating between load and cable; [`window`]: its findings.
//! - [`pick`]: the fuse of one end of one run, given or chosen.
//! - [`sources`], [`link`], [`faults`]: largest and smallest fault currents; [`breaking`].
//! - [`gates`], [`clearing`], [`far_fault`], [`let_through`]: when it opens and what comes through.
//! - [`selectivity`], [`chain`]: fuses in a row, runs without one; [`far_end`]: sources beyond.
//! - [`placement`]: how far from the source. [`memory`]: what rests on remembered figures.
//!
//! Operating times may raise a finding; they never take away one that a rule
//! without them raises: the rating against the ampacity, the breaking capacity,
//! the fuse's place and the runs without a fuse are judged without gates.

mod breaking;
mod chain;
mod choice;
mod clearing;
mod far_end;
mod far_fault;
mod faults;
pub mod gates;
mod ground;
pub mod let_through;
mod link;
mod memory;
mod pick;
mod placement;
mod result;
pub mod selectivity;
mod sources;
#[cfg(test)]
mod tests;
mod window;
mod workings;

pub use choice::{FuseChoice, FuseNeed, RATED_AIR, at_least, breaks, fuse_for_cable, rerating};
pub use faults::short_circuit;

use super::battery::BatteryDesign;
use super::book::Book;
use super::charger::ChargerDesign;
use super::run::{FarEnd, RunDesign};
use super::topology::Topology;
use crate::catalogue::Catalogue;
use crate::plan::Plan;
use crate::quantity::*;
use ground::Ground;
use pick::Fuse;

/// Fuse every run that has a size: fills `fuses` and `far_end` of `runs`, in the plan's order.
pub fn protect(
    plan: &Plan,
    catalogue: &Catalogue,
    topology: &Topology,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    runs: &mut [RunDesign],
    book: &mut Book,
) {
    let ground = Ground::new(plan, catalogue, topology, battery, charger, runs);
    let near = near_fuses(&ground);
    let ends: Vec<FarEnd> = (0..topology.branches.len()).map(|b| ground.far_end(b, &near)).collect();
    let far: Vec<Option<Fuse>> = ends
        .iter()
        .enumerate()
        .map(|(b, end)| if *end == FarEnd::Fused { ground.pick(b, true, Ohms::ZERO) } else { None })
        .collect();
    for (branch, end) in ends.iter().enumerate() {
        let fuses = [near.get(branch), far.get(branch)].into_iter().flatten().flatten();
        for fuse in fuses {
            judge(&ground, fuse, &near, book);
        }
        if ground.run(branch).is_some_and(|r| !r.own_fuse) {
            chain::find_unfused(&ground, branch, &near, book);
        }
        chain::find_open_end(&ground, branch, *end, book);
    }
    memory::find(near.iter().chain(&far).flatten(), book);
    let shown: Vec<_> = (0..ends.len()).map(|b| (b, designs(&ground, b, &near, &far))).collect();
    for ((branch, fuses), end) in shown.into_iter().zip(ends) {
        let run = topology.branches.get(branch).and_then(|b| runs.get_mut(b.run));
        if let Some(run) = run {
            run.fuses = fuses;
            run.far_end = end;
        }
    }
}

/// A fuse at the near end of every run that has its own; parents first, since
/// the fuse-links upstream are in the way of the fault.
fn near_fuses<'a>(ground: &Ground<'a>) -> Vec<Option<Fuse<'a>>> {
    let mut near: Vec<Option<Fuse>> = Vec::with_capacity(ground.links.len());
    for branch in 0..ground.links.len() {
        let own = ground.run(branch).is_some_and(|r| r.own_fuse);
        let before = ground.upward(branch).filter_map(|b| near.get(b)?.as_ref()).map(Fuse::resistance).sum();
        near.push(if own { ground.pick(branch, false, before) } else { None });
    }
    near
}

fn judge(ground: &Ground, fuse: &Fuse, near: &[Option<Fuse>], book: &mut Book) {
    window::find(ground, fuse, book);
    breaking::find(ground, fuse, book);
    far_fault::find(ground, fuse, book);
    placement::find(ground, fuse, book);
    if let Some(up) = ground.upstream(fuse.branch, near).filter(|_| !fuse.far_end) {
        chain::find(ground, fuse, up, book);
    }
    workings::keep(ground, fuse, book);
}

fn designs(ground: &Ground, branch: usize, near: &[Option<Fuse>], far: &[Option<Fuse>]) -> Vec<super::run::FuseDesign> {
    let upstream = ground.upstream(branch, near);
    let near = near.get(branch).into_iter().flatten().map(|f| result::shown(ground, f, upstream));
    let far = far.get(branch).into_iter().flatten().map(|f| result::shown(ground, f, None));
    near.chain(far).collect()
}
