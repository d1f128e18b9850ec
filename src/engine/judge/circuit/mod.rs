//! Are the runs right, and what the loads get?

pub mod load;
pub mod passes;
pub mod run;
pub mod topology;

use crate::engine::judge::finding::Finding;
use crate::engine::simulate::circuit::sized::{SizedRuns, Sizing};

/// All that is wrong with the runs as sized, and with what the loads get.
pub(crate) fn check(known: &SizedRuns, sizing: &Sizing) -> Vec<Finding> {
    let mut found = run::check(known, sizing);
    found.extend(load::check(known));
    found
}
