//! The whole design as JSON.

use super::findings::{Spot, finding};
use super::number::{maybe, number};
use super::workings::workings;
use super::{VERSION, carrier, findings};
use crate::engine::*;
use crate::papers::{Job, run_number};
use crate::plan::Place;
use serde_json::{Value, json};

/// The report; `with_workings` adds how each number came about.
pub fn report(job: &Job, spot: &dyn Fn(Place) -> Option<Spot>, with_workings: bool) -> Value {
    let design = job.design;
    let mut out = json!({
        "version": VERSION,
        "title": job.plan.job.title,
        "counts": findings::counts(design),
        "findings": design.findings.iter().map(|f| finding(f, job.plan, spot)).collect::<Vec<_>>(),
        "budget": budget(job),
        "battery": battery(&design.battery),
        "charger": charger(&design.charger),
        "copper": {
            "mass_kg": number(design.copper.mass),
            "equal_share_kg": maybe(design.copper.equal_share),
            "least": design.copper.least,
            "labels": design.copper.labels,
        },
        "runs": design.runs.iter().map(|r| run(job, r)).collect::<Vec<_>>(),
        "loads": design.loads.iter().enumerate().map(|(n, l)| supply(job, n, l)).collect::<Vec<_>>(),
        "cut_off": cut_off(&design.cut_off),
        "carrier": carrier::carrier(design.carrier.as_ref()),
        "test_sheet": carrier::test_sheet(&design.test_sheet),
    });
    if with_workings {
        out["workings"] = workings(job);
    }
    out
}

fn budget(job: &Job) -> Value {
    let b = &job.design.budget;
    let load = |(n, l): (usize, &LoadBudget)| {
        json!({
            "name": job.plan.loads.get(n).map(|l| l.name.as_str()),
            "hours_h": number(l.hours),
            "share_on": number(l.share),
            "running_a": number(l.running),
            "starting_a": number(l.starting),
            "charge_ah": number(l.charge),
            "energy_wh": number(l.energy),
            "by_night_ah": number(l.by_night),
            "driving_ah": number(l.driving),
        })
    };
    json!({
        "charge_ah": number(b.charge),
        "energy_wh": number(b.energy),
        "standing_ah": number(b.standing),
        "inverter_idle_ah": number(b.inverter_idle),
        "by_day_ah": number(b.by_day),
        "by_night_ah": number(b.by_night),
        "driving_ah": number(b.driving),
        "parked_ah": number(b.parked),
        "peak_a": number(b.peak),
        "surge_a": number(b.surge),
        "surge_load": b.surge_load.and_then(|i| job.plan.loads.get(i)).map(|l| l.name.as_str()),
        "usual_a": number(b.usual),
        "light_a": number(b.light),
        "loads": b.loads.iter().enumerate().map(load).collect::<Vec<_>>(),
    })
}

fn bank(b: &Bank) -> Value {
    json!({
        "chemistry": b.chemistry,
        "capacity_ah": number(b.capacity),
        "blocks": b.blocks,
        "block_ah": number(b.block),
        "mass_kg": number(b.mass),
        "resistance_ohm": number(b.resistance),
        "resistance_worst_ohm": number(b.resistance_worst),
        "resistance_fault_ohm": number(b.resistance_fault),
        "fault_a": number(b.fault),
    })
}

fn battery(b: &BatteryDesign) -> Value {
    let candidate = |c: &Candidate| {
        json!({
            "chemistry": c.chemistry,
            "name": c.name,
            "chosen": c.chosen,
            "needed_ah": number(c.needed),
            "ruling": c.ruling,
            "bank": c.bank.as_ref().map(bank),
            "usable_wh": number(c.usable),
            "years_a": number(c.years),
            "years_cycles_a": number(c.years_cycles),
            "charges_cold": c.charges_cold,
            "charge_min_c": number(c.charge_min),
            "recharge_h": maybe(c.recharge),
            "charge_max_a": number(c.charge_max),
        })
    };
    json!({
        "bank": b.bank.as_ref().map(bank),
        "needed_ah": number(b.needed),
        "ruling": b.criteria.get(b.ruling).map(|c| c.name),
        "criteria": b.criteria.iter().map(|c| json!({"name": c.name, "needed_ah": number(c.needed)})).collect::<Vec<_>>(),
        "usable_wh": number(b.usable),
        "depth_reached": number(b.depth_reached),
        "candidates": b.candidates.iter().map(candidate).collect::<Vec<_>>(),
    })
}

fn charger(c: &ChargerDesign) -> Value {
    let bound = |b: &Bound| json!({"name": b.name, "current_a": number(b.amps)});
    let recovery = |r: &Recovery| json!({"to": number(r.to), "time_h": maybe(r.hours)});
    json!({
        "current_a": maybe(c.current),
        "output_v": number(c.output),
        "lower": bound(&c.lower),
        "upper": c.upper.iter().map(bound).collect::<Vec<_>>(),
        "a_day_ah": number(c.a_day),
        "input_a": number(c.input),
        "input_v": number(c.input_voltage),
        "spare_idle_a": number(c.spare_idle),
        "spare_road_a": number(c.spare_road),
        "solar_a_day_ah": number(c.solar_a_day),
        "solar_share": number(c.solar_share),
        "mains_a_day_ah": number(c.mains_a_day),
        "recovery": c.recovery.iter().map(recovery).collect::<Vec<_>>(),
    })
}

