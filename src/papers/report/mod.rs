//! The report: the whole design on paper, in the order a builder needs it.

mod battery;
mod carrier;
mod charging;
mod copper;
pub(super) mod cut_off;
mod days;
mod energy;
mod findings;
mod runs;
mod summary;
mod supply;
mod test_sheet;
mod workings;

pub use findings::{finding_notice, findings};

use super::{Document, Job, cautions};

/// How numbers came about, behind a paper.
pub fn add_workings(all: &crate::engine::Workings, paper: &mut Document) {
    paper.heading(1, "Workings");
    all.iter().for_each(|(_, w)| workings::one(w, paper));
}

/// The report of a design; `workings` adds how each number came about.
pub fn report(job: &Job, workings: bool) -> Document {
    let mut paper = Document::new(job.title());
    summary::job_summary(job, &mut paper);
    findings::section(job, &mut paper);
    summary::assumptions(job, &mut paper);
    energy::section(job, &mut paper);
    battery::section(job, &mut paper);
    charging::section(job, &mut paper);
    runs::section(job, &mut paper);
    copper::section(job, &mut paper);
    supply::section(job, &mut paper);
    cut_off::section(job, &mut paper);
    days::section(job, &mut paper);
    carrier::section(job, &mut paper);
    test_sheet::section(job, &mut paper);
    paper.heading(1, "Cautions");
    cautions(job).into_iter().for_each(|c| paper.caution(c));
    if workings {
        workings::section(job, &mut paper);
    }
    paper
}
