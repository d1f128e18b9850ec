//! Which size for each run, and what follows for voltage, heat and copper.
//!
//! - [`levels`]: voltages of the sources at their worst.
//! - [`demand`]: currents of each run, limits of each load.
//! - [`candidate`]: every size for one run; [`fuse_room`]: fuses that would fit.
//! - [`optimum`]: the least copper, exact; [`share`]: the usual way beside it.
//! - [`pick`]: brings these together. [`rows`], [`workings`], [`findings`]: what is shown of it.

pub mod assortment;
pub mod candidate;
pub mod fuse_room;
pub mod inverse;
pub mod optimum;
pub mod pick;
pub mod rows;
pub mod share;
pub mod size_workings;
pub mod work_out;
pub mod workings;
