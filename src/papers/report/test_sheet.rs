//! What the readings say: the joint with too much resistance, or why that cannot be told yet.

use crate::engine::design::results::fact::At;
use crate::engine::run_name;
use crate::engine::simulate::test_sheet::result::{Band, Fault, NextReading, ReadingResult, Verdict};
use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::Job;
use crate::quantity::{Unit, Volts};

/// The readings as a part of the report; nothing when there are none.
pub fn section(job: &Job, paper: &mut Document) {
    if job.plan.readings.is_empty() {
        return;
    }
    paper.heading(1, "Readings");
    paper.table(readings(job));
    for (side, verdict) in
        [("Service side", &job.design.test_sheet().service), ("Feed side", &job.design.test_sheet().feed)]
    {
        let said = words(job, verdict);
        if !said.is_empty() {
            paper.heading(2, side);
            paper.list(said);
        }
    }
}

fn readings(job: &Job) -> Table {
    let band = |end: fn(Band<Volts>) -> Volts| move |r: &ReadingResult, _: &At<'_>| Cell::maybe(r.expected.map(end));
    Columns::new()
        .fact(ReadingResult::AT)
        .fact(ReadingResult::WITH)
        .fact(ReadingResult::DROP)
        .own(Column::number("low", "From", Unit::Volt), band(|b| b.low))
        .own(Column::number("high", "To", Unit::Volt), band(|b| b.high))
        .fact(ReadingResult::VERDICT)
        .table(
            "readings",
            "Measured drops and what sound wiring would have",
            &job.design.test_sheet().readings,
            job.at(),
        )
}

fn words(job: &Job, verdict: &Verdict) -> Vec<String> {
    let mut said = Vec::new();
    match verdict {
        Verdict::Nothing => {}
        Verdict::Sound { notices, unseen } => {
            said.push("No run has more resistance than it should, as far as these readings see.".into());
            said.extend(notices.iter().map(|(run, least)| {
                format!(
                    "{}: an excess of {least} or more would have been noticed",
                    run_name(&job.design.installation.runs, *run)
                )
            }));
            said.extend(
                unseen
                    .iter()
                    .map(|run| format!("{}: no reading sees it", run_name(&job.design.installation.runs, *run))),
            );
        }
        Verdict::Bad { fault, unless, next } => {
            said.extend(one(job, fault));
            if let Some((a, b)) = unless {
                let (a, b) = (run_name(&job.design.installation.runs, *a), run_name(&job.design.installation.runs, *b));
                said.push(format!("Unless both {a} and {b} are bad at once"));
            }
            said.extend(next.iter().map(next_words));
        }
        Verdict::BadTwice(a, b) => {
            said.extend(one(job, a));
            said.extend(one(job, b));
        }
        Verdict::Unclear { candidates, several, next } => {
            let more = if *several { "; it takes at least two bad joints" } else { "" };
            said.push(format!("The readings cannot tell these runs apart{more}:"));
            said.extend(
                candidates.iter().map(|f| {
                    format!("{}: {} if it is the one", run_name(&job.design.installation.runs, f.run), f.excess)
                }),
            );
            said.extend(next.iter().map(next_words));
        }
        Verdict::Dead(dead) => {
            let name = |run: &usize| run_name(&job.design.installation.runs, *run);
            said.push(dead.words(&dead.runs.iter().map(name).collect::<Vec<_>>()));
        }
        Verdict::Contradiction => {
            said.push(
                "No bad joint explains these readings: measure again. If they stay so, look for another fault.".into(),
            );
        }
    }
    said
}

fn one(job: &Job, fault: &Fault) -> Vec<String> {
    let mut said = vec![format!(
        "{} has {} (± {}) too much; at {} that joint makes {} of heat",
        run_name(&job.design.installation.runs, fault.run),
        fault.excess,
        fault.bound(),
        fault.current,
        fault.heat
    )];
    said.extend(fault.look_at.iter().map(|l| format!("look at {l}")));
    said
}

fn next_words(next: &NextReading) -> String {
    let load = if next.test_load { "a test load" } else { "load" };
    format!("Next reading: at `{}`, with {load} `{}` of {} on", next.at, next.with, next.current)
}
