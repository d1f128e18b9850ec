//! How does a battery answer: voltage, resistance, charge at hand, life?

pub mod acid;
pub mod formula;
pub mod gas;
pub mod kinetic;
pub mod life;
pub mod model;
pub mod recovery;
pub mod store;
