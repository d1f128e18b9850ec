//! What follows from a plan: one module per trade question.
//!
//! Pure: no file, clock, environment, terminal or global. The same input gives
//! the same result, always.

pub mod copper;
pub mod network;
