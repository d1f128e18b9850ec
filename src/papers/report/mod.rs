//! The report: the whole design on paper, in the order a builder needs it.

mod battery;
mod carrier;
mod charging;
mod copper;
pub(super) mod cut_off;
mod days;
mod energy;
pub(super) mod findings;
mod minus;
mod runs;
pub(super) mod summary;
mod supply;
mod test_sheet;
pub(super) mod workings;

use crate::papers::beside::beside;
use crate::papers::cautions::cautions;
use crate::papers::connections;
use crate::papers::document::Document;
use crate::papers::job::Job;
use crate::papers::look_up;

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
    minus::section(job, &mut paper);
    connections::section(job, &mut paper);
    copper::section(job, &mut paper);
    supply::section(job, &mut paper);
    cut_off::section(job, &mut paper);
    days::section(job, &mut paper);
    carrier::section(job, &mut paper);
    test_sheet::section(job, &mut paper);
    if !job.beside.is_empty() {
        paper.heading(1, "What else would do");
        beside(&job.designs_beside(), &mut paper);
    }
    paper.heading(1, "To look up");
    look_up::section(job, false, &mut paper);
    paper.heading(1, "Cautions");
    cautions(job).into_iter().for_each(|c| paper.caution(c));
    if workings {
        workings::section(job, &mut paper);
    }
    paper
}
