//! The parts list: what to buy, in the quantities it is sold in.

use super::document::{Cell, Column, Document, Table};
use super::job::Job;
use crate::engine::{cut_list, parts_list as parts};
use crate::quantity::{Figure, Unit};

/// The parts list of a design.
pub fn parts_list(job: &Job) -> Document {
    let cuts = cut_list(job.design).cuts;
    let mut paper = Document::new(format!("Parts list – {}", job.title()));
    paper.paragraph(
        "Needed is what the plan uses; buy is rounded up to how it is usually sold. Clips, conduit, grommets, bus bars \
         and tools are not counted.",
    );
    let columns = [
        Column::text("group", ""),
        Column::text("what", "What"),
        Column::text("needed", "Needed"),
        Column::text("pack", "Sold as"),
        Column::number("packs", "Buy", Unit::Count),
    ];
    let mut table = Table::new("parts", "", &columns);
    for part in parts(job.design, &cuts) {
        table.row(vec![
            part.group.into(),
            part.what.as_str().into(),
            quantity(part.needed).into(),
            sold(part.pack).into(),
            Cell::count(part.packs as usize),
        ]);
    }
    paper.table(table);
    paper
}

fn quantity(figure: Figure) -> String {
    figure.to_string()
}

fn sold(pack: Figure) -> String {
    match (pack.unit, pack.value) {
        (Unit::Count, 1.0) => "single".into(),
        (Unit::Count, n) => format!("pack of {}", Figure::number(n)),
        (_, 1.0) => "by the metre".into(),
        _ => format!("pieces of {pack}"),
    }
}
