//! What did a logger see of the finished installation, and what does that change in the plan?

pub mod answer;
pub mod capacity;
pub mod collect;
mod least;
pub mod levels;
pub mod marks;
pub mod resistance;
mod results;
pub mod sample;
pub mod stretches;
