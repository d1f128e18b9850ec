//! The first sheet of the set: which papers there are, and what each is for.

use super::document::{Document, Table};
use super::facts::Columns;
use super::job::Job;
use super::report::summary::decided;

/// The list of the papers, given by name and what they are for.
pub fn contents(job: &Job, papers: &[(&str, &str)]) -> Document {
    let mut paper = Document::new(format!("Contents – {}", job.title()));
    paper.facts(decided(job));
    paper.heading(1, "The set");
    paper.paragraph(
        "Each paper is there as HTML, for the screen and for printing, and as Markdown; each table also as CSV and \
         in tables.json, each drawing as SVG; circuit.cir is the circuit for a SPICE simulator. All sheets of a set carry the same checksum: a sheet with another one belongs to \
         another plan.",
    );
    paper.table(list(papers));
    paper
}

fn list(papers: &[(&str, &str)]) -> Table {
    Columns::new()
        .words("paper", "Paper", |p: &(&str, &str)| format!("{}.html", p.0))
        .text("what_for", "What it is for", |p| p.1)
        .list("contents", "", papers)
}
