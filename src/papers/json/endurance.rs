//! Days of use as JSON.

use super::VERSION;
use super::findings::finding;
use super::number::{maybe, number, rounded};
use super::workings::{figure, of};
use crate::engine::simulate::chance::tornado::Bar;
use crate::engine::simulate::chance::{Draws, Uncertainty};
use crate::engine::{Book, Endurance, EnduranceDay, EndurancePoint, LoadHours, Span};
use crate::papers::Job;
use serde_json::{Value, json};

/// What many draws say.
pub fn uncertainty(draws: Draws, u: &Uncertainty) -> Value {
    let bar = |b: &Bar| {
        json!({
            "input": b.input.words(),
            "low": figure(b.low.0),
            "lowest_at_low": number(b.low.1),
            "high": figure(b.high.0),
            "lowest_at_high": number(b.high.1),
        })
    };
    json!({
        "draws": u.draws,
        "seed": draws.seed,
        "uncut": number(u.uncut),
        "lowest": u.lowest.map(number),
        "unserved_h": u.unserved.map(number),
        "cut_at_night": u.cut_at_night.iter().map(|s| number(*s)).collect::<Vec<_>>(),
        "cut_by": u.cut_by.iter().map(|s| number(*s)).collect::<Vec<_>>(),
        "inputs": u.tornado.iter().map(bar).collect::<Vec<_>>(),
    })
}

/// What `endurance` answers.
pub fn endurance(job: &Job, span: Span, e: &Endurance, book: &Book, with_workings: bool) -> Value {
    let load = |(n, l): (usize, &LoadHours)| {
        json!({
            "name": job.plan.loads.get(n).map(|l| l.name.as_str()),
            "wanted_h": number(l.wanted),
            "unserved_h": number(l.unserved),
        })
    };
    let mut out = json!({
        "version": VERSION,
        "question": {
            "days": span.days,
            "first_day": span.first_day,
            "from": number(span.from),
            "health": number(span.health),
        },
        "lowest": number(e.lowest),
        "lowest_at_h": number(e.lowest_at),
        "cuts": e.cuts,
        "cut_hours_h": number(e.cut_hours),
        "first_cut_h": maybe(e.first_cut),
        "dead_hours_h": number(e.dead_hours),
        "refused_hours_h": number(e.refused_hours),
        "weekly_balance_ah": number(e.weekly_balance),
        "drift": number(e.drift),
        "cycles_a_year": rounded(e.cycles_a_year),
        "wear_cycles": number(e.wear_cycles),
        "wear_calendar": number(e.wear_calendar),
        "ledger": ledger(e),
        "by_day": e.by_day.iter().map(day).collect::<Vec<_>>(),
        "loads": e.loads.iter().enumerate().map(load).collect::<Vec<_>>(),
        "points": e.points.iter().map(point).collect::<Vec<_>>(),
        "findings": book.findings.iter().map(|f| finding(f, job.plan, &|_| None)).collect::<Vec<_>>(),
    });
    if let Some(workings) = book.notes.workings().filter(|_| with_workings) {
        out["workings"] = of(workings, job.plan);
    }
    out
}

fn ledger(e: &Endurance) -> Value {
    let l = &e.ledger;
    json!({
        "start_ah": number(l.start),
        "end_ah": number(l.end),
        "charged_ah": number(l.charged),
        "drawn_ah": number(l.drawn),
        "lost_ah": number(l.lost),
        "leaked_ah": number(l.leaked),
        "from_driving_ah": number(l.from_driving),
        "from_sun_ah": number(l.from_sun),
        "from_mains_ah": number(l.from_mains),
        "used_ah": number(l.used),
    })
}

fn day(d: &EnduranceDay) -> Value {
    json!({
        "lowest": number(d.lowest),
        "end": number(d.end),
        "charged_ah": number(d.charged),
        "drawn_ah": number(d.drawn),
        "cut_hours_h": number(d.cut_hours),
        "cut_at_night": d.cut_at_night,
    })
}

fn point(p: &EndurancePoint) -> Value {
    json!({
        "at_h": number(p.at),
        "charge": number(p.charge),
        "voltage_v": number(p.volts),
        "current_a": number(p.current),
        "air_c": number(p.air),
        "cut": p.cut,
    })
}
