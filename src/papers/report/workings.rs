//! The appendix: how each number came about.

use crate::engine::{Working, Workings};
use crate::papers::document::{Block, Document};
use crate::papers::job::Job;

/// All workings as a volume of their own.
pub fn volume(job: &Job) -> Document {
    let mut paper = Document::new(format!("Workings – {}", job.title()));
    paper.metric = true;
    all(job, 1, &mut paper);
    paper
}

/// All workings as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    paper.heading(1, "Appendix: workings");
    all(job, 2, paper);
}

fn all(job: &Job, level: u8, paper: &mut Document) {
    let mut subject = None;
    for (topic, working) in job.design.workings().iter() {
        if subject != Some(&topic.subject) {
            paper.heading(level, job.design.installation.name_of(&topic.subject));
            subject = Some(&topic.subject);
        }
        one(working, paper);
    }
}

/// One working: what, by which formula, from which numbers, after which source.
fn one(working: &Working, paper: &mut Document) {
    let formula = if working.formula.is_empty() { String::new() } else { format!(" = {}", working.formula) };
    let mut lines = Vec::new();
    let inputs: Vec<String> =
        working.inputs.iter().map(|i| format!("{} = {} ({})", i.symbol, i.value, i.meaning)).collect();
    if !inputs.is_empty() {
        lines.push(format!("with {}", inputs.join(", ")));
    }
    lines.extend(working.notes.iter().cloned());
    lines.push(format!("source: {}", if working.source.is_empty() { "arithmetic" } else { &working.source }));
    paper.blocks.push(Block::Entry(format!("{}{formula} = {}", working.name, working.result), lines));
}

/// How numbers came about, behind a paper.
pub fn add_workings(all: &Workings, paper: &mut Document) {
    paper.heading(1, "Workings");
    all.iter().for_each(|(_, w)| one(w, paper));
}
