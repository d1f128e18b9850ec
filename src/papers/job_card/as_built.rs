//! What was planned, and room for what became of it.

use crate::engine::ask::workshop::parts::Part;
use crate::engine::{RunDesign, cut_list, parts_list};
use crate::papers::document::Column;
use crate::papers::document::{Cell, Document};
use crate::papers::facts::Columns;
use crate::papers::job::{Job, between, rating};
use crate::quantity::Unit;

/// Each run and each device.
pub fn section(job: &Job, paper: &mut Document) {
    let site = &job.design.installation;
    let planned = |r: &RunDesign| site.runs.get(r.run);
    let cable = |r: &RunDesign| !site.is_way(r.run);
    let runs = Columns::new()
        .words("run", "Run", |r: &RunDesign| site.run_number(r.run))
        .words("between", "Between", |r| between(job, r.run))
        .own(Column::text("size", "Size"), move |r, _| match &r.size {
            _ if !cable(r) => Cell::Absent,
            Some(size) => size.label.as_str().into(),
            None => "none fits".into(),
        })
        .own(Column::number("length", "Length", Unit::Metre), move |r, _| {
            planned(r).filter(|_| cable(r)).map_or(Cell::Absent, |p| Cell::of(p.length))
        })
        .words("fuses", "Fuse", |r| r.fuses.iter().map(rating).collect::<Vec<_>>().join(" / "))
        .blank("size_built", "Size built")
        .blank("length_built", "Length built")
        .blank("fuse_built", "Fuse built")
        .list("as-built-runs", "Runs", &job.design.runs);
    paper.table(runs);
    let parts = parts_list(job.design, &cut_list(job.design).cuts);
    let devices: Vec<&Part> = parts.iter().filter(|p| p.group == "device").collect();
    let devices = Columns::new()
        .text("device", "Device", |p: &&Part| &p.what)
        .blank("maker", "Maker, type")
        .blank("serial", "Serial number")
        .blank("sheet", "Sheet read")
        .list("as-built-devices", "Devices", &devices);
    paper.table(devices);
}
