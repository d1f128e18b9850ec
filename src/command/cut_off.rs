//! `cut-off`: where to disconnect a battery at a given current.

use super::arguments::{Common, CutOff};
use super::failure::Failure;
use super::status::Status;
use super::{input, message, output, typed};
use crate::engine::design::results::fact::At;
use crate::engine::installation::Installation;
use crate::engine::{CutOffQuestion, cut_off_question};
use crate::papers;
use crate::plan::{Place, Section};
use crate::quantity::Amps;

/// A light current is the smallest, a heavy one the largest.
fn order(question: &CutOffQuestion) -> Result<(), Failure> {
    let CutOffQuestion { current, light, heavy, .. } = question;
    let wrong = |name, amps: Amps, side| {
        let what = format!("{name} {amps}: this is {side} the usual current of {current}");
        Err(Failure::new(what, "light is at most the usual current, heavy at least that"))
    };
    match (light.filter(|l| l > current), heavy.filter(|h| h < current)) {
        (Some(light), _) => wrong("light", light, "above"),
        (_, Some(heavy)) => wrong("heavy", heavy, "below"),
        _ => Ok(()),
    }
}

/// Answer it.
pub fn run(asked: &CutOff, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let battery = |key| Place::of(Section::ServiceBattery, key);
    let (key, note) = typed::chemistry(&asked.chemistry, &catalogue)?;
    let capacity = typed::number("capacity", &asked.capacity, battery("capacity_ah"), &catalogue)?;
    let current = typed::number("current", &asked.current, Place::run(0, "current_a"), &catalogue)?;
    let reserve = match &asked.reserve {
        Some(text) => Some(typed::number("reserve", text, Place::of(Section::CutOff, "reserve"), &catalogue)?),
        None => None,
    };
    let amps = |name, text: &Option<String>| match text {
        Some(text) => typed::number(name, text, Place::run(0, "current_a"), &catalogue).map(Some),
        None => Ok(None),
    };
    let air = match &asked.air {
        Some(text) => Some(typed::number("air", text, Place::run(0, "air_c"), &catalogue)?),
        None => None,
    };
    let at = match &asked.at {
        Some(text) => Some(typed::number("at", text, Place::of(Section::CutOff, "cut_v"), &catalogue)?),
        None => None,
    };
    let question = CutOffQuestion {
        chemistry: key,
        capacity,
        current,
        reserve,
        light: amps("light", &asked.light)?,
        heavy: amps("heavy", &asked.heavy)?,
        air,
        at,
    };
    order(&question)?;
    let Some(answer) = cut_off_question(&catalogue, &question) else {
        let what = format!("there is no chemistry `{}`", question.chemistry);
        return Err(Failure::new(what, "loomwright catalogue chemistries"));
    };
    if let Some(note) = note {
        output::message(&message::note(&note, &common.look()), common.color);
    }
    let site = Installation::default();
    let at = At { workings: asked.told.workings, ..At::site(&site) };
    output::answer(
        asked.told.form,
        common,
        || papers::json::answer(&answer, &at),
        || papers::cut_off_answer(&answer, asked.told.workings),
    )?;
    Ok(Status::of(&answer.findings))
}
