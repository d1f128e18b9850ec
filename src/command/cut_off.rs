//! `cut-off`: where to disconnect a battery at a given current.

use super::arguments::{Common, CutOff};
use super::failure::Failure;
use super::status::Status;
use super::{input, message, output, typed};
use crate::engine::{Book, Severity, cut_off_question};
use crate::papers::{self, CutOffAnswer, plain};
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
    let Some(chemistry) = catalogue.chemistry(&key) else {
        return Err(Failure::new(format!("there is no chemistry `{key}`"), "loomwright catalogue chemistries"));
    };
    if let Some(note) = note {
        output::message(&message::note(&note, &common.look()), common.color);
    }
    let mut book = Book::kept();
    let design = cut_off_question(chemistry, capacity, current, reserve, &mut book);
    let answer = CutOffAnswer {
        chemistry,
        capacity,
        current,
        design: &design,
        findings: &book.findings,
        workings: book.notes.workings().filter(|_| asked.workings),
    };
    if asked.form.json {
        output::json(&papers::json::cut_off_answer(&answer), common.color)?;
    } else {
        output::result(&plain(&papers::cut_off_answer(&answer), &common.look()), common.color)?;
    }
    let stops = book.findings.iter().any(|f| f.severity == Severity::Stop);
    Ok(if stops { Status::Stop } else { Status::Fine })
}
