//! Which voltage stands at every point, and which current flows in every run?
//!
//! A [`Network`] is a tree of branches that begins at one source. Each branch
//! is a run out and back: copper whose resistance follows its own temperature,
//! and a fixed part for joints, fuse-link and chassis. Loads hang on the points
//! and may hold their power, their current or their resistance, in any mix;
//! a current may also be fed in (a charger).
//!
//! Method: Newton's method on the tree, with the branches eliminated from the
//! leaves to the source, so that one step costs a time proportional to their
//! number; voltage, current and temperature are solved together. It begins
//! above the answer and so ends at the higher of the two voltages at which a
//! load of constant power can exist, the only stable one. Where there is no
//! such voltage the answer is a [`Collapse`] with the most that can be fed.
//!
//! Left out: anything that changes with time (inductance, start-up), loops
//! through two sources (cut them into two networks, each with the other
//! source's current fed in), and loads that switch themselves off.
//!
//! ```
//! use loomwright::engine::physics::network::{load::Load, warming::Warming, Branch, Network, Point, Source};
//! use loomwright::quantity::*;
//!
//! // A fridge of 45 W at the end of 6 m of 2.5 mm² (12 m of copper at 7.98 Ω/km, IEC 60228).
//! let fridge = Branch {
//!     from: Point::Terminals,
//!     copper: OhmsPerKm::new(7.98) * Metres::new(12.0),
//!     fixed: Ohms::from_milli(4.0),
//!     warming: Warming::Held(Celsius::new(45.0)),
//!     loads: vec![Load::Power(Watts::new(45.0))],
//! };
//! let source = Source { voltage: Volts::new(12.0), internal: Ohms::from_milli(8.0) };
//! let network = Network { source, loads: vec![], branches: vec![fridge] };
//! let solution = network.solve()?;
//! // By hand: R = 12 mΩ + 95.76 mΩ × 279.5 / 254.5 and V = (12 + √(12² - 4 R × 45)) / 2.
//! assert_eq!(solution.branches[0].voltage.to_string(), "11.54 V");
//! # Ok::<(), loomwright::engine::physics::network::fault::NoSolution>(())
//! ```

pub mod collapse;
pub mod continuation;
pub mod fault;
pub mod load;
pub mod newton;
pub mod path;
pub mod solution;
pub mod spice;
pub mod tree;
pub mod warming;

use crate::engine::physics::network::fault::NoSolution;
use crate::engine::physics::network::load::Load;
use crate::engine::physics::network::solution::Solution;
use crate::engine::physics::network::warming::Warming;

use crate::quantity::{Ohms, Volts};

/// A tree of branches fed by one source.
#[derive(Clone, Debug)]
pub struct Network {
    /// What feeds it.
    pub source: Source,
    /// Loads right at the source's terminals.
    pub loads: Vec<Load>,
    /// The runs, in any order; a branch is named by its place in this list.
    pub branches: Vec<Branch>,
}

/// A battery or a supply: an ideal voltage behind a resistance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// Voltage without load; above 0 V.
    pub voltage: Volts,
    /// Internal resistance; 0 Ω or more.
    pub internal: Ohms,
}

/// A place in the network that has a voltage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Point {
    /// The source's own terminals, after its internal resistance.
    Terminals,
    /// The far end of the branch with this index.
    End(usize),
}

/// One run, out and back lumped together.
#[derive(Clone, Debug)]
pub struct Branch {
    /// Where it begins: the terminals or the far end of another branch.
    pub from: Point,
    /// Resistance of its copper at 20 °C, out and back; 0 Ω or more.
    pub copper: Ohms,
    /// What does not warm with it: joints, fuse-link, switch, chassis return; 0 Ω or more.
    pub fixed: Ohms,
    /// How warm its copper gets.
    pub warming: Warming,
    /// Loads at its far end.
    pub loads: Vec<Load>,
}

impl Network {
    /// Solve for all voltages, currents and conductor temperatures.
    ///
    /// # Errors
    ///
    /// [`NoSolution::Fault`] names the first value out of range or the branch
    /// that is not connected; [`NoSolution::Collapse`] means that no voltage
    /// exists at which the loads get what they ask for, and tells the most
    /// that can be fed; [`NoSolution::Unsettled`] means that a
    /// [`HeatBalance`] of the caller's has no steady state.
    pub fn solve(&self) -> Result<Solution, NoSolution> {
        let tree = tree::Tree::of(self)?;
        continuation::solve(&tree)
    }

    /// How many times all constant powers and constant currents drawn can be
    /// multiplied before the voltage collapses; `at_most` when more than that.
    ///
    /// 1 means at the very edge, below 1 that [`Network::solve`] finds a collapse.
    /// One run with a share d of the voltage lost has a multiple of
    /// 1 / (4 d (1 - d)): 5.3 at 5 %. `at_most` is 0 to 1e12; found from below,
    /// to 1e-9 of itself.
    ///
    /// # Errors
    ///
    /// As [`Network::solve`], but never a collapse.
    pub fn load_multiple(&self, at_most: f64) -> Result<f64, NoSolution> {
        let tree = tree::Tree::of(self)?;
        continuation::multiple(&tree, at_most.clamp(0.0, 1e12))
    }

    /// The branches passed from the terminals to `point`, nearest to the source first.
    ///
    /// Empty for the terminals; stops early when a branch index does not exist.
    pub fn path_to(&self, point: Point) -> Vec<usize> {
        let mut path = Vec::new();
        let mut at = point;
        while let Point::End(index) = at {
            let Some(branch) = self.branches.get(index) else { break };
            path.push(index);
            if path.len() > self.branches.len() {
                break; // a ring, which `solve` refuses
            }
            at = branch.from;
        }
        path.reverse();
        path
    }
}
