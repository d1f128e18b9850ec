//! What do studs and strips bear?

pub mod bend;
pub mod sharing;
pub mod shock;
pub mod utilisation;
