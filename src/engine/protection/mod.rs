//! Which fuses, where, and do they clear every fault in time?

mod choice;
pub mod gates;

pub use choice::{FuseChoice, FuseNeed, RATED_AIR, at_least, breaks, fuse_for_cable, rerating};
