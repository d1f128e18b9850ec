//! Which cable: every size side by side, the one to take marked, and what stops the others.

use crate::engine::ask::cable::{CableAnswer, CableQuestion};
use crate::engine::design::results::fact::At;
use crate::engine::simulate::circuit::candidate::Fails;
use crate::engine::{RunDesign, Severity, SizeRow};
use crate::papers::document::{Block, Column, Document, Table};
use crate::papers::facts::Columns;
use crate::papers::report::findings::notices;
use crate::papers::report::workings::add_workings;
use crate::quantity::{self, Figure, UnitSystem};
use itertools::Itertools;

/// The answer on paper.
pub fn cable_answer(answer: &CableAnswer, workings: bool) -> Document {
    let question = &answer.question;
    let mut paper = Document::new(format!("Cable for {} over {} one way", question.current, question.length));
    paper.facts(facts(answer));
    paper.table(sizes(answer));
    let shown = answer.findings.iter().filter(|f| f.severity <= Severity::Caution);
    paper.blocks.extend(notices(shown, &answer.site).map(|(_, notice)| Block::Notice(notice)));
    paper.paragraph(
        "Put a fuse at the source that is no larger than the cable carries. A plan also looks at start surges, faults \
         and the whole path.",
    );
    if workings {
        add_workings(&answer.workings, &mut paper);
    }
    paper
}

fn facts(answer: &CableAnswer) -> Vec<(&'static str, String)> {
    let (question, run) = (&answer.question, &answer.run);
    let (word, take) = verdict(run);
    let mut facts = vec![
        (word, take),
        ("Loss allowed", format!("{} of 12 V, out and back", question.drop)),
        ("Counted", counted(question)),
        ("Drop tables", drop_tables(answer)),
        ("Air", format!("{}, {}, {} in the bundle", run.air, question.place, others(question.bundled_with))),
        ("Insulation", question.insulation.clone()),
    ];
    facts.extend(flows(answer).map(|words| ("Comes, goes", words)));
    // A length answers only where length is what fails, or nothing does.
    let by_length = run.size.as_ref().is_none_or(|s| s.fails.iter().all(|f| *f == Fails::Drop));
    if let Some((length, why)) = run.longest.filter(|_| by_length) {
        let length = Figure::from(length).show_at_most(UnitSystem::Metric);
        facts.push(("Longest", format!("{length} at this size ({why})")));
    }
    if let Some((current, why)) = run.biggest {
        let current = Figure::from(current).show_at_most(UnitSystem::Metric);
        facts.push(("Biggest load", format!("{current} at this size and length ({why})")));
    }
    facts
}

/// Cables beside it.
fn others(count: u32) -> String {
    if count == 0 { "no others".into() } else { quantity::counted(count as usize, "other") }
}

/// For how long, and what happens if it stays on.
fn flows(answer: &CableAnswer) -> Option<String> {
    let pulse = answer.run.short_time.pulse?;
    let warm = format!("{} on, {} off, at most {} warm", pulse.cycle.on, pulse.cycle.off, pulse.peak);
    Some(match pulse.runs_on {
        Some(limit) => format!("{warm}; if it stays on, at the limit of its insulation after {limit}"),
        None => format!("{warm}; it may stay on for good"),
    })
}

/// What a table of drop would say, and why it is not the answer.
fn drop_tables(answer: &CableAnswer) -> String {
    match &answer.alone {
        Some(size) => format!("{size}: the conductor alone at 20 °C, without warmth, joints and fuse"),
        None => "no size: the conductor alone at 20 °C loses too much".into(),
    }
}

/// What to take; a size that fails is never offered as if it did not.
fn verdict(run: &RunDesign) -> (&'static str, String) {
    match &run.size {
        Some(size) if run.pinned && size.fails.is_empty() => ("Checked", format!("{}: fits", size.label)),
        Some(size) if run.pinned => {
            ("Checked", format!("{}: FAILS {}", size.label, size.fails.iter().map(|f| f.word()).join(", ")))
        }
        Some(size) if size.fails.is_empty() => ("Take", format!("{} ({})", size.label, run.ruling)),
        Some(size) => (
            "Take",
            format!(
                "none: {} at the most fails {}; {}",
                size.label,
                size.fails.iter().map(|f| f.word()).join(", "),
                if size.fails.iter().all(|f| *f == Fails::Drop) {
                    "shorten the way, or share the current"
                } else {
                    "share the current between cables, or find cooler air"
                }
            ),
        ),
        None => ("Take", "none is enough; share the current between cables, or shorten the way".into()),
    }
}

/// What the drops hold besides the conductor.
fn counted(question: &CableQuestion) -> String {
    match (question.joints, question.fused) {
        (0, false) => "the conductor alone, hot, as published drop tables do".into(),
        (joints, true) => format!("the conductor, hot; {joints} joints; the fuse-link"),
        (joints, false) => format!("the conductor, hot; {joints} joints"),
    }
}

/// What a size fails, in one short word each, so that a row stays one line.
fn short(fails: Fails) -> &'static str {
    match fails {
        Fails::Drop => "drop",
        Fails::Thin => "thin",
        Fails::Heat | Fails::Fuse => fails.word(),
    }
}

fn sizes(answer: &CableAnswer) -> Table {
    let ruling = answer.run.ruling;
    let caption = "Drop out and back; copper temperature; what it carries by the published table and by heat balance, of \
                   which the smaller counts; the fuse that fits";
    let verdict = |row: &SizeRow, _: &At<'_>| {
        let fails = || row.fails.iter().map(|f| short(*f)).join(", ");
        match (row.used, row.fails.is_empty()) {
            (true, true) => format!("<- take ({ruling})"),
            (true, false) => format!("<- no: {}", fails()),
            (false, true) => "fits".into(),
            (false, false) => format!("no: {}", fails()),
        }
        .into()
    };
    let columns = Columns::new()
        .fact(SizeRow::LABEL)
        .within(SizeRow::possible, SizeRow::DROP)
        .within(SizeRow::possible, SizeRow::DROP_SHARE)
        .within(SizeRow::possible, SizeRow::TEMPERATURE)
        .fact(SizeRow::AMPACITY_TABLE)
        .fact(SizeRow::AMPACITY_HEAT);
    // For how much its time on and off leaves room.
    let columns = if answer.question.cycle.is_some() { columns.fact(SizeRow::AMPACITY) } else { columns };
    columns.fact(SizeRow::FUSE).own(Column::text("verdict", ""), verdict).table(
        "sizes",
        caption,
        &answer.run.sizes,
        At::site(&answer.site),
    )
}
