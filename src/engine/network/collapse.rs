//! Which load cannot be fed, why, and what is the most that can be?
//!
//! At the limit the network is singular: a little more load and the voltage
//! runs away. The load with the largest part in that is the one whose own
//! conductance change P / V², weighted by the square of how far its point
//! moves, is largest (participation in the singular mode; the network's matrix
//! is symmetric, so left and right mode are the same).

use super::Point;
use super::continuation::limit;
use super::newton::{self, Asked, State};
use super::solution::Solution;
use super::tree::Tree;
use crate::quantity::{Amps, Share, Watts};
use std::fmt;

/// The loads ask for more than source and cables can bring.
#[derive(Clone, Debug)]
pub struct Collapse {
    /// Where the load hangs that has the largest part in the collapse.
    pub at: Point,
    /// What the loads there ask for.
    pub asked: Demand,
    /// The most that can be fed there with everything else as entered; zero
    /// when the rest alone is already too much.
    pub largest: Demand,
    /// The share of all constant powers and constant currents together that
    /// can just be fed, 0 to 1; found from below, to 1e-9.
    pub share: Share,
    /// The branch on the way to that load that loses most voltage at the
    /// limit: the first to make bigger. `None` when it is the source itself.
    pub bottleneck: Option<usize>,
    /// Voltages and currents at that share. A real plan must stay well clear of it.
    pub at_limit: Solution,
}

/// What a load insists on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Demand {
    /// Constant power.
    Power(Watts),
    /// Constant current.
    Current(Amps),
}

impl fmt::Display for Demand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Demand::Power(power) => power.fmt(f),
            Demand::Current(current) => current.fmt(f),
        }
    }
}

impl fmt::Display for Collapse {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the voltage collapses: {} asked at {}, at most {} can be fed there with everything else as entered, or {} of all loads together",
            self.asked, self.at, self.largest, self.share
        )?;
        match self.bottleneck {
            Some(index) => write!(f, "; branch {index} loses most on the way: use a larger conductor there"),
            None => write!(f, "; the source's own resistance loses most: use a stronger source"),
        }
    }
}

/// Explain the collapse found when `share` of what is asked could just be fed, in `state`.
pub(super) fn explain(tree: &Tree, share: f64, state: &State) -> Collapse {
    let (base, all) = (Asked::fed_in(tree), Asked::insisted(tree));
    let node = worst(tree, &base, &all, share, state);
    let by_power = tree.nodes[node].power > 0.0;
    let mut own = Asked::nothing(tree);
    let (part, whole) = if by_power {
        (&mut own.power[node], tree.nodes[node].power)
    } else {
        (&mut own.current[node], tree.nodes[node].current)
    };
    *part = whole;
    let rest = base.plus(&all, 1.0).plus(&own, -1.0);
    let most = limit(tree, &rest, &own).map_or(0.0, |(share, _)| share) * whole;
    let demand = |amount| if by_power { Demand::Power(Watts::new(amount)) } else { Demand::Current(Amps::new(amount)) };
    let at_limit = Solution::of(tree, &base.plus(&all, share), state);
    Collapse {
        at: tree.point(node),
        asked: demand(whole),
        largest: demand(most),
        share: Share::new(share),
        bottleneck: bottleneck(tree, node, state),
        at_limit,
    }
}

/// The node whose load has the largest part in the collapse.
fn worst(tree: &Tree, base: &Asked, all: &Asked, share: f64, state: &State) -> usize {
    let below = newton::solve(tree, &base.plus(all, share * 0.9999), state.clone());
    let moved = |node: usize| match &below {
        Ok(below) => below.volts[node] - state.volts[node],
        Err(_) => tree.feed - state.volts[node],
    };
    let part = |node: usize| {
        let (volts, point) = (state.volts[node], &tree.nodes[node]);
        moved(node).powi(2) * point.power / (volts * volts)
    };
    let lowest = |nodes: &mut dyn Iterator<Item = usize>| {
        nodes.min_by(|a, b| state.volts[*a].total_cmp(&state.volts[*b])).unwrap_or(0)
    };
    let by_power = (0..tree.nodes.len()).filter(|n| part(*n) > 0.0).max_by(|a, b| part(*a).total_cmp(&part(*b)));
    let lowest_current = lowest(&mut (0..tree.nodes.len()).filter(|n| tree.nodes[*n].current > 0.0));
    match by_power {
        // A constant current has no nose: it pulls the voltage down to nothing, long past half.
        Some(node) if state.volts[lowest_current] > 0.01 * tree.feed || tree.nodes[lowest_current].current <= 0.0 => {
            node
        }
        _ => lowest_current,
    }
}

/// The branch that loses most on the way to `node`.
fn bottleneck(tree: &Tree, node: usize, state: &State) -> Option<usize> {
    let mut most = (tree.feed - state.volts[0], 0);
    let mut at = node;
    while at > 0 {
        let parent = tree.nodes[at].parent;
        let lost = state.volts[parent] - state.volts[at];
        if lost >= most.0 {
            most = (lost, at);
        }
        at = parent;
    }
    match tree.point(most.1) {
        Point::End(index) => Some(index),
        Point::Terminals => None,
    }
}
