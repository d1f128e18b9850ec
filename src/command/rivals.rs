//! `rivals`: what else would do, what one step more or less changes, and what matters most.

use super::arguments::{Common, Rivals};
use super::failure::Failure;
use super::status::Status;
use super::{input, output};
use crate::engine::ask::rivals::cross::rivals;
use crate::engine::design;
use crate::engine::design::results::fact::At;
use crate::papers::{Job, json, rivals_paper};
use std::cell::Cell;
use std::io::IsTerminal;

/// Design them all and print it.
pub fn run(asked: &Rivals, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(asked.plan.plan.as_deref(), &catalogue)?;
    let plan = &input.read.plan;
    let design = design(plan, &catalogue);
    let (terminal, made) = (std::io::stderr().is_terminal(), Cell::new(0_u32));
    let go_on = || {
        made.set(made.get() + 1);
        if terminal && made.get().is_multiple_of(10) {
            eprint!("\r{} designs", made.get());
        }
        true
    };
    let found = rivals(plan, &catalogue, &design, &go_on);
    if terminal {
        eprint!("\r\x1b[K");
    }
    let job = Job { plan, catalogue: &catalogue, design: &design };
    let at = At::site(&design.installation);
    output::answer(asked.form, common, || json::answer(&found, &at), || rivals_paper(&job, &found))?;
    Ok(Status::of(&design.findings))
}
