//! `ageing`: the battery over the years, and its test.

use super::arguments::{AgeingArguments, Common};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::engine::design::results::fact::At;
use crate::engine::{Design, ageing, by_hand, design};
use crate::papers::{self, Job, inspection_with};
use crate::plan::shorten;
use crate::quantity::{AmpHours, Celsius, Hours, Unit, Volts, parse};

/// Print it, with the test's result where its readings are given.
pub fn run(asked: &AgeingArguments, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(Some(&asked.plan), &catalogue)?;
    let common = &common.of(&input.read.plan);
    let design = design(&input.read.plan, &catalogue);
    let told = tested(asked, &design)?;
    let ageing = ageing(&design);
    let job = Job { plan: &input.read.plan, catalogue: &catalogue, design: &design, beside: &[] };
    let paper = || {
        let mut paper = inspection_with(&job, &ageing);
        if let Some(words) = told {
            paper.heading(1, "This test");
            paper.facts(vec![("Capacity", words)]);
        }
        paper
    };
    output::answer(asked.form, common, || papers::json::answer(&ageing, &At::site(&design.installation)), paper)?;
    Ok(Status::of(&[]))
}

/// The capacity by the readings given.
fn tested(asked: &AgeingArguments, design: &Design) -> Result<Option<String>, Failure> {
    let (Some(drawn), Some(rested)) = (&asked.drawn, &asked.rested) else { return Ok(None) };
    let read = |name: &str, text: &str, unit: Unit| {
        parse(text, unit).map_err(|why| {
            Failure::new(
                format!("{name} `{}`: {}", shorten(text), why.explain(unit)),
                "write it like 46Ah, 5h, 12.23V, 20C",
            )
        })
    };
    let drawn = AmpHours::new(read("drawn", drawn, Unit::AmpHour)?);
    let rested = Volts::new(read("rested", rested, Unit::Volt)?);
    let over = Hours::new(read("hours", &asked.hours, Unit::Hour)?);
    let air = Celsius::new(read("air", &asked.air, Unit::Celsius)?);
    let bank = design.installation.chemistry().zip(design.battery.bank.as_ref());
    let held = bank.and_then(|(chemistry, bank)| by_hand(chemistry, bank.capacity, drawn, over, rested, air));
    Ok(Some(match held {
        Some(held) => match (held.least, held.most) {
            (Some(least), Some(most)) => format!("{} ({least} to {most})", held.value),
            (Some(least), None) => format!("cannot tell: at least {least}"),
            (None, Some(most)) => format!("cannot tell: at most {most}"),
            (None, None) => "cannot tell".into(),
        },
        None => "cannot tell: the plan has no battery".into(),
    }))
}
