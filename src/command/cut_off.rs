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
    let question = CutOffQuestion { chemistry: key, capacity, current, reserve };
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
