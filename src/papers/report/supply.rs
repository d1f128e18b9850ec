//! What voltage each load gets.

use crate::engine::LoadSupply;
use crate::engine::design::results::fact::At;
use crate::papers::document::{Cell, Column, Document};
use crate::papers::facts::Columns;
use crate::papers::job::Job;

/// Voltages at the loads as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    paper.heading(1, "Voltage at the loads");
    let fits = |s: &LoadSupply, _: &At<'_>| match (s.limit.get() > 0.0, s.fits) {
        (false, _) => "not connected".into(),
        (true, true) => "fits".into(),
        (true, false) => "FAILS".into(),
    };
    let mut table = Columns::new()
        .fact(LoadSupply::NAME)
        .fact(LoadSupply::CLASS)
        .fact(LoadSupply::VOLTAGE)
        .fact(LoadSupply::SURGE_VOLTAGE)
        .fact(LoadSupply::CHARGING_VOLTAGE)
        .fact(LoadSupply::DROP)
        .fact(LoadSupply::DROP_SHARE.called(job.design.installation.share_of()))
        .fact(LoadSupply::LIMIT)
        .own(Column::text("fits", ""), fits)
        .table(
            "supply",
            "Steady: all steady loads on, battery at the cut-off; drops are out and back",
            &job.design.loads,
            job.at(),
        );
    // The voltage of these is the inverter's own; what counts is whether the inverter's run can feed it.
    for (row, _) in table.rows.iter_mut().zip(&job.design.installation.loads).filter(|(_, l)| l.inverter) {
        row[1..].fill(Cell::Absent);
        row[8] = "through the inverter".into();
    }
    paper.table(table);
}
