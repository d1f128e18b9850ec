//! The screens without a terminal: what keys do, what is drawn, what can never happen.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod bench;
mod driver;
mod editing;
mod files;
mod hidden;
mod keys;
mod logging;
mod looks;
mod own_rows;
mod pictures;
mod plots;
mod probing;
mod random;
mod room;
mod traps;
mod wizard;
