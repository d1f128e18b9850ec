//! Which voltages to expect, load by load and run by run, with their bands?
//!
//! Drops along the way of each load when it alone is on, and of all together,
//! with two standard errors of resistance, meter and load current to both
//! sides. The battery's own voltage is left out on purpose: the drop from its
//! posts is what tells.

use crate::engine::physics::side_by_side::in_parts;
use crate::engine::simulate::test_sheet::equation::meter_variance;
use crate::engine::simulate::test_sheet::flow::{Flow, Wiring};
use crate::engine::simulate::test_sheet::result::{Band, MeterErrors, PointExpected, RunExpected, Test};
use crate::engine::simulate::test_sheet::segment::Segment;
use crate::quantity::*;

/// Each load alone, the charger both ways, and all loads.
pub(crate) fn tests(wiring: &Wiring<'_>, meter: &MeterErrors) -> Vec<(Test, Flow)> {
    let all = wiring.all_on();
    let one = |index: usize| {
        let (with, on) = &all[index];
        let flow = wiring.flow(on, None)?;
        let points = points(wiring, meter, &flow);
        let test = Test { with: with.clone(), side: flow.side, current: flow.total.abs(), posts: flow.posts, points };
        Some((test, flow))
    };
    in_parts(all.len(), 64, one).into_iter().flatten().collect()
}

/// Drop and its variance grow from each point to the next.
fn points(wiring: &Wiring<'_>, meter: &MeterErrors, flow: &Flow) -> Vec<PointExpected> {
    let mut up_to = vec![(0.0, 0.0); wiring.segments.len()];
    let mut points = Vec::with_capacity(flow.way.len());
    for branch in &flow.way {
        let (Some(here), Some(Some(segment))) =
            (wiring.site.circuits.branches.get(*branch), wiring.segments.get(*branch))
        else {
            continue;
        };
        let before = here.parent.and_then(|p| up_to.get(p)).copied().unwrap_or((0.0, 0.0));
        let current = flow.currents.get(*branch).copied().unwrap_or(0.0);
        let drop = before.0 + current * segment.likely.get();
        let tolerance = before.1 + (current * segment.error.get()).powi(2);
        if let Some(slot) = up_to.get_mut(*branch) {
            *slot = (drop, tolerance);
        }
        let drop = band(drop, tolerance + meter_variance(meter, drop, flow.total.get(), false));
        let voltage =
            Band { low: flow.posts - drop.high, likely: flow.posts - drop.likely, high: flow.posts - drop.low };
        points.push(PointExpected { point: here.far.clone(), run: here.run, drop, voltage });
    }
    points
}

fn band(drop: f64, variance: f64) -> Band<Volts> {
    let half = 2.0 * variance.max(0.0).sqrt();
    // What flows one way never drops the other way, whatever the meter's error.
    let low = if drop >= 0.0 { (drop - half).max(0.0) } else { drop - half };
    Band { low: Volts::new(low), likely: Volts::new(drop), high: Volts::new(drop + half) }
}

/// Resistance of each run that has a size, and its volt-drop test.
pub(crate) fn runs(wiring: &Wiring<'_>, meter: &MeterErrors, tests: &[(Test, Flow)]) -> Vec<RunExpected> {
    let mut through = vec![0.0; wiring.segments.len()];
    for (_, flow) in tests {
        for (most, current) in through.iter_mut().zip(&flow.currents) {
            *most = f64::max(*most, current.abs());
        }
    }
    let sized = wiring.segments.iter().zip(through).filter_map(|(s, through)| Some((s.as_ref()?, through)));
    let mut all: Vec<RunExpected> = sized.map(|(segment, through)| run(meter, through, segment)).collect();
    all.sort_by_key(|r| r.run);
    all
}

/// `through`: the most that any test sends through it.
fn run(meter: &MeterErrors, through: f64, segment: &Segment) -> RunExpected {
    // What no load draws (a solar feed) is tested with what its source gives; a test load is the last resort.
    let planned = if through > 0.0 { through } else { segment.full.get() };
    let current = if planned > 0.0 { planned } else { segment.most.get() };
    let drop = current * segment.likely.get();
    let variance = (current * segment.error.get()).powi(2) + meter_variance(meter, drop, current, true);
    RunExpected {
        run: segment.run,
        resistance: segment.band(),
        current: Amps::new(current),
        drop: band(drop, variance),
    }
}
