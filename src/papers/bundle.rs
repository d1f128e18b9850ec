//! All papers of a design, ready to be written into a folder.

use super::csv_table::csv_table;
use super::diagram;
use super::document::Document;
use super::html::html_page;
use super::job::Job;
use super::markdown::markdown;
use super::plain::Look;
use std::collections::BTreeMap;

/// A file: its name relative to the folder, and what it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperFile {
    /// With forward slashes.
    pub name: String,
    /// Text.
    pub content: String,
}

/// Each paper as Markdown and HTML, the drawing as SVG, each table as CSV.
pub fn bundle(job: &Job, look: &Look) -> Vec<PaperFile> {
    let dated = |mut paper: Document| {
        paper.dated();
        paper
    };
    // The commissioning sheet has blanks of its own for date and place.
    let papers: [(&str, Document); 7] = [
        ("report", dated(super::report::report(job, true))),
        ("connections", dated(super::connections::connections(job))),
        ("cut-list", dated(super::cut_list::cut_list(job))),
        ("parts-list", dated(super::parts_list::parts_list(job))),
        ("labels", dated(super::labels::labels(job))),
        ("commissioning-sheet", super::commissioning::commissioning(job)),
        ("owner-card", dated(super::owner_card::owner_card(job))),
    ];
    let mut files = Vec::new();
    let mut add = |name: String, content: String| files.push(PaperFile { name, content });
    let drawings = diagram::layout(job.plan, job.design).to_svg();
    for (n, svg) in drawings.iter().enumerate() {
        let number = if drawings.len() == 1 { String::new() } else { format!("-{}", n + 1) };
        add(format!("wiring-diagram{number}.svg"), svg.clone());
    }
    let mut tables = BTreeMap::new();
    for (name, mut paper) in papers {
        if job.design.has_stop() {
            paper.stop_first("Do not build this plan as it is: the report lists what must be mended first.");
        }
        add(format!("{name}.md"), markdown(&paper, look));
        for table in paper.tables() {
            tables.insert(table.name, csv_table(table));
        }
        add(format!("{name}.html"), html_page(&paper.title.clone(), &[paper], look));
    }
    for (name, text) in tables {
        add(format!("csv/{name}.csv"), text);
    }
    files
}
