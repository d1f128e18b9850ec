//! What mends a plan? Edits that were tried by whole designs, and nothing untried.

pub mod allowed;
pub(super) mod changes;
pub mod exclude;
pub mod fewest;
mod propose;
pub mod remedies;
pub(super) mod tally;
mod trial;
pub(super) mod words;
