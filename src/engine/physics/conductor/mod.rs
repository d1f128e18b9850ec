//! What one conductor is, how warm it gets and how much it may carry.
//!
//! - [`cable`]: what is in the insulation, whatever its label says.
//! - [`laid`]: where it lies: air, place, neighbours, insulation.
//! - [`air`] and [`heat`]: the heat balance of one insulated conductor.
//! - [`short_time`]: how fast it warms; starts and intermittent loads.
//! - [`ampacity`]: the published table and the heat balance, the smaller used.

pub mod air;
pub mod ampacity;
pub mod cable;
pub mod heat;
pub mod laid;
pub mod short_time;
