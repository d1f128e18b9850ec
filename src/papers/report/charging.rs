//! Charging: which current, between which bounds, and how long it takes.

use crate::engine::design::results::fact::At;
use crate::engine::{Bound, Recovery};
use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;

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
    if let Some(days) = charger.starts_for {
        facts.push(("Parked", format!("the engine starts for {days}, then the starter battery may have too little")));
    }
    if charger.solar_a_day.get() > 0.0 {
        facts.push((
            "Sun",
            format!("{} on a usual day, {} of the day's need", charger.solar_a_day, charger.solar_share),
        ));
    }
    if let Some(open) = charger.array.open {
        let amps = charger.array.cable.map_or(String::new(), |amps| format!("; cable and device for {amps}"));
        facts.push(("Array", format!("{open} open on the coldest day{amps}")));
    }
    if let Some(cable) = &charger.array_cable {
        let size = cable.size.as_deref().unwrap_or("no size is enough");
        let device = cable.device.map_or("none made".into(), |device| device.to_string());
        let lost = format!("loses {} ({})", cable.drop, cable.lost);
        facts.push((
            "Panel cable",
            format!("{size}, {} one way, device {device}; carries {}, {lost}", cable.length, cable.carries),
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
    let charger = &job.design.charger;
    let lower = charger.lower();
    let least = lower.is_some();
    let way = move |at: &At<'_>| if least && at.index == 0 { "at least" } else { "at most" };
    // What may not be passed is read rounded down.
    let current = move |b: &Bound, at: &At<'_>| match way(at) {
        "at least" => Cell::of(b.amps),
        _ => Cell::limit(b.amps),
    };
    Columns::new()
        .fact(Bound::NAME)
        .own(Column::text("way", ""), move |_, at| way(at).into())
        .own(Column::fact(&Bound::CURRENT), current)
        .table(
            "charge-bounds",
            "Between which bounds the charge current lies",
            lower.iter().chain(charger.upper()),
            job.at(),
        )
}

fn recovery(job: &Job) -> Table {
    Columns::new().fact(Recovery::TO).fact_or(Recovery::TIME, "never").table(
        "recovery",
        "From the planned depth, driving time until it is charged again",
        &job.design.charger.recovery,
        job.at(),
    )
}
