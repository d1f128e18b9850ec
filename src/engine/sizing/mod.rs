//! Which size for each run, and what follows for voltage, heat and copper.
//!
//! - [`levels`]: voltages of the sources at their worst.
//! - [`demand`]: currents of each run, limits of each load.
//! - [`candidate`]: every size for one run; [`fuse_room`]: fuses that would fit.
//! - [`optimum`]: the least copper, exact; [`share`]: the usual way beside it.
//! - [`pick`]: brings these together. [`rows`], [`workings`], [`findings`]: what is shown of it.

pub mod assortment;
mod assortments;
mod candidate;
mod demand;
mod findings;
mod fuse_room;
mod inverse;
mod joints;
mod levels;
mod loss;
pub mod optimum;
mod pick;
mod question;
mod rows;
mod share;
mod size_workings;
mod strip;
mod supply_findings;
mod warming;
mod work_out;
mod workings;

pub use assortments::{Assortment, assortments};
pub use candidate::{Asked, Candidate, Fails, Shelf, fixed_resistance};
pub use demand::{Demand, End, Flow, Terminal, class_limit, rated_power};
pub use fuse_room::FuseRoom;
pub use joints::Joints;
pub use levels::{Levels, NOMINAL, Sag};
pub use pick::{Given, Picked, PickedRun, pick};
pub use question::{CableAnswer, CableQuestion, cable_question};
pub use rows::{Sizing, size_runs};
pub use strip::{Stop, voltage_strip};
pub use warming::CYCLE;
pub use work_out::work_out_size;
