//! Which forces come on what holds the battery, and how big is it?

pub mod basket;
pub(crate) mod build;
pub(crate) mod built;
pub mod chain;
pub(crate) mod fixing;
pub mod marking;
pub mod mounted;
pub mod nest;
pub mod result;
pub mod rods;
pub mod shape;
pub(crate) mod spacer;
pub mod strength;
pub(crate) mod weld;
