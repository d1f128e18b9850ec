//! The copper of all runs together, how far each size would go, and how it warms.

use crate::engine::ask::assortments::{Assortment, assortments};
use crate::engine::simulate::circuit::warming::CYCLE;
use crate::engine::{RunDesign, SizeRow};
use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;
use crate::quantity::Unit;

/// As parts of the report.
pub fn section(job: &Job, paper: &mut Document) {
    if job.design.runs.iter().all(|r| r.size.is_none()) {
        return;
    }
    paper.heading(1, "Copper and heat");
    paper.paragraph(saved(job));
    let choices = choices(job);
    if choices.rows.len() > 1 {
        paper.table(choices);
    }
    paper.table(limits(job));
    if let Some(late) = late(job) {
        paper.paragraph(late);
    }
    paper.table(warming(job));
}

/// The copper used beside the usual way of sharing the drop.
fn saved(job: &Job) -> String {
    let copper = &job.design.copper;
    let least = match copper.no_less {
        _ if copper.least && copper.unserved.is_empty() => ", the least that keeps every rule".to_string(),
        _ if copper.least => ", the least that keeps every rule that can be kept".to_string(),
        Some(bound) => {
            format!(" (the best found; whether a lighter choice keeps every rule is not proven, none is under {bound})")
        }
        None => String::new(),
    };
    let shared = match copper.equal_share {
        Some(shared) if shared > copper.mass => format!(
            "All runs together hold {} of copper{least}: {} less than with the drop of each path shared out by length and \
             current ({shared}).",
            copper.mass,
            shared - copper.mass
        ),
        Some(shared) => format!(
            "All runs together hold {} of copper{least}; sharing out the drop of each path by length and current gives \
             {shared}.",
            copper.mass
        ),
        None => format!(
            "All runs together hold {} of copper{least}; sharing out the drop of each path by length and current would \
             not keep every limit.",
            copper.mass
        ),
    };
    shared + &unserved(job)
}

/// What no size serves, and how its own cables are sized until something else is changed; empty where all is served.
fn unserved(job: &Job) -> String {
    let site = &job.design.installation;
    let ends: Vec<String> = job.design.copper.unserved.iter().map(|end| site.name_of(&end.subject())).collect();
    match ends.is_empty() {
        true => String::new(),
        false => format!(" No size serves {}: its own cables are sized only by what they carry.", ends.join(", ")),
    }
}

/// Fewer sizes to buy, for more copper.
fn choices(job: &Job) -> Table {
    let caption =
        "How few different sizes would do, and what they cost in copper; `most_sizes` under `[rules]` chooses";
    Columns::new()
        .own(Column::number("count", "Sizes", Unit::Count), |a: &Assortment, _| Cell::count(a.labels.len()))
        .words("labels", "To buy", |a| a.labels.join(", "))
        .number("mass", "Copper", |a| a.mass)
        .list("assortments", caption, &assortments(job.design))
}

/// How far each size would go, and what stops it.
fn limits(job: &Job) -> Table {
    let caption = "How long, how strong and how warm each run may become in its size, and what stops it; the other runs as \
                   they are";
    Columns::new()
        .fact(RunDesign::NUMBER)
        .within(|r: &RunDesign| r.size.as_ref(), SizeRow::LABEL)
        .fact(RunDesign::LONGEST)
        .fact(RunDesign::LONGEST_BY)
        .fact(RunDesign::BIGGEST)
        .fact(RunDesign::BIGGEST_BY)
        .fact(RunDesign::WARMEST)
        .fact(RunDesign::WARMEST_BY)
        .table("run-limits", caption, sized(job), job.at())
}

/// Runs that may be longer than their fuses open in time on a far-end fault.
fn late(job: &Job) -> Option<String> {
    let of = |r: &RunDesign| Some(format!("{} {}", job.design.installation.run_number(r.run), r.in_time_to()?));
    let all: Vec<String> = sized(job).filter_map(of).collect();
    let words = "A fault at the far end opens the fuse in time only up to these lengths; from there to the longest the cable \
                 stands it until the fuse opens";
    (!all.is_empty()).then(|| format!("{words}: {}.", all.join(", ")))
}

/// Both ampacities and the short times.
fn warming(job: &Job) -> Table {
    let caption = format!(
        "What each carries by the published table and by heat balance, of which the smaller counts; its time constant; the \
         largest start it stands, for how long, and how warm the planned one leaves it; and what it stands for {} on, {} \
         off. The heat balance is an approximation: one cable in still air.",
        CYCLE.on, CYCLE.off
    );
    Columns::new()
        .fact(RunDesign::NUMBER)
        .within(|r: &RunDesign| r.size.as_ref(), SizeRow::AMPACITY_TABLE)
        .within(|r| r.size.as_ref(), SizeRow::AMPACITY_HEAT)
        .fact(RunDesign::TIME_CONSTANT)
        .fact(RunDesign::SHORT_TIME)
        .fact(RunDesign::START_LASTS)
        .fact(RunDesign::AFTER_START)
        .fact(RunDesign::INTERMITTENT)
        .table("run-heat", caption, sized(job), job.at())
}

fn sized<'a>(job: &'a Job) -> impl Iterator<Item = &'a RunDesign> {
    job.design.runs.iter().filter(|r| r.size.is_some())
}
