//! What is printed: report, drawings, lists and cards of a design.
//!
//! A paper is a [`Document`], written once and rendered as plain text,
//! Markdown or HTML. Papers show what the engine returns and compute nothing.

mod answer;
mod bundle;
mod catalogue_paper;
mod cautions;
mod chart;
mod clean;
pub mod columns;
mod commissioning;
mod csv_table;
mod cut_list;
pub mod diagram;
mod document;
mod endurance;
mod html;
pub mod json;
mod labels;
mod markdown;
mod owner_card;
mod parts_list;
mod plain;
mod report;
mod uncertainty;

pub use answer::{cable_answer, cut_off_answer};
pub use bundle::{PaperFile, bundle};
pub use catalogue_paper::{Shelf, catalogue_paper, explanation};
pub use cautions::cautions;
pub use clean::{ascii, ascii_lines, clean};
pub use commissioning::commissioning;
pub use csv_table::csv_table;
pub use cut_list::{cut_list, lug};
pub use document::*;
pub use endurance::endurance_paper;
pub use html::html_page;
pub use labels::labels;
pub use markdown::markdown;
pub use owner_card::owner_card;
pub use parts_list::parts_list;
pub use plain::{Look, colour, notice, plain};
pub use report::{add_workings, finding_notice, findings, report};
pub use uncertainty::section as add_uncertainty;

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

pub use crate::quantity::counted;

/// Where a fuse should be, and none fits.
pub const NONE_FITS: &str = "none fits: see findings";

/// Number of a run on papers, drawings and labels: `R3`.
pub fn run_number(index: usize) -> String {
    format!("R{}", index + 1)
}
