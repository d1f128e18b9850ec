//! The real binary on a real (pseudo) terminal: the everyday uses, every way out, every rough handling.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]
#![cfg(unix)]

mod ends;
mod kills;
mod pty;
mod rough;
mod uses;
