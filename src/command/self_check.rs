//! `self-check`: published cases, worked on this machine with the catalogue in use.

use super::arguments::{Common, SelfCheck};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::engine::design::results::fact::At;
use crate::engine::installation::Installation;
use crate::engine::self_check;
use crate::papers;

/// Work them.
pub fn run(asked: &SelfCheck, common: &Common) -> Result<Status, Failure> {
    let answer = self_check(&input::catalogue(common)?);
    let site = Installation::default();
    output::answer(
        asked.form,
        common,
        || papers::json::answer(&answer, &At::site(&site)),
        || papers::self_check_answer(&answer),
    )?;
    Ok(if answer.failed().next().is_some() { Status::Stop } else { Status::Fine })
}
