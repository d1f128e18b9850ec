//! What is every paper made from, and the words they share?

use crate::catalogue::Catalogue;
use crate::engine::Design;
use crate::plan::Plan;

/// What every paper is made from.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// What the user says.
    pub plan: &'a Plan,
    /// What the trade knows.
    pub catalogue: &'a Catalogue,
    /// What follows.
    pub design: &'a Design,
}

impl Job<'_> {
    /// Title of the plan, or a word for one without.
    pub fn title(&self) -> &str {
        if self.plan.job.title.is_empty() { "Auxiliary power system" } else { &self.plan.job.title }
    }
}

/// Where a fuse should be, and none fits.
pub const NONE_FITS: &str = "none fits: see findings";

/// Number of a run on papers, drawings and labels: `R3`.
pub fn run_number(index: usize) -> String {
    format!("R{}", index + 1)
}
