//! The energy budget: what each load takes a day.

use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::job::Job;
use crate::quantity::Unit;

/// The budget as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let budget = &job.design.budget;
    paper.heading(1, "Energy budget");
    paper.table(table(job));
    paper.facts(vec![
        ("By day", format!("{} from 06:00 to 18:00, {} by night", budget.by_day, budget.by_night)),
        ("Driving", format!("{}, {} parked", budget.driving, budget.parked)),
        ("Together", format!("at most {} flow when all that may run together does", budget.peak)),
        ("Start", surge(job)),
    ]);
}

fn surge(job: &Job) -> String {
    let budget = &job.design.budget;
    match budget.surge_load.and_then(|i| job.plan.loads.get(i)) {
        Some(load) => format!("up to {} while {} starts on top of the rest", budget.surge, load.name),
        None => "no load has a start surge".into(),
    }
}

fn table(job: &Job) -> Table {
    let columns = [
        Column::text("load", "Load"),
        Column::text("at", "At"),
        Column::number("running", "Running", Unit::Amp),
        Column::number("starting", "Start", Unit::Amp),
        Column::number("hours", "On", Unit::Hour),
        Column::number("share_on", "Draws", Unit::Share),
        Column::number("charge", "Charge", Unit::AmpHour),
        Column::number("energy", "Energy", Unit::WattHour),
    ];
    let mut table = Table::new("energy", "A day of use, taken from the battery", &columns);
    let budget = &job.design.budget;
    for (load, b) in job.plan.loads.iter().zip(&budget.loads) {
        let name = if load.count == 1 { load.name.clone() } else { format!("{} × {}", load.count, load.name) };
        table.row(vec![
            name.into(),
            if load.inverter { "inverter".into() } else { load.at.as_str().into() },
            Cell::of(b.running),
            Cell::of(b.starting),
            Cell::of(b.hours),
            Cell::of(b.share),
            Cell::of(b.charge),
            Cell::of(b.energy),
        ]);
    }
    for (name, charge) in [("standing draws", budget.standing), ("inverter idle", budget.inverter_idle)] {
        if charge.get() > 0.0 {
            let mut row = vec![Cell::Absent; columns.len()];
            row[0] = name.into();
            row[6] = Cell::of(charge);
            table.row(row);
        }
    }
    let mut sum = vec![Cell::Text(String::new()); columns.len()];
    sum[0] = "all".into();
    sum[6] = Cell::of(budget.charge);
    sum[7] = Cell::of(budget.energy);
    table.row(sum);
    table.total = true;
    table
}
