//! What is a network: a source, and branches that form a tree?

use crate::engine::physics::network::load::Load;
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
