//! Why can a network not be solved?

use crate::engine::physics::network::Point;
use crate::engine::physics::network::collapse::Collapse;
use crate::quantity::Figure;
use std::fmt;

/// Why there is no solution.
#[derive(Clone, Debug, PartialEq)]
pub enum NoSolution {
    /// The network itself is wrong.
    Fault(Fault),
    /// The loads ask for more than the cables and the source can bring.
    Collapse(Box<Collapse>),
    /// Temperature and current do not settle: a [`super::HeatBalance`] that falls or jumps with the current.
    Unsettled,
}

/// What is wrong with a network before any current flows.
#[derive(Clone, Debug, PartialEq)]
pub enum Fault {
    /// A value is outside what can be solved.
    Range {
        /// The branch it belongs to by its far end, or the source by its terminals.
        at: Point,
        /// Its name in the words of the trade.
        what: &'static str,
        /// The value found.
        value: Figure,
        /// The values accepted.
        accepted: &'static str,
    },
    /// The branch begins at a branch that does not exist.
    NoParent {
        /// The branch.
        branch: usize,
        /// The index it names as its beginning.
        from: usize,
    },
    /// The branch hangs on a ring of branches and is not connected to the source.
    Ring {
        /// One branch of the ring or behind it.
        branch: usize,
    },
}

impl From<Fault> for NoSolution {
    fn from(fault: Fault) -> Self {
        NoSolution::Fault(fault)
    }
}

impl fmt::Display for Point {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Point::Terminals => f.write_str("the source's terminals"),
            Point::End(index) => write!(f, "the end of branch {index}"),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Fault::Range { at, what, value, accepted } => {
                write!(f, "{what} at {at} is {value}; accepted is {accepted}")
            }
            Fault::NoParent { branch, from } => {
                write!(f, "branch {branch} begins at branch {from}, which does not exist; name an existing branch")
            }
            Fault::Ring { branch } => {
                write!(f, "branch {branch} hangs on a ring; let one branch of the ring begin at the source")
            }
        }
    }
}

impl fmt::Display for NoSolution {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            NoSolution::Fault(fault) => fault.fmt(f),
            NoSolution::Collapse(collapse) => collapse.fmt(f),
            NoSolution::Unsettled => f.write_str(
                "conductor temperature and current do not settle; check that the heat balance rises with the current",
            ),
        }
    }
}

impl std::error::Error for NoSolution {}
