//! What would a meter show if this or that in the finished wiring were at fault?
//!
//! - `wired`: the plan's own circuit in its parts, plus and minus apart, and the spots a probe reaches.
//! - `cause`: what can be at fault: each is a change to that circuit.
//! - `state`: the circuit with such a change, solved by the network while one thing is on.
//! - `predict`: what a meter shows there, and how sure that is.
//! - `shows`: how a fault can show in a reading, if at all.

pub mod cause;
pub mod predict;
pub mod shows;
pub mod state;
pub mod wired;
