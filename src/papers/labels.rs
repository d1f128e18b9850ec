//! Wire labels: what is written on both ends of every piece.

use super::document::Document;
use super::facts::Columns;
use super::job::{Job, rating};
use crate::engine::{Cut, Polarity, control_wires, cut_list};

/// What stands on a label.
pub(super) struct Label {
    /// `R3 + 1`: the wire's name.
    pub number: String,
    /// Where it is.
    pub here: String,
    /// Where the piece goes.
    pub there: String,
    /// Size, and of the positive its fuse.
    pub line: String,
    /// Conductor label of the cable around which it goes.
    pub size: String,
}

/// The labels of a design.
pub fn labels(job: &Job) -> Document {
    let mut paper = Document::new(format!("Wire labels – {}", job.title()));
    paper.paragraph(
        "One label for each end of each piece: the name of the wire, where it is here, where it goes, its size, and \
         for the positive its fuse. The same rows are in labels.csv for a label printer, and on the label sheet to be \
         cut out.",
    );
    let table = Columns::new()
        .text("label", "Label", |r: &Label| &r.number)
        .text("here", "Here", |r| &r.here)
        .text("there", "Goes to", |r| &r.there)
        .text("line", "Second line", |r| &r.line)
        .list("labels", "", &labels_of(job));
    paper.table(table);
    paper
}

/// Two for each piece, run by run.
pub(super) fn labels_of(job: &Job) -> Vec<Label> {
    let mut all = Vec::new();
    let mut both = |number: String, [from, to]: [&str; 2], line: String, size: String| {
        for (here, there) in [(from, to), (to, from)] {
            let (here, there) = (here.to_string(), there.to_string());
            all.push(Label { number: number.clone(), here, there, line: line.clone(), size: size.clone() });
        }
    };
    for cut in cut_list(job.design).cuts {
        both(cut.name.clone(), [&cut.from, &cut.to], second(job, &cut), cut.size.clone());
    }
    for wire in control_wires(job.design) {
        let line = format!("{}, fuse {}", wire.area, wire.fuse);
        both(wire.name.into(), [&wire.from, wire.device], line, wire.area.to_string());
    }
    all
}

fn second(job: &Job, cut: &Cut) -> String {
    let fuses = job.design.runs.iter().find(|r| Some(r.run) == cut.run).map(|r| r.fuses.as_slice()).unwrap_or_default();
    let rating = fuses.iter().map(rating).collect::<Vec<_>>().join(" / ");
    match (cut.polarity, rating.is_empty()) {
        (Polarity::Positive, false) => format!("{}, fuse {rating}", cut.size),
        _ => cut.size.clone(),
    }
}
