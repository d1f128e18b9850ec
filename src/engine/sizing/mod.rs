//! Which size for each run, and what follows for voltage, heat and copper.
//!
//! - [`levels`]: voltages of the sources at their worst.
//! - [`demand`]: currents of each run, limits of each load.
//! - [`candidate`]: every size for one run; [`fuse_room`]: fuses that would fit.
//! - [`optimum`]: the least copper, exact; [`share`]: the usual way beside it.
//! - [`pick`]: brings these together. [`rows`], [`workings`], [`findings`]: what is shown of it.

mod candidate;
mod demand;
mod findings;
mod fuse_room;
mod levels;
mod loss;
pub mod optimum;
mod pick;
mod rows;
mod share;
mod supply_findings;
mod workings;

pub use candidate::{Asked, Candidate, Fails, Shelf, fixed_resistance};
pub use demand::{Demand, End, Flow, Terminal, class_limit, rated_power};
pub use fuse_room::{FuseRoom, least_rating};
pub use levels::{Levels, NOMINAL};
pub use pick::{Picked, PickedRun, pick};
pub use rows::{Sizing, size_runs};
