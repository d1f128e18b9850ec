//! Each finding raised and not raised, on small invented plans.

pub mod fixture;
pub mod kinds;
pub mod numbers;
