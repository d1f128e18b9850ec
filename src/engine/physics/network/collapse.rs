//! Which load cannot be fed, why, and what is the most that can be?
//!
//! At the limit the network is singular: a little more load and the voltage
//! runs away. The load with the largest part in that is the one whose own
//! conductance change P / V², weighted by the square of how far its point
//! moves, is largest (participation in the singular mode; the network's matrix
//! is symmetric, so left and right mode are the same).

use crate::engine::physics::network::continuation::limit;
use crate::engine::physics::network::newton::{Asked, State};
use crate::engine::physics::network::solution::Solution;
use crate::engine::physics::network::tree::Tree;
use crate::engine::physics::network::{Point, newton};
use crate::quantity::{Amps, Share, Watts};
use std::fmt;

/// The loads ask for more than source and cables can bring.
#[derive(Clone, Debug, PartialEq)]
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

impl Demand {
    /// Whether it is nothing at all.
    pub fn is_zero(self) -> bool {
        match self {
            Demand::Power(power) => power <= Watts::ZERO,
            Demand::Current(current) => current <= Amps::ZERO,
        }
    }
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
        write!(f, "the voltage collapses: {} asked at {}; ", self.asked, self.at)?;
        if self.largest.is_zero() {
            write!(f, "the other loads alone are already too much")?;
        } else {
            write!(f, "at most {} can be fed there with everything else as entered", self.largest)?;
        }
        write!(f, "; all together can be fed to {}", self.share)?;
        match self.bottleneck {
            Some(index) => write!(f, "; branch {index} loses most on the way: use a larger conductor there"),
            None => write!(f, "; the source's own resistance loses most: use a stronger source"),
        }
    }
}

/// Explain the collapse found when `share` of what is asked could just be fed, in `state`.
pub(crate) fn explain(tree: &Tree, share: f64, state: &State) -> Collapse {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::physics::network::fault::NoSolution;
    use crate::engine::physics::network::load::Load;
    use crate::engine::physics::network::warming::Warming;
    use crate::engine::physics::network::{Branch, Network, Source};
    use crate::quantity::{Celsius, Ohms, Volts};

    fn branch(from: Point, milliohms: f64, loads: Vec<Load>) -> Branch {
        let warming = Warming::Held(Celsius::new(20.0));
        Branch { from, copper: Ohms::from_milli(milliohms), fixed: Ohms::ZERO, warming, loads }
    }

    fn collapse(internal: f64, branches: Vec<Branch>) -> Collapse {
        let source = Source { voltage: Volts::new(12.0), internal: Ohms::from_milli(internal) };
        match (Network { source, loads: vec![], branches }).solve() {
            Err(NoSolution::Collapse(collapse)) => *collapse,
            other => panic!("{other:?}"),
        }
    }

    /// The inverter is named, not the lamp with the lowest voltage at the end of thin wire;
    /// its most is E² / 4R with the lamp's small draw taken off.
    #[test]
    fn the_load_that_matters_is_named() {
        let found = collapse(
            10.0,
            vec![
                branch(Point::Terminals, 40.0, vec![Load::Power(Watts::new(900.0))]),
                branch(Point::End(0), 500.0, vec![Load::Power(Watts::new(1.0))]),
            ],
        );
        assert_eq!((found.at, found.bottleneck), (Point::End(0), Some(0)));
        assert_eq!(found.asked, Demand::Power(Watts::new(900.0)));
        let Demand::Power(most) = found.largest else { panic!("a power") };
        assert!((715.0..720.0).contains(&most.get()), "{most}: a little under 12² / (4 × 0.05) = 720 W");
        assert!(found.to_string().contains("900 W asked at the end of branch 0; at most 71"), "{found}");
        assert!((found.at_limit.branches[0].voltage.get() - 6.0).abs() < 0.1, "the nose is at half the voltage");
    }

    #[test]
    fn a_weak_source_is_named() {
        let found = collapse(100.0, vec![branch(Point::Terminals, 5.0, vec![Load::Power(Watts::new(500.0))])]);
        assert_eq!(found.bottleneck, None);
        assert!(found.to_string().contains("the source's own resistance"), "{found}");
    }

    /// A constant current has no nose: it can be fed until nothing is left, 12 V / 1 Ω = 12 A.
    #[test]
    fn too_much_constant_current_is_a_collapse_too() {
        let found = collapse(0.0, vec![branch(Point::Terminals, 1000.0, vec![Load::Current(Amps::new(20.0))])]);
        let Demand::Current(most) = found.largest else { panic!("a current") };
        assert!((most.get() - 12.0).abs() < 1e-6, "{most}");
        assert!((found.share.get() - 0.6).abs() < 1e-8);
    }

    /// Where the rest alone is too much, the message does not promise anything there.
    #[test]
    fn two_loads_that_are_each_too_much() {
        let load = || vec![Load::Power(Watts::new(2000.0))];
        let found = collapse(
            10.0,
            vec![
                branch(Point::Terminals, 40.0, vec![]),
                branch(Point::End(0), 1.0, load()),
                branch(Point::End(0), 2.0, load()),
            ],
        );
        assert_eq!(found.largest, Demand::Power(Watts::ZERO));
        assert!(found.to_string().contains("the other loads alone are already too much"), "{found}");
    }
}