/// One size of one run.
pub fn size(s: &SizeRow) -> Value {
    json!({
        "label": s.label,
        "area_mm2": number(s.area),
        "resistance_ohm": number(s.resistance),
        "drop_v": number(s.drop),
        "drop_share": number(s.drop_share),
        "temperature_c": number(s.temperature),
        "ampacity_a": number(s.ampacity),
        "ampacity_table_a": maybe(s.ampacity_table),
        "ampacity_heat_a": maybe(s.ampacity_heat),
        "fuse_a": maybe(s.fuse),
        "copper_kg": number(s.mass),
        "loss_wh": number(s.loss),
        "fails": s.fails,
        "used": s.used,
    })
}

fn run(job: &Job, r: &RunDesign) -> Value {
    let planned = job.plan.runs.get(r.run);
    json!({
        "number": run_number(r.run),
        "name": planned.map(|p| p.name.as_str()),
        "from": planned.map(|p| p.from.as_str()),
        "to": planned.map(|p| p.to.as_str()),
        "length_m": planned.map_or(Value::Null, |p| number(p.length)),
        "current_a": number(r.current),
        "surge_a": number(r.surge),
        "surge_lasts_s": number(r.surge_lasts),
        "air_c": number(r.air),
        "size": r.size.as_ref().map(size),
        "pinned": r.pinned,
        "ruling": r.ruling,
        "drop_allowed_v": number(r.drop_allowed),
        "near_v": number(r.near_voltage),
        "far_v": number(r.far_voltage),
        "limits": limits(r),
        "equal_share_v": maybe(r.equal_share),
        "time_constant_s": number(r.short_time.time_constant),
        "after_start_c": number(r.short_time.after_start),
        "start_lasts_s": number(r.short_time.start_lasts),
        "short_time_a": number(r.short_time.start),
        "intermittent_a": number(r.short_time.intermittent),
        "fuses": r.fuses.iter().map(fuse).collect::<Vec<_>>(),
        "sizes": r.sizes.iter().map(size).collect::<Vec<_>>(),
    })
}

/// How far the size would go, and what stops it there.
pub fn limits(r: &RunDesign) -> Value {
    json!({
        "longest_m": maybe(r.longest.map(|l| l.0)),
        "longest_by": r.longest.map(|l| l.1),
        "in_time_to_m": maybe(r.in_time_to()),
        "biggest_a": maybe(r.biggest.map(|l| l.0)),
        "biggest_by": r.biggest.map(|l| l.1),
        "warmest_c": maybe(r.warmest.map(|l| l.0)),
        "warmest_by": r.warmest.map(|l| l.1),
    })
}

fn fuse(f: &FuseDesign) -> Value {
    json!({
        "at": f.at,
        "within_m": number(f.within),
        "style": f.style,
        "style_name": f.style_name,
        "rating_a": maybe(f.rating),
        "pinned": f.pinned,
        "ruling": f.ruling,
        "at_least_a": number(f.at_least),
        "at_most_a": number(f.at_most),
        "prospective_a": number(f.prospective),
        "breaking_a": number(f.breaking),
        "far_fault_a": number(f.far_fault),
        "opens_within_s": maybe(f.opens_within),
        "far_end": f.far_end,
        "longest_m": maybe(f.longest),
        "let_through_a2s": maybe(f.let_through),
        "cable_stands_a2s": number(f.cable_stands),
    })
}

fn supply(job: &Job, index: usize, l: &LoadSupply) -> Value {
    let load = job.plan.loads.get(index);
    json!({
        "name": load.map(|l| l.name.as_str()),
        "at": load.map(|l| l.at.as_str()),
        "voltage_v": maybe(l.voltage),
        "surge_voltage_v": maybe(l.surge_voltage),
        "charging_voltage_v": maybe(l.charging_voltage),
        "drop_v": number(l.drop),
        "drop_share": number(l.drop_share),
        "limit_share": number(l.limit),
        "fits": l.fits,
    })
}

/// The cut-off.
pub fn cut_off(c: &CutOffDesign) -> Value {
    let at = |a: &AtCurrent| {
        json!({
            "name": a.name,
            "current_a": number(a.current),
            "posts_v": number(a.posts),
            "sensing_v": number(a.sensing),
            "trips_at": maybe(a.trips_at),
        })
    };
    let point = |p: &CurvePoint| {
        json!({
            "charge": number(p.charge),
            "resting_v": number(p.resting),
            "sensing_v": p.sensing.iter().map(|v| number(*v)).collect::<Vec<_>>(),
        })
    };
    json!({
        "cut_v": number(c.cut),
        "reconnect_v": number(c.reconnect),
        "delay_s": number(c.delay),
        "reserve": number(c.reserve),
        "usual": c.at_currents.get(c.usual).map(|a| a.name),
        "at_currents": c.at_currents.iter().map(at).collect::<Vec<_>>(),
        "rebound_v": number(c.rebound),
        "charging_v": number(c.charging),
        "days_to_harm_d": maybe(c.days_to_harm),
        "order": c.order.iter().map(|(what, v)| json!({"what": what, "at_v": number(*v)})).collect::<Vec<_>>(),
        "current_a": number(c.current),
        "rating_a": maybe(c.rating),
        "curve": c.curve.iter().map(point).collect::<Vec<_>>(),
    })
}
