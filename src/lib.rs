//! Loomwright sizes a 12-volt auxiliary power system for a vehicle.
//!
//! Imports run one way only, from the bottom of this list to the top
//! (`tests/house` refuses any other):
//!
//! - [`quantity`]: numbers with units, read and written in one place.
//! - [`catalogue`]: what the trade knows, from `profiles/*.toml`, each row with its source.
//! - [`plan`]: what the user says: the TOML file, its fields, reading, checking, editing, saving.
//! - [`engine`]: what follows: `design(&Plan, &Catalogue) -> Design`. Pure: no file, clock, terminal or global.
//! - [`log`]: the file of a logger: how it is written, its rows, what is left out of them.
//! - [`papers`]: what is printed. `screens`: what is shown. [`command`]: what is asked from the shell.

pub mod catalogue;
pub mod command;
pub mod engine;
pub mod log;
pub mod papers;
pub mod plan;
pub mod quantity;
pub mod screens;
