//! Which size is used in each run, and which others there were.

use crate::engine::installation::circuits::Topology;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::circuit::candidate::{Asked, Candidate, Fails, Shelf};
use crate::engine::simulate::circuit::demand::{Terminal, class_drop};
use crate::engine::simulate::circuit::result::Protector;
use crate::quantity::*;
use crate::reckon;

/// One run with all its candidates and the one used.
#[derive(Clone, Debug)]
pub struct PickedRun<'a> {
    /// What it is like apart from its size.
    pub asked: Asked<'a>,
    /// The device at its near end.
    pub protector: Protector,
    /// How it lies, for the table's factors.
    pub lay: usize,
    /// Every size by growing area.
    pub candidates: Vec<Candidate>,
    /// Which of them is pinned by the plan.
    pub pinned: Option<usize>,
    /// Which is used.
    pub used: usize,
    /// Which the equal-share rule would use.
    pub shared: usize,
    /// Allowance of the equal-share rule.
    pub share: Option<Reckoned<Volts, 5>>,
    /// Drop that is left to the tightest end beyond, with all sizes as used; `None` without an end.
    pub left: Option<Volts>,
    /// The same of ends that no choice can serve, where there is no other end: below zero.
    pub short: Option<Volts>,
    /// Whether any size stands by itself.
    pub stands: bool,
}

impl PickedRun<'_> {
    /// The candidate used.
    pub fn chosen(&self) -> &Candidate {
        &self.candidates[self.used]
    }

    /// Largest drop that it may have, the other runs as they are; `None` where no end lies beyond.
    pub fn allowed(&self) -> Option<Reckoned<Volts, 2>> {
        let left = self.left.or(self.short)?;
        Some(reckon!(Volts: max(U + X, 0.0),
            U: "drop of the run" = self.chosen().drop, X: "left to the tightest load beyond" = left))
    }
}

/// All runs.
#[derive(Debug)]
pub struct Picked<'a> {
    /// The cables the candidates speak of.
    pub shelf: Shelf<'a>,
    /// By branch of the topology.
    pub runs: Vec<PickedRun<'a>>,
    /// By terminal: no choice of free sizes keeps its limit.
    pub hopeless: Vec<bool>,
    /// Copper of all runs as used.
    pub mass: Kilograms,
    /// Copper by the equal-share rule; `None` where that breaks a limit.
    pub shared_mass: Option<Kilograms>,
    /// Whether the answer is proven to be the lightest.
    pub exact: bool,
    /// How many devices were put into a run to find it.
    pub tried: usize,
    /// Where it is not, the least copper of all choices that keep every drop, whatever the devices ask for.
    pub no_less: Option<Kilograms>,
    /// Whether the wish for few sizes could be met.
    pub few_enough: bool,
}

/// How far over its limit an end may lie by the upper bounds and still be tried.
const NEARLY: f64 = 1.15;

impl Picked<'_> {
    /// Drop from the battery to the far end of a branch, by the sizes used.
    pub fn drop_to(&self, topology: &Topology, branch: usize) -> Volts {
        topology.path_of(branch).into_iter().map(|b| self.runs[b].chosen().drop).sum()
    }
}

/// The limit that an end is sized for, when nothing less than `least` can be reached: the currents are upper
/// bounds, so that an end just out of reach may still be served, in the largest sizes.
pub(crate) fn tried_limit(terminal: &Terminal, least: Volts) -> Volts {
    let class = class_drop(terminal.class, terminal.nominal).value;
    if least <= terminal.limit * NEARLY {
        terminal.limit.max(least)
    } else if terminal.by_lowest && least <= class * NEARLY {
        // Its lowest voltage cannot be met; its class still can.
        class.max(least)
    } else {
        terminal.limit
    }
}

/// Candidates that may be chosen: the pinned one, else those that stand, else the largest.
pub(crate) fn free(run: &PickedRun) -> Vec<usize> {
    if let Some(pinned) = run.pinned {
        return vec![pinned];
    }
    let standing: Vec<usize> = (0..run.candidates.len()).filter(|c| run.candidates[*c].stands()).collect();
    if standing.is_empty() { vec![run.candidates.len().saturating_sub(1)] } else { standing }
}

/// Whether a size would drop more than the tightest end beyond has left, the other runs as they are.
pub(crate) fn fails_drop(run: &PickedRun, candidate: &Candidate) -> bool {
    let Some(left) = run.left.or(run.short) else { return false };
    candidate.drop.get() > run.chosen().drop.get() + left.get() + 1e-12
}

/// What decided the size, in words: what the next smaller one fails.
pub(crate) fn ruling(run: &PickedRun) -> &'static str {
    if run.pinned.is_some() {
        return "given";
    }
    let Some(below) = run.used.checked_sub(1).and_then(|i| run.candidates.get(i)) else { return Fails::Thin.word() };
    let own = below.fails.iter().flatten().next();
    own.unwrap_or(&Fails::Drop).word()
}
