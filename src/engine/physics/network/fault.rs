//! What may be wrong with a network before any current flows?

use crate::engine::physics::network::circuit::Point;
use crate::quantity::Figure;

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
