//! The cut list: every piece of cable, its length and what goes on its ends.

use super::document::{Cell, Column, Document, Table};
use super::job::{Job, NONE_FITS};
use crate::engine::installation::subject::run_number;
use crate::engine::{Cut, CutList, EnableWire, Lug, cut_list as cuts, enable_wire};
use crate::quantity::{Metres, Unit};

/// The cut list of a design.
pub fn cut_list(job: &Job) -> Document {
    let list = cuts(job.design);
    let mut paper = Document::new(format!("Cut list – {}", job.title()));
    paper.paragraph(rule(&list));
    paper.table(table(job, &list));
    if enable_wire(job.design).is_some() {
        paper.paragraph(
            "The enable wire is not sized by this program: a thin wire beside the feed, with a small fuse of its own where \
             it leaves its source, is common practice (no source). The charger's instructions come first.",
        );
    }
    if list.cuts.iter().any(|c| [&c.lug_from, &c.lug_to].contains(&&Lug::Pin)) {
        paper.caution(
            "A pin is of the plug's own make. Read the largest conductor and current it takes on its data sheet; where the \
             cable is thicker, join it before the plug with a short piece that fits, sized for its fuse.",
        );
    }
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

fn rule(list: &CutList) -> String {
    let Some(w) = &list.working else { return "No run has a size yet; see the findings of the report.".into() };
    let inputs: Vec<String> =
        w.inputs.iter().skip(1).map(|i| format!("{} {} = {}", i.meaning, i.symbol, i.value)).collect();
    format!("{}: {}; {}; rounded up. Source: {}.", w.name, w.formula, inputs.join(", "), w.source)
}

fn table(job: &Job, list: &CutList) -> Table {
    let columns = [
        Column::text("run", "Run"),
        Column::text("colour", "Colour"),
        Column::text("size", "Size"),
        Column::number("cut", "Cut", Unit::Metre),
        Column::text("from", "From"),
        Column::text("lug_from", "Lug"),
        Column::text("to", "To"),
        Column::text("lug_to", "Lug"),
        Column::number("sleeve", "Sleeve", Unit::Millimetre),
        Column::text("fuse", "Fuse"),
    ];
    let mut table = Table::new("cut-list", "", &columns);
    let mut all = Metres::ZERO;
    for cut in &list.cuts {
        all += cut.length;
        table.row(vec![
            run_number(cut.run).into(),
            colour(cut).into(),
            cut.size.as_str().into(),
            Cell::of(cut.length),
            cut.from.as_str().into(),
            lug(&cut.lug_from).into(),
            cut.to.as_str().into(),
            lug(&cut.lug_to).into(),
            Cell::maybe(cut.sleeve),
            fuse(job, cut).map_or(Cell::Absent, Cell::from),
        ]);
    }
    if let Some(wire) = enable_wire(job.design).filter(|_| !list.cuts.is_empty()) {
        all += wire.length;
        table.row(enable(&wire));
    }
    if list.cuts.is_empty() {
        return table;
    }
    let mut sum = vec![Cell::Text(String::new()); columns.len()];
    sum[0] = "all".into();
    sum[3] = Cell::of(all);
    table.row(sum);
    table.total = true;
    table
}

fn colour(cut: &Cut) -> String {
    let sign = if cut.polarity == crate::engine::ask::workshop::cut::Polarity::Positive { "+" } else { "–" };
    format!("{sign} {}", cut.colour)
}

/// `M8`, or that the holder or the plug has its own.
pub fn lug(lug: &Lug) -> String {
    match lug {
        Lug::Ring(stud) => stud.clone(),
        Lug::Holder => "holder".into(),
        Lug::Pin => "pin".into(),
    }
}

/// The fuse that the piece leads to or begins at, said once for each.
fn fuse(job: &Job, cut: &Cut) -> Option<String> {
    let fuses = &job.design.runs.iter().find(|r| r.run == cut.run)?.fuses;
    let said = cut.fuses.iter().filter_map(|n| fuses.get(*n));
    let said: Vec<String> = said.map(|f| f.rating.map_or(NONE_FITS.into(), |r| r.to_string())).collect();
    (!said.is_empty()).then(|| said.join(" / "))
}

/// The wire that switches the charger on, when it has one.
fn enable(wire: &EnableWire) -> Vec<Cell> {
    vec![
        "enable".into(),
        "third colour".into(),
        wire.area.to_string().into(),
        Cell::of(wire.length),
        "engine-running signal".into(),
        "to fit".into(),
        "charger".into(),
        "to fit".into(),
        Cell::Absent,
        wire.fuse.to_string().into(),
    ]
}
