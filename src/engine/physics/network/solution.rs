//! What the solved network says, and does its power balance close?

use crate::engine::physics::network::newton::{Asked, State};
use crate::engine::physics::network::tree::Tree;
use crate::engine::physics::network::{Network, Point};
use crate::quantity::{Amps, Celsius, Ohms, Volts, Watts};

/// Voltages, currents and temperatures of the whole network.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    /// Voltage at the source's terminals.
    pub terminals: Volts,
    /// Current out of the source; negative when it is being charged.
    pub current: Amps,
    /// One per branch, in the network's order.
    pub branches: Vec<BranchState>,
    /// Where the power goes.
    pub balance: Balance,
    /// Newton steps taken in all.
    pub iterations: usize,
}

/// One branch, solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BranchState {
    /// Voltage at its far end.
    pub voltage: Volts,
    /// Current through it, away from the source; negative when a charger feeds back.
    pub current: Amps,
    /// Voltage lost along it, out and back.
    pub drop: Volts,
    /// Temperature of its copper.
    pub temperature: Celsius,
    /// Resistance of its copper at that temperature, out and back.
    pub copper: Ohms,
    /// Heat made in it, joints and fuse-link included.
    pub loss: Watts,
}

/// The account of power.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// What the source's inner voltage gives: E × I.
    pub source: Watts,
    /// What the loads take.
    pub loads: Watts,
    /// What chargers feed in, as a positive figure.
    pub fed_in: Watts,
    /// What the branches turn into heat.
    pub branches: Watts,
    /// What the source turns into heat inside.
    pub internal: Watts,
    /// source + fed in - loads - branches - internal: nothing but rounding.
    pub residual: Watts,
    /// The largest difference between a voltage as solved and the same voltage
    /// walked out from the source with the currents summed from the loads.
    pub mismatch: Volts,
}

impl Balance {
    /// The residual against all power that goes in; 0 when none does.
    pub fn relative(&self) -> f64 {
        let through = (self.source.abs() + self.fed_in).max(self.loads);
        if through > Watts::ZERO { self.residual.abs() / through } else { 0.0 }
    }
}

impl Solution {
    /// Voltage at a point; `None` for a branch that does not exist.
    pub fn voltage(&self, at: Point) -> Option<Volts> {
        match at {
            Point::Terminals => Some(self.terminals),
            Point::End(index) => self.branches.get(index).map(|branch| branch.voltage),
        }
    }

    /// The lowest voltage of all points, and where.
    pub fn lowest(&self) -> (Volts, Point) {
        let ends = self.branches.iter().enumerate().map(|(index, branch)| (branch.voltage, Point::End(index)));
        ends.fold((self.terminals, Point::Terminals), |low, end| if end.0 < low.0 { end } else { low })
    }

    /// From the last Newton state: currents summed from the loads, voltages walked out with them.
    pub(crate) fn of(tree: &Tree, asked: &Asked, state: &State) -> Self {
        let count = tree.nodes.len();
        let draw = |node: usize, volts: f64| {
            asked.power[node] / volts + asked.current[node] + tree.nodes[node].conductance * volts
        };
        let mut amps: Vec<f64> = (0..count).map(|node| draw(node, state.volts[node])).collect();
        for node in (1..count).rev() {
            amps[tree.nodes[node].parent] += amps[node];
        }
        let mut volts = vec![tree.feed; count];
        let mut drops = vec![0.0; count];
        for (node, point) in tree.nodes.iter().enumerate() {
            let near = if node == 0 { tree.feed } else { volts[point.parent] };
            drops[node] = point.law.drop(amps[node]).0;
            volts[node] = near - drops[node];
        }
        let mismatch = volts.iter().zip(&state.volts).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        let branch = |index: usize| branch_state(tree.network, index, &volts, &amps, &drops, tree.node_of[index]);
        let branches: Vec<_> = (0..tree.node_of.len()).map(branch).collect();
        Solution {
            terminals: Volts::new(volts[0]),
            current: Amps::new(amps[0]),
            balance: balance(tree, asked, &volts, &amps, drops[0], &branches, mismatch),
            branches,
            iterations: state.steps,
        }
    }
}

fn branch_state(
    network: &Network,
    index: usize,
    volts: &[f64],
    amps: &[f64],
    drops: &[f64],
    node: usize,
) -> BranchState {
    let branch = &network.branches[index];
    let (current, drop) = (Amps::new(amps[node]), Volts::new(drops[node]));
    let temperature = branch.warming.temperature(branch.copper, current);
    BranchState {
        voltage: Volts::new(volts[node]),
        current,
        drop,
        temperature,
        copper: crate::engine::physics::copper::warmed(branch.copper, temperature),
        loss: drop * current,
    }
}

fn balance(
    tree: &Tree,
    asked: &Asked,
    volts: &[f64],
    amps: &[f64],
    internal_drop: f64,
    branches: &[BranchState],
    mismatch: f64,
) -> Balance {
    let (mut loads, mut fed_in) = (0.0, 0.0);
    for (node, point) in tree.nodes.iter().enumerate() {
        let v = volts[node];
        // The net constant current splits into what is drawn and what is fed in at the same point.
        loads += asked.power[node] + (asked.current[node] + point.fed_in) * v + point.conductance * v * v;
        fed_in += point.fed_in * v;
    }
    let (source, internal) = (tree.feed * amps[0], internal_drop * amps[0]);
    let lost: Watts = branches.iter().map(|branch| branch.loss).sum();
    Balance {
        source: Watts::new(source),
        loads: Watts::new(loads),
        fed_in: Watts::new(fed_in),
        branches: lost,
        internal: Watts::new(internal),
        residual: Watts::new(source + fed_in - loads - internal) - lost,
        mismatch: Volts::new(mismatch),
    }
}
