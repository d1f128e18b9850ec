//! Which voltages and currents stand in the wiring?

pub mod cases;
pub mod demand;
pub mod levels;
pub mod loss;
pub mod result;
pub mod warming;
