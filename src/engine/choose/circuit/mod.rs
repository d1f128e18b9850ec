//! Which size for each run, and what follows for voltage, heat and copper.
//!
//! - [`levels`]: voltages of the sources at their worst.
//! - [`demand`]: currents of each run, limits of each load.
//! - [`candidate`]: every size for one run; [`fuse_room`]: fuses that would fit.
//! - [`optimum`]: the least copper, exact; [`share`]: the usual way beside it.
//! - [`together`]: sizes and devices, with [`offer`]: what a branch may have, [`unavoidable`]: what must be wrong,
//!   and [`foresight`]: what copper and wrongs must come to at once.
//! - [`pick`]: brings these together. [`rows`], [`workings`], [`findings`]: what is shown of it.

pub mod assortment;
pub mod basis;
pub mod chosen;
mod foresight;
pub mod fuse_room;
pub mod offer;
pub mod optimum;
pub mod pick;
mod queue;
pub mod share;
pub mod size_workings;
pub mod sizing;
mod standing;
pub mod together;
pub mod unavoidable;
pub mod workings;
