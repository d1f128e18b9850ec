//! The parts list: what to buy, in the quantities it is sold in.

use super::document::{Cell, Column, Document};
use super::facts::Columns;
use super::job::Job;
use crate::engine::ask::workshop::parts::Part;
use crate::engine::{cut_list, parts_list as parts};
use crate::quantity::{Figure, Unit};

/// The parts list of a design.
pub fn parts_list(job: &Job) -> Document {
    let cuts = cut_list(job.design).cuts;
    let mut paper = Document::new(format!("Parts list – {}", job.title()));
    paper.paragraph(
        "Needed is what the plan uses; buy is rounded up to how it is usually sold. Clips, grommets and conduit \
         follow from the lengths and what each run passes; tools are not counted, nor are the screws and plates on which \
         devices sit.",
    );
    let table = Columns::new()
        .text("group", "", |p: &Part| p.group)
        .text("what", "What", |p| &p.what)
        .words("needed", "Needed", |p| p.needed.to_string())
        .words("pack", "Sold as", |p| sold(p.pack))
        .own(Column::number("packs", "Buy", Unit::Count), |p, _| Cell::count(p.packs as usize))
        .blank("price", "Price each")
        .blank("sum", "Price")
        .list("parts", "", &parts(job.design, &cuts));
    paper.table(table);
    paper
}

fn sold(pack: Figure) -> String {
    match (pack.unit, pack.value) {
        (Unit::Count, 1.0) => "single".into(),
        (Unit::Count, n) => format!("pack of {}", Figure::number(n)),
        (_, 1.0) => "by the metre".into(),
        _ => format!("pieces of {pack}"),
    }
}
