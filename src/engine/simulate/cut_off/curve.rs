//! Voltage at the sensing point by state of charge, and the charge at which a setting trips.

use crate::engine::simulate::cut_off::case::{Case, Flow};
use crate::engine::simulate::cut_off::result::CurvePoint;
use crate::quantity::*;

/// Points of the curve, every 2.5 %.
pub(crate) fn curve(case: &Case<'_>) -> Vec<CurvePoint> {
    let point = |i: u32| {
        let charge = Share::new(f64::from(i) / 40.0);
        let sensing = case.currents.all().map(|flow| case.sensing(charge, flow)).into();
        CurvePoint { charge, resting: case.store.resting_most(charge, case.air), sensing }
    };
    (0..=40).map(point).collect()
}

/// State of charge at which the voltage at the sensing point falls to `cut`
/// with this current, found by halving; `None` when it never does before
/// empty, full when it does so from the start.
pub(crate) fn trips_at(case: &Case<'_>, flow: Flow, cut: Volts) -> Option<Share> {
    let under = |charge: f64| case.sensing(Share::new(charge), flow).get() <= cut.get();
    if !under(0.0) {
        return None;
    }
    if under(1.0) {
        return Some(Share::FULL);
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..48 {
        let middle = (low + high) / 2.0;
        if under(middle) { low = middle } else { high = middle }
    }
    Some(Share::new((low + high) / 2.0))
}
