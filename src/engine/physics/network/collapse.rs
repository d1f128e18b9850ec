//! Which load cannot be fed, why, and what is the most that can be?
//!
//! At the limit the network is singular: a little more load and the voltage
//! runs away. The load with the largest part in that is the one whose own
//! conductance change P / V², weighted by the square of how far its point
//! moves, is largest (participation in the singular mode; the network's matrix
//! is symmetric, so left and right mode are the same).

use crate::engine::physics::network::circuit::Point;
use crate::engine::physics::network::limit::limit;
use crate::engine::physics::network::newton::{self, Asked, State};
use crate::engine::physics::network::tree::Tree;
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
    Collapse { at: tree.point(node), asked: demand(whole), largest: demand(most), share: Share::new(share) }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::physics::network::circuit::{Branch, Network, Source};
    use crate::engine::physics::network::load::Load;
    use crate::engine::physics::network::warming::Warming;
    use crate::quantity::{Celsius, Ohms, Volts};

    fn branch(from: Point, milliohms: f64, loads: Vec<Load>) -> Branch {
        let warming = Warming::Held(Celsius::new(20.0));
        Branch { from, copper: Ohms::from_milli(milliohms), fixed: Ohms::ZERO, warming, loads }
    }

    /// Explained at the share of its loads that can just be fed.
    fn collapse(internal: f64, branches: Vec<Branch>) -> Collapse {
        let source = Source { voltage: Volts::new(12.0), internal: Ohms::from_milli(internal) };
        let network = Network { source, loads: vec![], branches };
        let tree = Tree::of(&network).unwrap();
        let Ok((share, state)) = limit(&tree, &Asked::fed_in(&tree), &Asked::insisted(&tree)) else {
            panic!("a limit")
        };
        explain(&tree, share, &state)
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
        assert_eq!(found.at, Point::End(0));
        assert_eq!(found.asked, Demand::Power(Watts::new(900.0)));
        let Demand::Power(most) = found.largest else { panic!("a power") };
        assert!((715.0..720.0).contains(&most.get()), "{most}: a little under 12² / (4 × 0.05) = 720 W");
    }

    /// A constant current has no nose: it can be fed until nothing is left, 12 V / 1 Ω = 12 A.
    #[test]
    fn too_much_constant_current_is_a_collapse_too() {
        let found = collapse(0.0, vec![branch(Point::Terminals, 1000.0, vec![Load::Current(Amps::new(20.0))])]);
        let Demand::Current(most) = found.largest else { panic!("a current") };
        assert!((most.get() - 12.0).abs() < 1e-6, "{most}");
        assert!((found.share.get() - 0.6).abs() < 1e-8);
    }

    /// Where the rest alone is too much, nothing is promised there.
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
    }
}
