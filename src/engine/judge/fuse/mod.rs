//! Are the fuses right?

pub mod breaking;
pub mod chain;
pub mod far_fault;
pub mod memory;
pub mod placement;
pub mod unmade;
pub mod window;
