//! What follows from a plan: one module per trade question.
//!
//! Pure: no file, clock, environment, terminal or global. The same input gives
//! the same result, always. `design` is the only door.

mod battery;
mod book;
mod budget;
pub mod carrier;
mod cases;
mod charger;
pub mod conductor;
pub mod copper;
mod cut_off;
mod design;
mod endurance;
mod finding;
pub mod network;
mod panel;
mod plan_network;
pub mod protection;
mod run;
pub mod sizing;
mod starts;
mod subject;
pub mod sun;
mod surroundings;
pub mod test_sheet;
mod topology;
pub mod uncertainty;
mod working;
mod workshop;

pub use battery::*;
pub use book::Book;
pub use budget::*;
pub use charger::*;
pub use cut_off::*;
pub use design::{Design, design};
pub use endurance::*;
pub use finding::{Finding, Kind as FindingKind, Remedy, Severity};
pub use plan_network::{PlanNetwork, plan_networks};
pub use run::*;
pub use starts::{Start, Starts};
pub use subject::{Subject, run_name};
pub use topology::{Branch, Side, Topology, topology};
pub use working::{Input, Topic, Working, Workings};
pub use workshop::*;
