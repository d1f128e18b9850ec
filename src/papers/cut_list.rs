//! The cut list: every piece of cable, its length and what goes on its ends.

use super::document::{Cell, Column, Document, Table};
use super::facts::Columns;
use super::job::{Job, rating, sensor};
use crate::engine::{ControlWire, Cut, CutList, Lug, PANELS, Pull, control_wires, cut_list as cuts, pulls};
use crate::quantity::{Metres, Unit};

/// The cut list of a design.
pub fn cut_list(job: &Job) -> Document {
    let list = cuts(job.design);
    let mut paper = Document::new(format!("Cut list – {}", job.title()));
    paper.paragraph(rule(&list));
    paper.table(table(job, &list));
    if !control_wires(job.design).is_empty() {
        paper.paragraph(
            "A wire of a third colour carries a signal and is not sized by this program: a thin wire beside the runs, with \
             a small fuse of its own where it leaves its source, is common practice (no source). The instructions of the \
             device come first.",
        );
    }
    if list.cuts.iter().any(|c| c.stem.starts_with("link ")) {
        paper.caution(
            "Links between blocks are no thinner than the thickest cable on the posts and carry what all devices there \
             let through (common practice, no source). Measure from post to post: all plus links alike in length, and all \
             minus links.",
        );
    }
    if list.cuts.iter().any(|c| c.stem == PANELS) {
        paper.caution(
            "What lies in the sun between the panels and the inside is cable that its sheet calls fit for sunlight.",
        );
    }
    if list.cuts.iter().any(|c| [&c.lug_from, &c.lug_to].contains(&&Lug::Pin)) {
        paper.caution(
            "A pin is of the plug's own make. Read the largest conductor and current it takes on its data sheet; where the \
             cable is thicker, join it before the plug with a short piece that fits, sized for its fuse.",
        );
    }
    sensor(job).into_iter().for_each(|text| paper.caution(text));
    crimps(job, &list, &mut paper);
    paper.caution(
        "Pieces between a source and its fuse have no slack beyond the distance the rule allows: cut nothing longer \
         there, nothing protects them.",
    );
    paper.caution(
        "Measure the way on the vehicle with a cord before you cut, and the studs before you crimp: studs and colours \
         here are what is usual, not what you have.",
    );
    paper
}

/// A trial crimp of each size, pulled before the first is made on the vehicle.
fn crimps(job: &Job, list: &CutList, paper: &mut Document) {
    let pulls = pulls(job.design, list);
    let Some(first) = pulls.first() else { return };
    paper.paragraph(format!(
        "Before the first crimp of each size make one on a scrap and pull it along the cable for a minute with a scale \
         or a weight, away from your face: it must stand at least this. By {}; a size between two gauges has the figure \
         of the smaller.",
        first.source.split(" (").next().unwrap_or_default()
    ));
    let table = Columns::new()
        .text("size", "Size", |p: &Pull| &p.size)
        .number("pull", "Pull for a minute", |p| p.least)
        .blank("stood", "Stood")
        .list("crimp-test", "", &pulls);
    paper.table(table);
}

fn rule(list: &CutList) -> String {
    let Some(w) = &list.working else { return "No run has a size yet; see the findings of the report.".into() };
    let inputs: Vec<String> =
        w.inputs.iter().skip(1).map(|i| format!("{} {} = {}", i.meaning, i.symbol, i.value)).collect();
    format!("{}: {}; {}; rounded up. Source: {}.", w.name, w.formula, inputs.join(", "), w.source)
}

fn table(job: &Job, list: &CutList) -> Table {
    let mut table = Columns::new()
        .text("wire", "Wire", |c: &Cut| &c.name)
        .text("colour", "Colour", |c| &c.colour)
        .text("size", "Size", |c| &c.size)
        .number("cut", "Cut", |c| c.length)
        .text("from", "From", |c| &c.from)
        .words("lug_from", "Lug", |c| lug(&c.lug_from))
        .text("to", "To", |c| &c.to)
        .words("lug_to", "Lug", |c| lug(&c.lug_to))
        .own(Column::number("sleeve", "Sleeve", Unit::Millimetre), |c, _| Cell::maybe(c.sleeve))
        .own(Column::text("fuse", "Fuse"), |c, _| fuse(job, c).map_or(Cell::Absent, Cell::from))
        .list("cut-list", "", &list.cuts);
    if list.cuts.is_empty() {
        return table;
    }
    let mut all: Metres = list.cuts.iter().map(|c| c.length).sum();
    for wire in control_wires(job.design) {
        all += wire.length;
        table.row(control(&wire));
    }
    table.sum(&[(0, "all".into()), (3, Cell::of(all))]);
    table
}

/// `M8`, or that the holder or the plug has its own.
pub fn lug(lug: &Lug) -> String {
    match lug {
        Lug::Ring(stud) => stud.clone(),
        Lug::Holder => "holder".into(),
        Lug::Pin => "pin".into(),
        Lug::ToFit => "to fit".into(),
    }
}

/// The fuse that the piece leads to or begins at, said once for each.
fn fuse(job: &Job, cut: &Cut) -> Option<String> {
    let fuses = &job.design.runs.iter().find(|r| Some(r.run) == cut.run)?.fuses;
    let said = cut.fuses.iter().filter_map(|n| fuses.get(*n));
    let said: Vec<String> = said.map(rating).collect();
    (!said.is_empty()).then(|| said.join(" / "))
}

/// A thin wire that carries a signal.
fn control(wire: &ControlWire) -> Vec<Cell> {
    vec![
        wire.name.into(),
        "third colour".into(),
        wire.area.to_string().into(),
        Cell::of(wire.length),
        wire.from.as_str().into(),
        "to fit".into(),
        wire.device.into(),
        "to fit".into(),
        Cell::Absent,
        wire.fuse.to_string().into(),
    ]
}
