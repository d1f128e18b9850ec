//! Wire labels: what is written on both ends of every piece.

use super::document::{Cell, Column, Document, Table};
use super::job::{Job, NONE_FITS};
use crate::engine::installation::subject::run_number;
use crate::engine::{Cut, Polarity, cut_list, enable_wire};

/// The labels of a design.
pub fn labels(job: &Job) -> Document {
    let mut paper = Document::new(format!("Wire labels – {}", job.title()));
    paper.paragraph(
        "One label for each end of each piece: its run and polarity, where it is here, where it goes, its size, and \
         for the positive its fuse. The same rows are in labels.csv for a label printer.",
    );
    let columns = [
        Column::text("label", "Label"),
        Column::text("here", "Here"),
        Column::text("there", "Goes to"),
        Column::text("line", "Second line"),
    ];
    let mut table = Table::new("labels", "", &columns);
    for cut in cut_list(job.design).cuts {
        for (here, there) in [(&cut.from, &cut.to), (&cut.to, &cut.from)] {
            table.row(vec![
                number(&cut).into(),
                here.as_str().into(),
                there.as_str().into(),
                Cell::Text(second(job, &cut)),
            ]);
        }
    }
    if let Some(wire) = enable_wire(job.design) {
        let (signal, charger) = ("engine-running signal", "charger");
        for (here, there) in [(signal, charger), (charger, signal)] {
            let line = format!("{}, fuse {}", wire.area, wire.fuse);
            table.row(vec!["enable".into(), here.into(), there.into(), line.into()]);
        }
    }
    paper.table(table);
    paper
}

/// `R3 +`.
fn number(cut: &Cut) -> String {
    format!("{} {}", run_number(cut.run), if cut.polarity == Polarity::Positive { "+" } else { "–" })
}

fn second(job: &Job, cut: &Cut) -> String {
    let fuses = job.design.runs.iter().find(|r| r.run == cut.run).map(|r| r.fuses.as_slice()).unwrap_or_default();
    let rating =
        fuses.iter().map(|f| f.rating.map_or(NONE_FITS.into(), |r| r.to_string())).collect::<Vec<_>>().join(" / ");
    match (cut.polarity, rating.is_empty()) {
        (Polarity::Positive, false) => format!("{}, fuse {rating}", cut.size),
        _ => cut.size.clone(),
    }
}
