//! What else would do, what one step more or less would change, and which of the user's numbers matter most?
//!
//! All by whole designs, so it is asked for and never part of a pass.

pub mod beside;
pub mod boards;
pub mod cross;
pub mod matters;
pub mod steps;
pub mod variant;
