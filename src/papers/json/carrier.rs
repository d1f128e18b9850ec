//! Carrier and test sheet as JSON.

use super::number::{maybe, number, rounded};
use crate::engine::simulate::hold_down::result::CarrierDesign;
use crate::engine::simulate::test_sheet::result::{Band, Fault, RunExpected, Test, TestSheet, Verdict};
use crate::papers::run_number;
use crate::plan::Choice;
use crate::quantity::Quantity;
use serde_json::{Value, json};

/// The carrier; `null` when the plan has none.
pub fn carrier(carrier: Option<&CarrierDesign>) -> Value {
    let Some(c) = carrier else { return Value::Null };
    let (shape, strength) = (c.shape.as_ref(), c.strength.as_ref());
    let blank = |b: &crate::engine::simulate::hold_down::result::Blank| {
        json!({
            "name": b.name,
            "count": b.count,
            "length_mm": number(b.length),
            "width_mm": number(b.width),
            "thickness_mm": number(b.thickness),
            "bends_mm": b.marks.iter().map(|m| number(*m)).collect::<Vec<_>>(),
            "mass_kg": number(b.mass),
        })
    };
    json!({
        "style": c.style.key(),
        "battery_kg": maybe(c.battery_mass),
        "torque_nm": number(c.torque.torque),
        "preload_n": number(c.torque.preload),
        "height_mm": maybe(shape.map(|s| s.outside_height)),
        "steel_kg": maybe(shape.map(|s| s.steel_mass)),
        "blanks": shape.map(|s| s.blanks.iter().map(blank).collect::<Vec<_>>()),
        "shock": strength.map(|s| s.shock.as_str()),
        "utilisation_share": maybe(strength.map(|s| s.utilisation)),
        "safety": strength.map_or(Value::Null, |s| rounded(s.safety)),
        "largest_kg": maybe(strength.map(|s| s.largest_mass)),
    })
}

/// What the finished wiring should measure, and what the readings say.
pub fn test_sheet(sheet: &TestSheet) -> Value {
    json!({
        "air_c": number(sheet.air),
        "runs": sheet.runs.iter().map(run).collect::<Vec<_>>(),
        "tests": sheet.tests.iter().map(test).collect::<Vec<_>>(),
        "service": verdict(&sheet.service),
        "feed": verdict(&sheet.feed),
    })
}

fn band<Q: Quantity>(band: &Band<Q>) -> Value {
    json!([number(band.low), number(band.likely), number(band.high)])
}

fn run(run: &RunExpected) -> Value {
    json!({
        "number": run_number(run.run),
        "resistance_band_ohm": band(&run.resistance),
        "current_a": number(run.current),
        "drop_band_v": band(&run.drop),
    })
}

fn test(test: &Test) -> Value {
    let point = |p: &crate::engine::simulate::test_sheet::result::PointExpected| {
        json!({
            "point": p.point,
            "run": run_number(p.run),
            "drop_band_v": band(&p.drop),
            "voltage_band_v": band(&p.voltage),
        })
    };
    json!({
        "with": test.with,
        "current_a": number(test.current),
        "posts_v": number(test.posts),
        "points": test.points.iter().map(point).collect::<Vec<_>>(),
    })
}

fn verdict(verdict: &Verdict) -> Value {
    let fault = |f: &Fault| {
        json!({
            "run": run_number(f.run),
            "excess_ohm": number(f.excess),
            "error_ohm": number(f.error),
            "heat_w": number(f.heat),
        })
    };
    let (word, faults, next) = match verdict {
        Verdict::Nothing => ("nothing", Vec::new(), None),
        Verdict::Sound { .. } => ("sound", Vec::new(), None),
        Verdict::Bad { fault: f, next, .. } => ("bad", vec![fault(f)], next.as_ref()),
        Verdict::BadTwice(a, b) => ("bad-twice", vec![fault(a), fault(b)], None),
        Verdict::Unclear { candidates, next, .. } => ("unclear", candidates.iter().map(fault).collect(), next.as_ref()),
        Verdict::Contradiction => ("contradiction", Vec::new(), None),
    };
    json!({
        "verdict": word,
        "faults": faults,
        "next": next.map(|n| json!({"at": n.at, "with": n.with, "current_a": number(n.current)})),
    })
}
