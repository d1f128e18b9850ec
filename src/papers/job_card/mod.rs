//! The job card: in which order a workshop builds it, with which tools, and what became of it.

mod as_built;
mod crew;
mod order;
mod torques;

use super::document::Document;
use super::facts::Columns;
use super::job::Job;

/// The card of a design.
pub fn job_card(job: &Job) -> Document {
    let mut paper = Document::new(format!("Job card – {}", job.title()));
    let blank = |label| (label, BLANK.to_string());
    let heads = ["Vehicle, registration", "Installer", "Begun", "Finished", "Meter, checked until", "Next inspection"];
    paper.facts(heads.map(blank).to_vec());
    paper.heading(1, "Tools");
    paper.list(order::tools(job));
    paper.heading(1, "Order of work");
    let steps = Columns::new()
        .words("number", "", |s: &(usize, String)| s.0.to_string())
        .text("step", "Step", |s| &s.1)
        .blank("done", "Done, by whom")
        .list("order-of-work", "", &order::steps(job));
    paper.table(steps);
    paper.heading(1, "Torques");
    torques::section(job, &mut paper);
    paper.heading(1, "As built");
    as_built::section(job, &mut paper);
    paper.heading(1, "For a fire crew");
    crew::section(job, &mut paper);
    paper.facts(vec![blank("Signed")]);
    paper
}

const BLANK: &str = "______________________";
