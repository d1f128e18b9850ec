//! Which voltages and currents stand in the wiring?

pub mod candidate;
pub mod cases;
pub mod demand;
pub mod fuse_room;
pub mod inverse;
pub mod levels;
pub mod loss;
pub mod picked;
pub mod result;
pub mod sized;
pub mod warming;
