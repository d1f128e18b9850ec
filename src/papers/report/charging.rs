//! Charging: which current, between which bounds, and how long it takes.

use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::job::Job;
use crate::quantity::Unit;

/// Charging as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let charger = &job.design.charger;
    paper.heading(1, "Charging");
    let mut facts = Vec::new();
    if let Some(current) = charger.current {
        facts.push(("Charger", format!("{current} at {}", charger.output)));
        facts.push(("Takes", format!("up to {} at {} on its input", charger.input, charger.input_voltage)));
        facts.push(("Puts back", format!("{} on a day of driving", charger.a_day)));
        facts.push((
            "Alternator",
            format!("hot, {} to spare at idle, {} on the road", charger.spare_idle, charger.spare_road),
        ));
    } else {
        facts.push(("Charger", "none".into()));
    }
    if charger.solar_a_day.get() > 0.0 {
        facts.push((
            "Sun",
            format!("{} on a usual day, {} of the day's need", charger.solar_a_day, charger.solar_share),
        ));
    }
    if charger.mains_a_day.get() > 0.0 {
        facts.push(("Mains", format!("{} on a day plugged in", charger.mains_a_day)));
    }
    paper.facts(facts);
    paper.table(bounds(job));
    paper.table(recovery(job));
}

fn bounds(job: &Job) -> Table {
    let columns = [
        Column::text("bound", "Bound"),
        Column::text("way", ""),
        Column::number("current", "Charge current", Unit::Amp),
    ];
    let mut table = Table::new("charge-bounds", "Between which bounds the charge current lies", &columns);
    let charger = &job.design.charger;
    if !charger.lower.name.is_empty() {
        table.row(vec![charger.lower.name.into(), "at least".into(), Cell::of(charger.lower.amps)]);
    }
    for bound in &charger.upper {
        table.row(vec![bound.name.into(), "at most".into(), Cell::limit(bound.amps)]);
    }
    table
}

fn recovery(job: &Job) -> Table {
    let columns = [Column::number("to", "Charged to", Unit::Share), Column::number("time", "Driving", Unit::Hour)];
    let mut table = Table::new("recovery", "From the planned depth, driving time until it is charged again", &columns);
    for r in &job.design.charger.recovery {
        table.row(vec![Cell::of(r.to), r.hours.map_or("never".into(), Cell::of)]);
    }
    table
}
