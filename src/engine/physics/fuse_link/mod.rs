//! When does a fuse-link open, and what comes through until then?

pub mod gates;
pub mod let_through;
pub mod rating;
