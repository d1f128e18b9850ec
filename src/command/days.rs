//! `days`: what happens over days of use.

use super::arguments::{Common, Days};
use super::failure::Failure;
use super::status::Status;
use super::{input, output, typed};
use crate::engine::design::results::DaysOfUse;
use crate::engine::design::results::fact::At;
use crate::engine::simulate::chance::Uncertainty;
use crate::engine::simulate::chance::draw::Draws;
use crate::engine::{Notes, Span, design, endurance, endurance_findings, uncertainty};
use crate::papers::{self, Block, Job, notices};
use std::io::IsTerminal;

/// Simulate and print it.
pub fn run(asked: &Days, common: &Common) -> Result<Status, Failure> {
    let catalogue = input::catalogue(common)?;
    let input = input::plan(asked.plan.plan.as_deref(), &catalogue)?;
    let plan = &input.read.plan;
    let common = &common.of(plan);
    let span = Span {
        days: asked.days,
        first_day: asked.first_day,
        from: typed::share("from", &asked.from)?,
        health: typed::share("health", &asked.health)?,
    };
    let design = design(plan, &catalogue);
    let mut notes = if asked.told.workings { Notes::kept() } else { Notes::unkept() };
    let days = endurance(&design, span, &mut notes).map_err(|e| Failure::new(e.explain(), ""))?;
    let findings = endurance_findings(&design, &days);
    let job = Job { plan, catalogue: &catalogue, design: &design, beside: &[] };
    let draws = Draws { span, count: asked.trials, seed: asked.seed, ..Draws::default() };
    let sure = if asked.trials > 0 { Some(draw(&job, draws)?) } else { None };
    let answer = DaysOfUse { span, days, findings, workings: notes.into_workings(), sure };
    let at = At { workings: asked.told.workings, ..At::site(&design.installation) };
    let paper = || {
        let mut paper = papers::endurance_paper(&job, span, &answer.days);
        paper
            .blocks
            .extend(notices(answer.findings.iter(), &design.installation).map(|(_, notice)| Block::Notice(notice)));
        if let Some(sure) = &answer.sure {
            papers::add_uncertainty(draws, sure, &mut paper);
        }
        if asked.told.workings {
            papers::add_workings(&answer.workings, &mut paper);
        }
        paper
    };
    output::answer(asked.told.form, common, || papers::json::answer(&answer, &at), paper)?;
    Ok(Status::of(&[design.findings.as_slice(), &answer.findings].concat()))
}

/// Draw on all cores; how far it has come is said on a terminal only.
fn draw(job: &Job, draws: Draws) -> Result<Uncertainty, Failure> {
    let terminal = std::io::stderr().is_terminal();
    let every = (draws.count / 100).max(1);
    let watch = |done: u32| {
        if terminal && (done.is_multiple_of(every) || done == draws.count) {
            let end = if done == draws.count { "\r\x1b[K" } else { "" };
            eprint!("\r{done} of {} trials{end}", draws.count);
        }
        true
    };
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    uncertainty(job.design, draws, cores, &watch).map_err(|e| Failure::new(e.explain(), ""))
}
