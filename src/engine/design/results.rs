//! Which results does a design have, what are they called and what do they mean?
//!
//! The one list of them. JSON, its schema, the report's tables and the screens
//! read it, so that a name, a unit or a meaning is written once. A file here
//! holds the results of one trade question; [`fact`] says what a result is.

mod battery;
mod carrier;
mod chances;
mod charger;
mod circuit;
mod cut_off;
mod days;
mod energy;
pub mod fact;
mod finding;
mod load;
mod marking;
mod pointers;
mod promise;
pub mod report;
mod returns;
mod run;
mod test_sheet;

pub use chances::DaysOfUse;
pub use finding::{Counts, Worked};
pub use pointers::pointers;
