//! The energy budget: what each load takes a day.

use crate::engine::LoadBudget;
use crate::engine::design::results::fact::At;
use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;

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
    let (site, budget) = (&job.design.installation, &job.design.budget);
    let name = |_: &LoadBudget, at: &At<'_>| match site.loads.get(at.index) {
        Some(load) if load.count == 1 => load.name.clone().into(),
        Some(load) => format!("{} × {}", load.count, load.name).into(),
        None => Cell::Absent,
    };
    let place = |_: &LoadBudget, at: &At<'_>| match site.loads.get(at.index) {
        Some(load) if load.inverter => "inverter".into(),
        load => load.map_or(Cell::Absent, |l| l.at.as_str().into()),
    };
    let mut table = Columns::new()
        .own(Column::fact(&LoadBudget::NAME), name)
        .own(Column::text("at", "At"), place)
        .fact(LoadBudget::RUNNING)
        .fact(LoadBudget::STARTING)
        .fact(LoadBudget::HOURS)
        .fact(LoadBudget::SHARE)
        .fact(LoadBudget::CHARGE)
        .fact(LoadBudget::ENERGY)
        .table("energy", "A day of use, taken from the battery", &budget.loads, job.at());
    let columns = table.columns.len();
    for (name, charge) in [("standing draws", budget.standing), ("inverter idle", budget.inverter_idle)] {
        if charge.get() > 0.0 {
            let mut row = vec![Cell::Absent; columns];
            row[0] = name.into();
            row[6] = Cell::of(charge);
            table.row(row);
        }
    }
    table.sum(&[(0, "all".into()), (6, Cell::of(budget.charge)), (7, Cell::of(budget.energy))]);
    table
}
