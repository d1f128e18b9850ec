//! All papers of a design, ready to be written into a folder.

use super::clean::json_text;
use super::csv_table::csv_table;
use super::diagram;
use super::document::Document;
use super::dxf::dxf;
use super::html::html_page;
use super::job::Job;
use super::markdown::markdown;
use super::plain::Look;
use super::stamp::Stamp;
use crate::engine::marking;
use std::collections::BTreeMap;

/// A file: its name relative to the folder, and what it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperFile {
    /// With forward slashes.
    pub name: String,
    /// Text.
    pub content: String,
}

/// Each paper as Markdown and HTML, the drawing as SVG, each table as CSV; all stamped.
pub fn bundle(job: &Job, look: &Look, stamp: &Stamp) -> Vec<PaperFile> {
    let papers = papers(job);
    let listed: Vec<(&str, &str)> = papers.iter().map(|p| (p.name, p.what_for)).collect();
    let contents = super::contents::contents(job, &listed);
    let contents = Paper { name: "contents", what_for: "", blank: true, paper: contents };
    let mut files = Vec::new();
    let mut add = |name: String, content: String| files.push(PaperFile { name, content });
    let drawings = diagram::layout(job.plan, job.design).to_svg();
    for (n, svg) in drawings.iter().enumerate() {
        let number = if drawings.len() == 1 { String::new() } else { format!("-{}", n + 1) };
        add(format!("wiring-diagram{number}.svg"), svg.clone());
    }
    let (mut tables, mut json) = (BTreeMap::new(), serde_json::Map::new());
    for Paper { name, blank, mut paper, .. } in [contents].into_iter().chain(papers) {
        paper.stamped(stamp, blank);
        if job.design.has_stop() {
            paper.stop_first("Do not build this plan as it is: the report lists what must be mended first.");
        }
        add(format!("{name}.md"), markdown(&paper, look));
        if let serde_json::Value::Object(own) = super::json::tables(&paper) {
            json.extend(own);
        }
        for table in paper.tables() {
            tables.insert(table.name, csv_table(table, look));
        }
        // The report's curves are read beside their words.
        for (n, svg) in paper.drawings().enumerate().filter(|_| name != "report") {
            add(format!("{name}-{}.svg", n + 1), svg.into());
        }
        add(format!("{name}.html"), html_page(&paper.title.clone(), &[paper], look, stamp));
    }
    add("tables.json".into(), json_text(&serde_json::Value::Object(json)));
    add("circuit.cir".into(), super::netlist::netlist(job));
    for (n, piece) in marking(job.design).iter().enumerate() {
        add(format!("marking-out-{}.dxf", n + 1), dxf(piece));
    }
    for (name, text) in tables {
        add(format!("csv/{name}.csv"), text);
    }
    files
}

/// A paper of the set.
struct Paper {
    /// Name of its file.
    name: &'static str,
    /// What it is for, for the list of contents.
    what_for: &'static str,
    /// Whether it gets a blank for a date; some have one of their own.
    blank: bool,
    /// What it says.
    paper: Document,
}

/// The set, in the order in which it is read.
fn papers(job: &Job) -> Vec<Paper> {
    let of = |name, what_for, paper| Paper { name, what_for, blank: true, paper };
    let mut all = vec![
        of("report", "the whole design: what to build, what is wrong, and why", super::report::report(job, false)),
        of("job-card", "tools, order of work, torques, and what became of it", super::job_card::job_card(job)),
        of(
            "connection-drawing",
            "overview, devices and runs, both poles, with every stud",
            super::connection_drawing::connection_drawing(job),
        ),
        of("connections", "which end goes onto which stud, with every device", super::connections::connections(job)),
        of("cut-list", "every piece of cable: length, size, lugs", super::cut_list::cut_list(job)),
        of("parts-list", "what to buy", super::parts_list::parts_list(job)),
        of("labels", "what is written on both ends of each piece", super::labels::labels(job)),
        of("label-sheet", "the same to print and cut out", super::label_sheet::label_sheet(job)),
        Paper {
            // It has blanks of its own for date and place.
            blank: false,
            ..of(
                "commissioning-sheet",
                "what to look at, set and measure before it is handed over",
                super::commissioning::commissioning(job),
            )
        },
    ];
    let electrician = super::hand_over::hand_over(job);
    all.extend(electrician.map(|paper| of("hand-over", "what a licensed electrician designs, tests and signs", paper)));
    let marking = super::marking_out::marking_out(job);
    all.extend(marking.map(|paper| of("marking-out", "how what holds the battery is cut, bent and drilled", paper)));
    all.extend([
        of("owner-card", "one page that stays in the vehicle", super::owner_card::owner_card(job)),
        of(
            "inspection",
            "what to look at once a year; what the battery still holds",
            super::inspection::inspection(job),
        ),
        of("workings", "how each number came about, with formula and source", super::report::workings::volume(job)),
    ]);
    all
}
