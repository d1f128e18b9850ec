//! What one conductor is, how warm it gets and how much it may carry.
//!
//! - [`cable`]: what is in the insulation, whatever its label says.
//! - [`laid`]: where it lies: air, place, neighbours, insulation.
//! - [`air`] and [`heat`]: the heat balance of one insulated conductor.
//! - [`short_time`]: how fast it warms; starts and intermittent loads.
//! - [`ampacity`]: the published table and the heat balance, the smaller used.

mod air;
mod ampacity;
mod cable;
mod heat;
mod laid;
mod short_time;

pub use air::{Air, convection, prandtl_factor};
pub use ampacity::{Ampacity, TableFactors, ampacity};
pub use cable::{Cable, STRAND_LAY};
pub use heat::HeatPath;
pub use laid::Laid;
pub use short_time::{Intermittent, Warmth};
