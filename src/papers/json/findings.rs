//! Findings as JSON, with the place in the file that mends each.

use super::VERSION;
use super::number::rounded;
use crate::engine::{Design, Finding, Severity};
use crate::papers::Job;
use crate::plan::{Place, Plan, Value as Entry};
use serde_json::{Value, json};

/// A place in the text of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

/// What `check` answers.
pub fn check(job: &Job, plan_name: &str, down_to: Severity, spot: &dyn Fn(Place) -> Option<Spot>) -> Value {
    let shown = job.design.findings.iter().filter(|f| f.severity <= down_to);
    json!({
        "version": VERSION,
        "plan": plan_name,
        "counts": counts(job.design),
        "findings": shown.map(|f| finding(f, job.plan, spot)).collect::<Vec<_>>(),
    })
}

/// How many of each severity.
pub fn counts(design: &Design) -> Value {
    json!({
        "stop": design.count(Severity::Stop),
        "caution": design.count(Severity::Caution),
        "note": design.count(Severity::Note),
    })
}

/// One finding.
pub fn finding(f: &Finding, plan: &Plan, spot: &dyn Fn(Place) -> Option<Spot>) -> Value {
    let remedy = |r: &crate::engine::Remedy| {
        json!({
            "words": r.words,
            "edit": r.edit.as_ref().map(|(at, value)| {
                let mut edit = place(*at, spot);
                edit["value"] = value.as_ref().map_or(Value::Null, entry);
                edit
            }),
        })
    };
    json!({
        "kind": f.kind.key(),
        "severity": f.severity.word().to_lowercase(),
        "about": f.subject.words(plan),
        "text": f.text,
        "rule": f.rule,
        "remedies": f.remedies.iter().map(remedy).collect::<Vec<_>>(),
        "place": f.place.map(|p| place(p, spot)),
    })
}

fn place(at: Place, spot: &dyn Fn(Place) -> Option<Spot>) -> Value {
    let spot = spot(at);
    json!({
        "section": at.section.key(),
        "index": at.index,
        "key": at.key,
        "line": spot.map(|s| s.line),
        "column": spot.map(|s| s.column),
    })
}

/// A value of a plan field as the plan file would have it.
fn entry(value: &Entry) -> Value {
    match value {
        Entry::Number(n) => rounded(*n),
        Entry::Text(t) => Value::from(t.as_str()),
        Entry::Flag(b) => Value::from(*b),
        Entry::Windows(w) => Value::from(w.0.iter().map(ToString::to_string).collect::<Vec<_>>()),
        Entry::Weekdays(d) => Value::from(d.to_string()),
    }
}
