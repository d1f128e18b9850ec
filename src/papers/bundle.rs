//! All papers of a design, ready to be written into a folder.

use super::clean::json_text;
use super::contents::{Listed, SET, WORKINGS, contents};
use super::csv_table::csv_table;
use super::diagram;
use super::document::Document;
use super::dxf::dxf;
use super::html::html_page;
use super::job::Job;
use super::markdown::markdown;
use super::pdf::{Laid, pdf};
use super::plain::Look;
use super::stamp::Stamp;
use crate::engine::marking;
use crate::plan::Units;
use std::collections::BTreeMap;

/// A file: its name relative to the folder, and what it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperFile {
    /// With forward slashes.
    pub name: String,
    /// Text in UTF-8, or a PDF.
    pub content: Vec<u8>,
}

impl PaperFile {
    /// Its text; nothing for a PDF.
    pub fn text(&self) -> &str {
        std::str::from_utf8(&self.content).unwrap_or_default()
    }
}

/// Each paper as Markdown and HTML, all of them as PDF, the drawing as SVG, each table as CSV; all stamped.
pub fn bundle(job: &Job, look: &Look, stamp: &Stamp) -> Vec<PaperFile> {
    // What draws asks the plan for its units.
    let mut plan = job.plan.clone();
    plan.job.units = Units::of(look.system);
    let look = &Look { names: plan.names(), ..look.clone() };
    let job = &Job { plan: &plan, ..*job };
    let papers: Vec<Paper> = papers(job).into_iter().map(|paper| stamped(job, stamp, paper)).collect();
    let mut files = Vec::new();
    let mut add = |name: String, content: String| files.push(PaperFile { name, content: content.into_bytes() });
    let drawings = diagram::layout(job.plan, job.design).pictures();
    for (n, picture) in drawings.iter().enumerate() {
        let number = if drawings.len() == 1 { String::new() } else { format!("-{}", n + 1) };
        add(format!("wiring-diagram{number}.svg"), picture.svg());
    }
    let (mut tables, mut json) = (BTreeMap::new(), serde_json::Map::new());
    let contents = contents_of(job, stamp, &papers, &|_| None);
    for Paper { name, paper, .. } in [&contents].into_iter().chain(&papers) {
        add(format!("{name}.md"), markdown(paper, look));
        if let serde_json::Value::Object(own) = super::json::tables(paper) {
            json.extend(own);
        }
        for table in paper.tables() {
            tables.insert(table.name, csv_table(table, look));
        }
        // The report's curves are read beside their words.
        for (n, picture) in paper.drawings().enumerate().filter(|_| *name != "report") {
            add(format!("{name}-{}.svg", n + 1), picture.svg());
        }
        add(format!("{name}.html"), html_page(&paper.title, std::slice::from_ref(paper), look, stamp));
    }
    add("tables.json".into(), json_text(&serde_json::Value::Object(json)));
    add("circuit.cir".into(), super::netlist::netlist(job));
    for (n, piece) in marking(job.design).iter().enumerate() {
        add(format!("marking-out-{}.dxf", n + 1), dxf(piece));
    }
    for (name, text) in tables {
        add(format!("csv/{name}.csv"), text);
    }
    files.extend(volumes(job, look, stamp, &papers));
    files
}

/// All papers in one PDF behind their contents, and the workings, which are long, in another.
fn volumes(job: &Job, look: &Look, stamp: &Stamp, papers: &[Paper]) -> Vec<PaperFile> {
    let in_set = |paper: &&Paper| paper.name != WORKINGS;
    let set: Vec<&Paper> = papers.iter().filter(in_set).collect();
    let workings: Vec<&Paper> = papers.iter().filter(|p| !in_set(p)).collect();
    let (Some(set_laid), Some(workings_laid)) = (laid(&set, look), laid(&workings, look)) else { return Vec::new() };
    // The contents are as long whatever the numbers in them are.
    let numbered = |before: usize| {
        contents_of(job, stamp, papers, &|name| {
            let place = set.iter().position(|p| p.name == name)?;
            Some(before + 1 + set_laid.iter().take(place).map(Laid::count).sum::<usize>())
        })
    };
    let first = numbered(0);
    let before = Laid::of(&first.paper, look).map_or(0, |laid| laid.count());
    let mut contents = numbered(before);
    if set_laid.iter().any(Laid::lacks_letters) {
        contents.paper.caution(
            "Some letters of the plan are not in the font of this file, which has Latin, Greek and Cyrillic ones: they \
             stand here as empty boxes, and are written out in the HTML.",
        );
    }
    let Some(contents) = Laid::of(&contents.paper, look) else { return Vec::new() };
    let all: Vec<&Laid<'_>> = [&contents].into_iter().chain(&set_laid).collect();
    let file = |name: &str, title: String, laid: &[&Laid<'_>]| {
        let content = pdf(&title, laid, look, stamp)?;
        Some(PaperFile { name: format!("{name}.pdf"), content })
    };
    let workings: Vec<&Laid<'_>> = workings_laid.iter().collect();
    let files = [
        file(SET, format!("Papers – {}", job.title()), &all),
        file(WORKINGS, format!("Workings – {}", job.title()), &workings),
    ];
    files.into_iter().flatten().collect()
}

fn laid<'a>(papers: &[&'a Paper], look: &Look) -> Option<Vec<Laid<'a>>> {
    papers.iter().map(|p| Laid::of(&p.paper, look)).collect()
}

/// The list of the papers as one of them; `page` says where one begins.
fn contents_of(job: &Job, stamp: &Stamp, papers: &[Paper], page: &dyn Fn(&str) -> Option<usize>) -> Paper {
    let listed = |p: &Paper| Listed { name: p.name, what_for: p.what_for, page: page(p.name) };
    let paper = contents(job, &papers.iter().map(listed).collect::<Vec<_>>());
    stamped(job, stamp, Paper { name: "contents", what_for: "", blank: true, paper })
}

fn stamped(job: &Job, stamp: &Stamp, mut paper: Paper) -> Paper {
    paper.paper.stamped(stamp, paper.blank);
    if job.design.has_stop() {
        paper.paper.stop_first("Do not build this plan as it is: the report lists what must be mended first.");
    }
    paper
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
                "test-sheet",
                "what to look at, set and measure before it is handed over",
                super::commissioning::commissioning(job),
            )
        },
    ];
    let electrician = super::hand_over::hand_over(job);
    all.extend(electrician.map(|paper| of("hand-over", "what a licensed electrician designs, tests and signs", paper)));
    let marking = super::marking_out::marking_out(job);
    all.extend(marking.map(|paper| of("marking-out", "how what holds the battery is cut, bent and drilled", paper)));
    let beside = (!job.beside.is_empty()).then(|| super::beside::beside_paper(job, &job.designs_beside()));
    all.extend(beside.map(|paper| of("side-by-side", "other whole designs beside this one", paper)));
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
