//! How large and how small are fault currents, and when do they end?

pub mod clearing;
pub mod far_end;
pub mod faults;
pub mod ground;
pub mod link;
pub mod selectivity;
pub mod sources;
