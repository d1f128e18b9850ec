//! What is printed: report, drawings, lists and cards of a design.
//!
//! A paper is a [`Document`], written once and rendered as plain text,
//! Markdown or HTML. Papers show what the engine returns and compute nothing.

mod clean;
pub mod columns;
mod csv_table;
pub mod diagram;
mod document;
mod html;
pub mod json;
mod markdown;
mod plain;
mod report;

pub use clean::{ascii, ascii_lines, clean};
pub use csv_table::csv_table;
pub use document::*;
pub use html::html_page;
pub use markdown::markdown;
pub use plain::{Look, colour, notice, plain};
pub use report::{finding_notice, findings, report};

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

/// Number of a run on papers, drawings and labels: `R3`.
pub fn run_number(index: usize) -> String {
    format!("R{}", index + 1)
}
