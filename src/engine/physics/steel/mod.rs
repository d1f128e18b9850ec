//! What do studs and strips bear?

pub mod bend;
pub(crate) mod frame;
pub(crate) mod plate;
pub mod sharing;
pub mod shock;
pub mod utilisation;
