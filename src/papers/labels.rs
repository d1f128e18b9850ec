//! Wire labels: what is written on both ends of every piece.

use super::document::Document;
use super::facts::Columns;
use super::job::{Job, rating};
use crate::engine::{Cut, Polarity, cut_list, enable_wire};

/// The labels of a design.
pub fn labels(job: &Job) -> Document {
    let mut paper = Document::new(format!("Wire labels – {}", job.title()));
    paper.paragraph(
        "One label for each end of each piece: its run and polarity, where it is here, where it goes, its size, and \
         for the positive its fuse. The same rows are in labels.csv for a label printer.",
    );
    let mut rows = Vec::new();
    for cut in cut_list(job.design).cuts {
        let line = second(job, &cut);
        rows.push([number(job, &cut), cut.from.clone(), cut.to.clone(), line.clone()]);
        rows.push([number(job, &cut), cut.to, cut.from, line]);
    }
    if let Some(wire) = enable_wire(job.design) {
        let (signal, charger) = ("engine-running signal", "charger");
        for (here, there) in [(signal, charger), (charger, signal)] {
            let line = format!("{}, fuse {}", wire.area, wire.fuse);
            rows.push(["enable".into(), here.into(), there.into(), line]);
        }
    }
    let table = Columns::new()
        .text("label", "Label", |r: &[String; 4]| &r[0])
        .text("here", "Here", |r| &r[1])
        .text("there", "Goes to", |r| &r[2])
        .text("line", "Second line", |r| &r[3])
        .list("labels", "", &rows);
    paper.table(table);
    paper
}

/// `R3 +`.
fn number(job: &Job, cut: &Cut) -> String {
    format!(
        "{} {}",
        cut.run.map_or_else(|| "bond".into(), |r| job.design.installation.run_number(r)),
        if cut.polarity == Polarity::Positive { "+" } else { "–" }
    )
}

fn second(job: &Job, cut: &Cut) -> String {
    let fuses = job.design.runs.iter().find(|r| Some(r.run) == cut.run).map(|r| r.fuses.as_slice()).unwrap_or_default();
    let rating = fuses.iter().map(rating).collect::<Vec<_>>().join(" / ");
    match (cut.polarity, rating.is_empty()) {
        (Polarity::Positive, false) => format!("{}, fuse {rating}", cut.size),
        _ => cut.size.clone(),
    }
}
