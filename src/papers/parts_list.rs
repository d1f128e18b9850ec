//! The parts list: what to buy, in the quantities it is sold in.

use super::document::{Cell, Column, Document};
use super::facts::Columns;
use super::job::Job;
use crate::engine::ask::workshop::parts::Part;
use crate::engine::{cut_list, parts_list as parts, total};
use crate::quantity::{Figure, Money, Unit, counted};

/// The parts list of a design.
pub fn parts_list(job: &Job) -> Document {
    let cuts = cut_list(job.design).cuts;
    let mut paper = Document::new(format!("Parts list – {}", job.title()));
    paper.paragraph(
        "Needed is what the plan uses; buy is rounded up to how it is usually sold. Clips, grommets and conduit \
         follow from the lengths and what each run passes; tools are not counted, nor are the screws and plates on which \
         devices sit.",
    );
    let parts = parts(job.design, &cuts);
    let mut table = Columns::new()
        .text("group", "", |p: &Part| p.group)
        .text("what", "What", |p| &p.what)
        .words("needed", "Needed", |p| p.needed.to_string())
        .words("pack", "Sold as", |p| sold(p.pack))
        .own(Column::number("packs", "Buy", Unit::Count), |p, _| Cell::count(p.packs as usize))
        .own(Column::number("price", "Price each", Unit::Price), |p, _| p.each.map_or(Cell::ToFill, Cell::of))
        .own(Column::number("sum", "Price", Unit::Price), |p, _| cost(p).map_or(Cell::ToFill, Cell::of))
        .list("parts", "", &parts);
    if let Some(sum) = total(&parts).sum {
        table.sum(&[(1, "all that has a price".into()), (6, Cell::of(sum))]);
        paper.table(table);
        paper.paragraph(format!("By your own prices: {}.", all_of(&parts)));
    } else {
        paper.table(table);
    }
    paper
}

/// What a line costs.
pub(super) fn cost(part: &Part) -> Option<Money> {
    part.each.map(|each| Money::new(each.get() * f64::from(part.packs)))
}

/// The sum, and what it leaves out.
pub(super) fn all_of(parts: &[Part]) -> String {
    let all = total(parts);
    match (all.sum, all.unpriced) {
        (None, _) => "no prices are entered".into(),
        (Some(sum), 0) => format!("{sum} for all of them"),
        (Some(sum), n) => format!("{sum} for what has a price; {} without one", counted(n, "line")),
    }
}

fn sold(pack: Figure) -> String {
    match (pack.unit, pack.value) {
        (Unit::Count, 1.0) => "single".into(),
        (Unit::Count, n) => format!("pack of {}", Figure::number(n)),
        (_, 1.0) => "by the metre".into(),
        _ => format!("pieces of {pack}"),
    }
}
