//! The battery: how it was sized, and its rivals.

use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::job::Job;
use crate::quantity::Unit;

/// The battery as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let battery = &job.design.battery;
    paper.heading(1, "Service battery");
    let chemistry = job.catalogue.chemistry(&job.plan.service_battery.chemistry);
    let mut facts = Vec::new();
    if let Some(bank) = &battery.bank {
        facts.push(("Bank", format!("{}, {}", crate::papers::owner_card::capacity(bank), bank.mass)));
        facts.push(("Needed", format!("{}, by {}", battery.needed, ruling(job))));
        facts.push(("Usable", format!("{} when new and at 25 °C", battery.usable)));
        facts.push(("Depth reached", format!("{}, cold and at end of life", battery.depth_reached)));
        facts.push(("Resistance", format!("{} new, {} at worst", bank.resistance, bank.resistance_worst)));
        facts.push(("Short circuit", format!("up to {} at its posts", bank.fault)));
    }
    paper.facts(facts);
    paper.table(criteria(job));
    paper.table(candidates(job));
    if let Some(prices) = prices(job) {
        paper.table(prices);
    }
    for caution in chemistry.map(|c| c.cautions.as_slice()).unwrap_or_default() {
        paper.caution(caution.clone());
    }
}

fn ruling(job: &Job) -> &'static str {
    job.design.battery.criteria.get(job.design.battery.ruling).map_or("no criterion", |c| c.name)
}

fn criteria(job: &Job) -> Table {
    let columns = [
        Column::text("criterion", "Criterion"),
        Column::number("needed", "Asks for", Unit::AmpHour),
        Column::text("rules", ""),
    ];
    let mut table = Table::new("battery-criteria", "What each criterion asks for", &columns);
    for (n, c) in job.design.battery.criteria.iter().enumerate() {
        let rules = if n == job.design.battery.ruling { "rules" } else { "" };
        table.row(vec![c.name.into(), Cell::of(c.needed), rules.into()]);
    }
    table
}

fn candidates(job: &Job) -> Table {
    let columns = [
        Column::text("chemistry", "Chemistry"),
        Column::number("needed", "Needed", Unit::AmpHour),
        Column::number("bank", "Bank", Unit::AmpHour),
        Column::number("mass", "Mass", Unit::Kilogram),
        Column::number("usable", "Usable", Unit::WattHour),
        Column::number("years", "Lasts", Unit::Year),
        Column::number("charge_min", "Charges from", Unit::Celsius),
        Column::text("chosen", ""),
    ];
    let mut table = Table::new("battery-candidates", "Every chemistry for this job", &columns);
    for c in &job.design.battery.candidates {
        table.row(vec![
            c.name.as_str().into(),
            Cell::of(c.needed),
            Cell::maybe(c.bank.as_ref().map(|b| b.capacity)),
            Cell::maybe(c.bank.as_ref().map(|b| b.mass)),
            Cell::of(c.usable),
            Cell::of(c.years),
            Cell::of(c.charge_min),
            if c.chosen { "planned" } else { "" }.into(),
        ]);
    }
    table
}

/// What each would cost by the user's own prices, in a currency that the program does not know; nothing without prices.
fn prices(job: &Job) -> Option<Table> {
    let columns = [
        Column::text("chemistry", "Chemistry"),
        Column::number("bank", "Bank", Unit::AmpHour),
        Column::number("price", "Price", Unit::Price),
        Column::number("price_a_year", "For each year it lasts", Unit::Price),
    ];
    let mut table = Table::new("battery-prices", "By your own prices", &columns);
    let mut any = false;
    for c in job.design.battery.candidates.iter().filter(|c| c.price.is_some()) {
        any = true;
        let bank = c.bank.as_ref().map(|b| b.capacity);
        table.row(vec![c.name.as_str().into(), Cell::maybe(bank), Cell::maybe(c.price), Cell::maybe(c.price_a_year)]);
    }
    any.then_some(table)
}
