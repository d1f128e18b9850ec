//! The battery: how it was sized, and its rivals.

use crate::engine::simulate::battery::BySheets;
use crate::engine::simulate::battery::{Criterion, SizedBy};
use crate::engine::simulate::standing::Standing;
use crate::engine::{Bank, Candidate, NearBank};
use crate::papers::document::{Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;
use crate::plan::Choice;

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
        facts.push(("Stands", battery.place.key().to_string()));
        if battery.vent_air.get() > 0.0 {
            let words = "an inlet low down and an outlet high up, each of";
            facts.push((
                "Vent",
                format!("{words} {}, for {} while it is charged", battery.vent_opening, battery.vent_air),
            ));
        }
        facts.push(("Short circuit", format!("up to {} at its posts", bank.fault)));
    }
    facts.extend(job.design.by_sheets().map(|s| ("At 1 C", by_sheets(s))));
    facts.extend(job.design.standing.as_ref().map(|s| ("Left standing", left(s))));
    paper.facts(facts);
    paper.table(criteria(job));
    paper.table(candidates(job));
    paper.table(near(job));
    paper.table(prices(job));
    for caution in chemistry.map(|c| c.cautions.as_slice()).unwrap_or_default() {
        paper.caution(caution.clone());
    }
}

/// What sheets would say; the safer sizes.
fn by_sheets(s: &BySheets) -> String {
    let would = s.bank.as_ref().map_or("the same bank".into(), crate::papers::owner_card::capacity);
    let (model, sheets) = (s.model, s.sheets);
    format!(
        "in an hour it gives {model} of its rating by a cell model, which sizes it, {sheets} by cell sheets: by those {would} would do"
    )
}

/// What is there after it was left without use.
fn left(s: &Standing) -> String {
    let until = match (s.good_for, s.empty_after) {
        (Some(good), Some(empty)) => format!("; good for {good}, empty after {empty}"),
        _ => String::new(),
    };
    format!("{} after {} with {} drawn{until}", s.left, s.days, s.draw)
}

fn ruling(job: &Job) -> &'static str {
    job.design.battery.ruling.map_or("no criterion", SizedBy::name)
}

fn criteria(job: &Job) -> Table {
    let battery = &job.design.battery;
    let rules = |c: &Criterion| if battery.ruling == Some(c.by) { "rules" } else { "" };
    Columns::new()
        .fact(Criterion::NAME)
        .fact(Criterion::NEEDED)
        .own(Column::text("rules", ""), move |c, _| rules(c).into())
        .table("battery-criteria", "What each criterion asks for", &battery.criteria, job.at())
}

fn candidates(job: &Job) -> Table {
    Columns::new()
        .fact(Candidate::NAME)
        .fact(Candidate::NEEDED)
        .within(|c: &Candidate| c.bank.as_ref(), Bank::CAPACITY)
        .within(|c| c.bank.as_ref(), Bank::MASS)
        .fact(Candidate::USABLE)
        .fact(Candidate::LASTS)
        .fact(Candidate::CHARGE_MIN)
        .own(Column::text("chosen", ""), |c, _| if c.chosen { "planned" } else { "" }.into())
        .table("battery-candidates", "Every chemistry for this job", &job.design.battery.candidates, job.at())
}

/// Smaller banks that nearly last: a choice, not an error.
fn near(job: &Job) -> Table {
    let columns = Columns::new()
        .fact(NearBank::CAPACITY)
        .fact(NearBank::BLOCKS)
        .fact(NearBank::BLOCK)
        .fact(NearBank::LASTS)
        .fact(NearBank::OF)
        .fact(NearBank::MASS)
        .fact(NearBank::PRICE);
    let caption = "Smaller banks of equal blocks, and how long each lasts of the days without charge";
    columns.table("near-banks", caption, job.design.near_banks(), job.at())
}

/// What each would cost by the user's own prices, in a currency that the program does not know; nothing without prices.
fn prices(job: &Job) -> Table {
    let priced = job.design.battery.candidates.iter().filter(|c| c.price.is_some());
    Columns::new()
        .fact(Candidate::NAME)
        .within(|c: &Candidate| c.bank.as_ref(), Bank::CAPACITY)
        .fact(Candidate::PRICE)
        .fact(Candidate::PRICE_A_YEAR)
        .table("battery-prices", "By your own prices", priced, job.at())
}
