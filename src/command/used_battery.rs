//! `used-battery`: what a battery that is not new still holds.

use super::arguments::{Common, UsedBattery};
use super::failure::Failure;
use super::status::Status;
use super::{input, message, output, typed};
use crate::catalogue::Catalogue;
use crate::engine::ask::used::{UsedQuestion, used_question};
use crate::engine::design::results::fact::At;
use crate::engine::installation::Installation;
use crate::papers;
use crate::plan::{Place, Section, shorten};
use crate::quantity::{Quantity, Unit, parse};

/// Densities that a hydrometer can show.
const DENSITY: std::ops::RangeInclusive<f64> = 1.0..=1.4;

/// Answer it.
pub fn run(asked: &UsedBattery, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let (key, note) = typed::chemistry(&asked.chemistry, &catalogue)?;
    if let Some(note) = note {
        output::message(&message::note(&note, &common.look()), common.color);
    }
    let capacity = Place::of(Section::ServiceBattery, "capacity_ah");
    let hours = Place::load(0, "duty.hours_a_day");
    let question = UsedQuestion {
        chemistry: key,
        capacity: typed::number("capacity", &asked.capacity, capacity, &catalogue)?,
        rested: given("rested", asked.rested.as_ref(), Place::of(Section::CutOff, "cut_v"), &catalogue)?,
        rest: given("after", asked.after.as_ref(), hours, &catalogue)?,
        densities: asked.density.iter().map(|text| density(text)).collect::<Result<_, _>>()?,
        air: given("air", asked.air.as_ref(), Place::run(0, "air_c"), &catalogue)?,
        drawn: given("drawn", asked.drawn.as_ref(), Place::run(0, "current_a"), &catalogue)?,
        lasted: given("for", asked.lasted.as_ref(), hours, &catalogue)?,
    };
    let Some(answer) = used_question(&catalogue, &question) else {
        let what = format!("there is no chemistry `{}`", question.chemistry);
        return Err(Failure::new(what, "loomwright catalogue chemistries"));
    };
    let site = Installation::default();
    output::answer(
        asked.form,
        common,
        || papers::json::answer(&answer, &At::site(&site)),
        || papers::used_answer(&answer),
    )?;
    Ok(Status::Fine)
}

fn given<Q: Quantity>(
    name: &str,
    text: Option<&String>,
    place: Place,
    catalogue: &Catalogue,
) -> Result<Option<Q>, Failure> {
    text.map(|text| typed::number(name, text, place, catalogue)).transpose()
}

fn density(text: &str) -> Result<f64, Failure> {
    let read = parse(text, Unit::Number).ok().filter(|n| DENSITY.contains(n));
    read.ok_or_else(|| {
        Failure::new(format!("density `{}`: no hydrometer shows this", shorten(text)), "such as 1.24, from 1.0 to 1.4")
    })
}
