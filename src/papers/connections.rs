//! The connection table: wire by wire, device by device, stud by stud.

use super::document::{Cell, Column, Document, Table};
use super::facts::Columns;
use super::job::Job;
use crate::engine::{Connections, Joint, Stud, Wire, connections as joined, control_wires};
use crate::papers::cut_list::lug;
use crate::quantity::Unit;

/// The table of a design as a paper of its own.
pub fn connections(job: &Job) -> Document {
    let mut paper = Document::new(format!("Connections – {}", job.title()));
    paper.paragraph(
        "Everything that is joined: wires with both their ends, what sits between terminals, and stud by stud what goes \
         onto it. R3 is a run, F3 its fuse (F3b the one at its far end). IN is toward the battery, OUT away from it; of a \
         charger IN is the starter battery's side. All studs of a bar are one point, and so are all \
         points of the body. Lengths are along the loom; cut lengths stand in the cut list.",
    );
    tables(job, &mut paper);
    paper
}

/// The same as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    paper.heading(1, "Connections");
    tables(job, paper);
}

fn tables(job: &Job, paper: &mut Document) {
    let list = joined(job.design);
    paper.table(wires(job, &list));
    paper.table(joints(&list));
    paper.table(studs(&list));
    let crowded: Vec<String> = list.studs().iter().filter(|s| crowd(s)).map(|s| s.terminal.to_string()).collect();
    if !crowded.is_empty() {
        paper.caution(format!(
            "More than four lugs would sit on one stud: {}. Put a bar beside it and share them out (ABYC E-11: no more \
             than four on a stud; from memory).",
            crowded.join(", ")
        ));
    }
}

/// Most lugs on a stud.
const MOST: usize = 4;

fn crowd(stud: &Stud) -> bool {
    stud.terminal.is_one_stud() && stud.wires.len() > MOST
}

fn wires(job: &Job, list: &Connections) -> Table {
    let mut table = Columns::new()
        .text("wire", "Wire", |w: &Wire| &w.name)
        .text("colour", "Colour", |w| &w.cut.colour)
        .text("size", "Size", |w| &w.cut.size)
        .number("length", "Length", |w| w.cut.along)
        .words("from", "From", |w| w.cut.ends[0].to_string())
        .words("from_lug", "Lug", |w| lug(&w.cut.lug_from))
        .words("to", "To", |w| w.cut.ends[1].to_string())
        .words("to_lug", "Lug", |w| lug(&w.cut.lug_to))
        .list("connections", "Wire by wire", &list.wires);
    for wire in control_wires(job.design) {
        table.row(vec![
            wire.name.into(),
            "third colour".into(),
            wire.area.to_string().into(),
            Cell::of(wire.along),
            format!("{}, behind a fuse of {}", wire.from, wire.fuse).into(),
            "to fit".into(),
            wire.to.into(),
            "to fit".into(),
        ]);
    }
    table
}

fn joints(list: &Connections) -> Table {
    let end = |n: usize| move |j: &Joint| j.terminals.get(n).map(ToString::to_string).unwrap_or_default();
    Columns::new()
        .text("joint", "Device", |j: &Joint| &j.name)
        .text("what", "What", |j| &j.what)
        .text("joins", "", |j| j.joins.word())
        .words("from", "Between", end(0))
        .words("to", "and", end(1))
        .words("third", "and", end(2))
        .list("joints", "Device by device: what sits between terminals", &list.joints)
}

fn studs(list: &Connections) -> Table {
    let studs = list.studs();
    let on = |s: &Stud| {
        let wires = s.wires.iter().filter_map(|n| list.wires.get(*n)).map(|w| format!("{} {}", w.name, w.cut.size));
        let joints = s.joints.iter().filter_map(|n| list.joints.get(*n)).map(|j| j.name.clone());
        let joints = joints.filter(|name| *name != s.terminal.at);
        wires.chain(joints).collect::<Vec<_>>().join("; ")
    };
    Columns::new()
        .words("terminal", "Terminal", |s: &Stud| s.terminal.to_string())
        .own(Column::text("stud", "Stud"), |s, _| s.thread.clone().map_or(Cell::Absent, Cell::from))
        .own(Column::number("lugs", "Lugs", Unit::Count), |s, _| Cell::count(s.wires.len()))
        .words("on_it", "On it", on)
        .list("studs", "Stud by stud: what goes onto it", &studs)
}
