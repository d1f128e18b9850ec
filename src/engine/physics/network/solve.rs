//! Which voltages and currents does a network have, or why has it none?

use crate::engine::physics::network::circuit::Network;
use crate::engine::physics::network::collapse::{Collapse, explain};
use crate::engine::physics::network::fault::Fault;
use crate::engine::physics::network::limit::limit;
use crate::engine::physics::network::newton::{self, Asked};
use crate::engine::physics::network::solution::Solution;
use crate::engine::physics::network::tree::Tree;

/// Why there is no solution.
#[derive(Clone, Debug, PartialEq)]
pub enum NoSolution {
    /// The network itself is wrong.
    Fault(Fault),
    /// The loads ask for more than the cables and the source can bring.
    Collapse(Box<Collapse>),
    /// Temperature and current do not settle: a branch that warms without end.
    Unsettled,
}

impl From<Fault> for NoSolution {
    fn from(fault: Fault) -> Self {
        NoSolution::Fault(fault)
    }
}

impl Network {
    /// Solve for all voltages, currents and conductor temperatures.
    ///
    /// # Errors
    ///
    /// [`NoSolution::Fault`] names the first value out of range or the branch
    /// that is not connected; [`NoSolution::Collapse`] means that no voltage
    /// exists at which the loads get what they ask for, and tells the most
    /// that can be fed; [`NoSolution::Unsettled`] means that not even the
    /// network without its loads has a steady state.
    pub fn solve(&self) -> Result<Solution, NoSolution> {
        let tree = Tree::of(self)?;
        let (base, extra) = (Asked::fed_in(&tree), Asked::insisted(&tree));
        let all = base.plus(&extra, 1.0);
        if let Ok(state) = newton::solve(&tree, &all, newton::ceiling(&tree, &all)) {
            return Ok(Solution::of(&tree, &all, &state));
        }
        match limit(&tree, &base, &extra) {
            Ok((share, state)) if share >= 1.0 => Ok(Solution::of(&tree, &all, &state)),
            Ok((share, state)) => Err(NoSolution::Collapse(Box::new(explain(&tree, share, &state)))),
            Err(_) => Err(NoSolution::Unsettled),
        }
    }
}
