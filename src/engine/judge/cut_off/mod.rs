//! Is the cut-off right?

pub mod checks;
pub mod wiring;
