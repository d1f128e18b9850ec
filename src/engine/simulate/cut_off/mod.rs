//! What does the cut-off see, and what stays on after it?

pub mod curve;
pub mod path;
pub mod rest;
pub mod starter;
