//! A design for scripts: JSON with a version, units in the names of its numbers.
//!
//! The shape is a promise, so it is written by hand here and not derived from
//! the engine's types, and every name is explained in [`shape`]. Numbers have
//! six significant digits; what does not exist is `null`; shares are 0 to 1.

mod answer;
mod carrier;
mod design;
mod endurance;
mod explain;
mod findings;
pub(super) mod number;
mod plan_schema;
mod shape;
mod tables;
mod workings;

pub use answer::{cable_answer, cut_off_answer};
pub use design::report;
pub use endurance::{endurance, uncertainty};
pub use explain::explained;
pub use findings::{Spot, check, finding};
pub use number::{maybe, number};
pub use plan_schema::plan_schema;
pub use shape::{Object, shape};
pub use tables::tables;
pub use workings::{figure, workings};

/// Version of all shapes. It grows when a name is taken away or means
/// something else; new names come without.
pub const VERSION: u32 = 1;
