//! Answers to quick questions as JSON.

use super::VERSION;
use super::design::{cut_off, limits, size};
use super::findings::finding;
use super::number::{maybe, number};
use super::workings::of;
use crate::papers::{CableAnswered, CutOffAnswer};
use serde_json::{Value, json};

/// What `cable` answers.
pub fn cable_answer(job: &CableAnswered) -> Value {
    let (q, a) = (job.question, job.answer);
    let mut out = json!({
        "version": VERSION,
        "question": {
            "current_a": number(q.current),
            "length_m": number(q.length),
            "drop_share": number(q.drop),
            "insulation": q.insulation,
            "place": q.place,
            "air_c": maybe(q.air),
            "bundled_with": q.bundled_with,
        },
        "size": a.run.size.as_ref().filter(|s| s.fails.is_empty() || a.run.pinned).map(size),
        "ruling": a.run.ruling,
        "air_c": number(a.run.air),
        "limits": limits(&a.run),
        "sizes": a.run.sizes.iter().map(size).collect::<Vec<_>>(),
        "findings": a.findings.iter().map(|f| finding(f, &a.plan, &|_| None)).collect::<Vec<_>>(),
    });
    if job.workings {
        out["workings"] = of(&a.workings, &a.plan);
    }
    out
}

/// What `cut-off` answers.
pub fn cut_off_answer(answer: &CutOffAnswer) -> Value {
    let mut out = json!({
        "version": VERSION,
        "question": {
            "chemistry": answer.chemistry.key,
            "capacity_ah": number(answer.capacity),
            "current_a": number(answer.current),
        },
        "cut_off": cut_off(answer.design),
        "findings": answer.findings.iter().map(|f| finding(f, &crate::plan::Plan::default(), &|_| None)).collect::<Vec<_>>(),
    });
    if let Some(workings) = answer.workings {
        out["workings"] = of(workings, &crate::plan::Plan::default());
    }
    out
}
