//! What resistance lies between battery and charger input or sensing point, once the runs are sized.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::{Side, Topology};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::point;
use crate::quantity::*;

/// What the network between the battery and the sensing point contributes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SensingPath {
    /// Resistance from the posts to the sensing point, out and back.
    pub resistance: Ohms,
    /// Share of the battery's current that flows through it.
    pub share: Share,
    /// Largest steady current that the runs through the cut-off are sized for: an
    /// inverter counts with its rating there, whatever is plugged in today.
    pub through: Amps,
    /// Smallest fuse between the battery and the cut-off: what it lets flow for
    /// hours the cut-off must stand too.
    pub fuse: Option<Amps>,
}

impl SensingPath {
    /// Resistance between posts and sensing point, for the share of the battery's current that flows there.
    pub fn between(&self) -> Ohms {
        self.resistance * self.share.get()
    }
}

impl Default for SensingPath {
    /// Sensing at the posts.
    fn default() -> Self {
        SensingPath { resistance: Ohms::ZERO, share: Share::FULL, through: Amps::ZERO, fuse: None }
    }
}

/// Resistance of the charger's feed, out and back; zero while it is not connected.
pub fn feed_resistance(topology: &Topology, runs: &[RunDesign]) -> Ohms {
    topology.feed_path().unwrap_or_default().iter().map(|&b| resistance(topology, runs, b).0).sum()
}

/// From the posts of the service battery to the sensing point. Each run on the
/// way carries its own share of the battery's peak current.
pub fn sensing_path(site: &Installation, runs: &[RunDesign], budget: &Budget) -> SensingPath {
    let (through, fuse) = (through_cut_off(&site.circuits, runs), fuse_before(&site.circuits, runs));
    let Some(path) = site.circuits.path_to(&site.cut_off.senses_at) else {
        return SensingPath { through, fuse, ..SensingPath::default() };
    };
    let parts: Vec<(Ohms, Amps)> = path.iter().map(|&b| resistance(&site.circuits, runs, b)).collect();
    let total: Ohms = parts.iter().map(|p| p.0).sum();
    let drop: Volts = parts.iter().map(|&(r, i)| i.min(budget.peak) * r).sum();
    let at_once = budget.peak * total;
    let share = if at_once.get() > 0.0 { Share::new((drop / at_once).clamp(0.0, 1.0)) } else { Share::FULL };
    SensingPath { resistance: total, share, through, fuse }
}

/// Steady current of the run that leads to the cut-off; of those that leave it when it sits at the posts.
fn through_cut_off(topology: &Topology, runs: &[RunDesign]) -> Amps {
    let current = |branch: usize| resistance(topology, runs, branch).1;
    match topology.to_point.get(point::CUT_OFF) {
        Some(&branch) => current(branch),
        None => (0..topology.branches.len())
            .filter(|&b| topology.branches[b].side == Side::Service && topology.branches[b].near == point::CUT_OFF)
            .map(current)
            .sum(),
    }
}

/// Smallest fuse on the way from the battery to the cut-off.
fn fuse_before(topology: &Topology, runs: &[RunDesign]) -> Option<Amps> {
    let path = topology.path_to(point::CUT_OFF)?;
    let branches = path.into_iter().filter_map(|b| topology.branches.get(b));
    let fuses = branches.filter_map(|b| runs.get(b.run)?.fuses.iter().find(|f| f.at == b.near)?.rating);
    fuses.reduce(Amps::min)
}

fn resistance(topology: &Topology, runs: &[RunDesign], branch: usize) -> (Ohms, Amps) {
    let run = topology.branches.get(branch).and_then(|b| runs.get(b.run));
    run.map_or((Ohms::ZERO, Amps::ZERO), |r| (r.size.as_ref().map_or(Ohms::ZERO, |s| s.resistance), r.current))
}
