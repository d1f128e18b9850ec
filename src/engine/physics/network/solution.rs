//! What does the solved network say?

use crate::engine::physics::network::newton::{Asked, State};
use crate::engine::physics::network::tree::Tree;
use crate::quantity::{Amps, Celsius, Volts};

/// Voltages, currents and temperatures of the whole network.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    /// Voltage at the source's terminals.
    pub terminals: Volts,
    /// Current out of the source; negative when it is being charged.
    pub current: Amps,
    /// One per branch, in the network's order.
    pub branches: Vec<BranchState>,
}

/// One branch, solved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BranchState {
    /// Voltage at its far end.
    pub voltage: Volts,
    /// Current through it, away from the source; negative when a charger feeds back.
    pub current: Amps,
    /// Temperature of its copper.
    pub temperature: Celsius,
}

impl Solution {
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
        for (node, point) in tree.nodes.iter().enumerate() {
            let near = if node == 0 { tree.feed } else { volts[point.parent] };
            volts[node] = near - point.law.drop(amps[node]).0;
        }
        let branch = |(index, node): (usize, &usize)| {
            let (own, current) = (&tree.network.branches[index], Amps::new(amps[*node]));
            let temperature = own.warming.temperature(own.copper, current);
            BranchState { voltage: Volts::new(volts[*node]), current, temperature }
        };
        Solution {
            terminals: Volts::new(volts[0]),
            current: Amps::new(amps[0]),
            branches: tree.node_of.iter().enumerate().map(branch).collect(),
        }
    }
}
