//! What voltage each load gets.

use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::job::Job;
use crate::plan::Load;
use crate::quantity::Unit;

/// Voltages at the loads as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    paper.heading(1, "Voltage at the loads");
    let columns = [
        Column::text("load", "Load"),
        Column::text("class", "Class"),
        Column::number("voltage", "Steady", Unit::Volt),
        Column::number("surge_voltage", "At start", Unit::Volt),
        Column::number("charging_voltage", "Charging", Unit::Volt),
        Column::number("drop", "Drop", Unit::Volt),
        Column::number("drop_share", "", Unit::Share),
        Column::number("limit", "Limit", Unit::Share),
        Column::text("fits", ""),
    ];
    let mut table =
        Table::new("supply", "Steady: all steady loads on, battery at the cut-off; drops are out and back", &columns);
    for (load, s) in job.plan.loads.iter().zip(&job.design.loads) {
        if load.inverter {
            table.row(through_inverter(load));
            continue;
        }
        table.row(vec![
            load.name.as_str().into(),
            load.drop.as_str().into(),
            Cell::maybe(s.voltage),
            Cell::maybe(s.surge_voltage),
            Cell::maybe(s.charging_voltage),
            Cell::of(s.drop),
            Cell::of(s.drop_share),
            Cell::limit(s.limit),
            match (s.limit.get() > 0.0, s.fits) {
                (false, _) => "not connected",
                (true, true) => "fits",
                (true, false) => "FAILS",
            }
            .into(),
        ]);
    }
    paper.table(table);
}

/// Its voltage is the inverter's own; what counts is whether the inverter's run can feed it.
fn through_inverter(load: &Load) -> Vec<Cell> {
    let mut row = vec![Cell::Absent; 9];
    row[0] = load.name.as_str().into();
    row[8] = "through the inverter".into();
    row
}
