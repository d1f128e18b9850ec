//! What mends a plan? Edits that were tried by whole designs, and nothing untried.

pub mod allowed;
mod changes;
pub mod exclude;
pub mod fewest;
mod propose;
pub mod remedies;
mod tally;
mod trial;
mod words;
