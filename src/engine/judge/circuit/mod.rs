//! Are the runs right, and what the loads get?

pub mod load;
pub mod run;
pub mod topology;
