//! How tight is each stud?

use crate::engine::{Stud, connections};
use crate::papers::document::{Cell, Column, Document};
use crate::papers::facts::Columns;
use crate::papers::job::Job;
use crate::quantity::Unit;

/// Every stud a wrench goes to. A terminal's torque is its part's: the plan knows the carrier's alone.
pub fn section(job: &Job, paper: &mut Document) {
    paper.paragraph(
        "A terminal takes what its part's sheet says and nothing else: write it down before you tighten. An M8 insert in \
         a battery takes usually 7 to 11 Nm, where a steel bolt of that size takes 25 Nm, which would tear it out \
         (from memory).",
    );
    if let Some(carrier) = &job.design.carrier {
        let count = carrier.strength.as_ref().map_or_else(String::new, |s| format!("{} ", s.studs.len()));
        let class = &job.design.installation.hold_down.stud_class;
        let stud = &carrier.sizes.stud;
        paper.paragraph(format!(
            "The hold-down's {count}studs, {stud} of class {class}: {}, locked.",
            carrier.torque.torque
        ));
    }
    let studs = connections(job.design).studs();
    let table = Columns::new()
        .words("terminal", "Terminal", |s: &&Stud| s.terminal.to_string())
        .own(Column::text("thread", "Thread"), |s, _| s.thread.clone().map_or(Cell::Absent, Cell::from))
        .own(Column::number("lugs", "Lugs", Unit::Count), |s, _| Cell::count(s.wires.len()))
        .blank("sheet", "By its sheet, Nm")
        .blank("tightened", "Tightened, Nm")
        .blank("marked", "Marked")
        .list("torques", "", &studs.iter().filter(|s| s.thread.is_some()).collect::<Vec<_>>());
    paper.table(table);
}
