//! The first sheet of the set: which papers there are, and what each is for.

use super::document::{Document, Table};
use super::facts::Columns;
use super::job::Job;
use super::report::summary::decided;

/// A paper in the list.
#[derive(Clone, Copy, Debug)]
pub struct Listed<'a> {
    /// Name of its file.
    pub name: &'a str,
    /// What it is for.
    pub what_for: &'a str,
    /// The page on which it begins, where all are in one file.
    pub page: Option<usize>,
}

/// The list of the papers.
pub fn contents(job: &Job, papers: &[Listed<'_>]) -> Document {
    let mut paper = Document::new(format!("Contents – {}", job.title()));
    paper.facts(decided(job));
    paper.heading(1, "The set");
    paper.paragraph(format!(
        "All sheets of a set carry the same checksum: a sheet with another one belongs to another plan. {SET}.pdf is \
         everything in one file, ready to print, {WORKINGS}.pdf how each number came about. Each paper is also there by \
         itself as HTML and as Markdown, each table as CSV and in tables.json, each drawing as SVG; circuit.cir is the \
         circuit for a SPICE simulator."
    ));
    paper.table(list(papers));
    paper
}

/// Name of the file of all papers, and of the workings'.
pub const SET: &str = "papers";
pub const WORKINGS: &str = "workings";

fn list(papers: &[Listed<'_>]) -> Table {
    let paged = papers.iter().any(|p| p.page.is_some());
    let file = move |p: &Listed<'_>| if paged { p.name.to_string() } else { format!("{}.html", p.name) };
    let mut columns = Columns::new().words("paper", "Paper", file).text("what_for", "What it is for", |p| p.what_for);
    if paged {
        let page = |p: &Listed<'_>| p.page.map_or_else(|| format!("{WORKINGS}.pdf"), |page| page.to_string());
        columns = columns.words("page", "Page", page);
    }
    columns.list("contents", "", papers)
}
