//! How large and how small are fault currents, and when do they end?

pub mod backer;
pub mod backup;
pub mod clearing;
pub mod current;
pub mod faults;
pub mod fuse;
pub mod inflow;
pub mod link;
pub mod loops;
pub mod selectivity;
pub mod sources;
pub mod tail;
