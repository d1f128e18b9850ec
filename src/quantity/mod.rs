//! Quantities with their units: the types every other module speaks.
//!
//! A physical value is a small `Copy` newtype over `f64` in one fixed unit
//! ([`Volts`], [`Metres`], …); only the products that physics gives are
//! implemented, so adding volts to amps does not compile. [`Unit`] names the
//! unit at run time for tables and messages, [`Figure`] is a number with such
//! a unit, and reading (`parse`) and writing (`show`) live next to each other
//! so that screen, paper and JSON never disagree.

mod gauge;
mod parse;
mod show;
mod types;
mod unit;
mod words;

pub use gauge::{awg_area, awg_number};
pub use parse::{ParseError, parse};
pub use show::{Figure, UnitSystem, counted};
pub use types::*;
pub use unit::Unit;
pub use words::{Names, in_units, in_units_but};
