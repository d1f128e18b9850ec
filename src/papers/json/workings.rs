//! Workings as JSON.

use super::number::rounded;
use crate::papers::Job;
use crate::quantity::Figure;
use serde_json::{Value, json};

/// All workings of a design.
pub fn workings(job: &Job) -> Value {
    of(job.design.workings(), job.plan)
}

/// Workings of a plan.
pub fn of(workings: &crate::engine::Workings, plan: &crate::plan::Plan) -> Value {
    let one = |(topic, w): (&crate::engine::Topic, &crate::engine::Working)| {
        let input = |i: &crate::engine::Input| {
            json!({
                "symbol": i.symbol,
                "meaning": i.meaning,
                "value": figure(i.value),
                "from": i.from.as_ref().map(|t| json!({"about": t.subject.words(plan), "number": t.number})),
            })
        };
        json!({
            "about": topic.subject.words(plan),
            "number": topic.number,
            "name": w.name,
            "formula": w.formula,
            "inputs": w.inputs.iter().map(input).collect::<Vec<_>>(),
            "result": figure(w.result),
            "source": w.source,
            "notes": w.notes,
        })
    };
    workings.iter().map(one).collect()
}

/// A number with its unit, where the unit depends on what it is of.
pub fn figure(f: Figure) -> Value {
    json!({"value": rounded(f.value), "unit": f.unit.symbol()})
}
