//! `rivals`: what else would do, what one step more or less changes, and what matters most.

use super::arguments::{Common, Rivals};
use super::failure::Failure;
use super::progress::Progress;
use super::status::Status;
use super::{beside, input, output};
use crate::engine::ask::rivals::cross::rivals;
use crate::engine::design;
use crate::engine::design::results::fact::At;
use crate::papers::{Job, json, rivals_paper};

/// Design them all and print it.
pub fn run(asked: &Rivals, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(asked.plan.plan.as_deref(), &catalogue)?;
    let plan = &input.read.plan;
    let common = &common.of(&input.read.plan);
    let design = design(plan, &catalogue);
    let progress = Progress::default();
    let found = rivals(plan, &catalogue, &design, &|| progress.one_more());
    progress.end();
    beside::numbered(&found.designs, &asked.beside)?;
    let job = Job { plan, catalogue: &catalogue, design: &design, beside: &[] };
    let at = At::site(&design.installation);
    output::answer(asked.form, common, || json::answer(&found, &at), || rivals_paper(&job, &found, &asked.beside))?;
    Ok(Status::of(&design.findings))
}
