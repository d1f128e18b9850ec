//! `cut-off`: where to disconnect a battery at a given current.

use super::arguments::{Common, CutOff};
use super::failure::Failure;
use super::status::Status;
use super::{input, message, output, typed};
use crate::catalogue::Catalogue;
use crate::engine::design::results::fact::At;
use crate::engine::installation::Installation;
use crate::engine::{CutOffQuestion, cut_off_question};
use crate::papers;
use crate::plan::{Choice, CutOffBy, Place, Section};
use crate::quantity::{Amps, Quantity};

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
    fn maybe<Q: Quantity>(
        name: &str,
        text: &Option<String>,
        at: Place,
        catalogue: &Catalogue,
    ) -> Result<Option<Q>, Failure> {
        text.as_ref().map(|text| typed::number(name, text, at, catalogue)).transpose()
    }
    let cut_off = |key| Place::of(Section::CutOff, key);
    let flows = Place::run(0, "current_a");
    let by = asked.by.as_ref().map(|text| typed::word("by", text, cut_off("acts_by"), &catalogue)).transpose()?;
    let question = CutOffQuestion {
        chemistry: key,
        capacity,
        current,
        reserve: maybe("reserve", &asked.reserve, cut_off("reserve"), &catalogue)?,
        light: maybe("light", &asked.light, flows, &catalogue)?,
        heavy: maybe("heavy", &asked.heavy, flows, &catalogue)?,
        air: maybe("air", &asked.air, Place::run(0, "air_c"), &catalogue)?,
        at: maybe("at", &asked.at, cut_off("cut_v"), &catalogue)?,
        by: by.and_then(|word| CutOffBy::from_key(&word)).unwrap_or_default(),
        drift: maybe("drift", &asked.drift, cut_off("drift"), &catalogue)?,
        off: maybe("off", &asked.off, cut_off("reset_error"), &catalogue)?,
        days: maybe("days", &asked.days, battery("days_without_charge"), &catalogue)?,
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
