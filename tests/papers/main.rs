//! The papers as a workshop gets them: drawings that can be read, pages that fit.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod diagram;
mod page;
mod picture;
mod plans;
mod region;
mod workshop;
