//! Voltage at the sensing point by state of charge, and the charge at which a setting trips.

use crate::catalogue::Chemistry;
use crate::engine::choose::cut_off::{Case, CurvePoint};
use crate::engine::physics::cell::store::resting_charge;
use crate::quantity::*;

/// State of charge of a rested battery at 25 °C by its voltage, 0 to 1.
pub fn charge_at_voltage(chemistry: &Chemistry, rested: Volts) -> Share {
    resting_charge(chemistry, rested, crate::engine::physics::cell::store::TABLE_AIR)
}

/// Points of the curve, every 2.5 %.
pub(crate) fn curve(case: &Case<'_>) -> Vec<CurvePoint> {
    (0..=40)
        .map(|i| {
            let charge = Share::new(f64::from(i) / 40.0);
            CurvePoint {
                charge,
                resting: case.store.resting_most(charge, case.air),
                sensing: case.currents.iter().map(|(_, amps, held)| case.sensing(charge, *amps, *held)).collect(),
            }
        })
        .collect()
}

/// State of charge at which the voltage at the sensing point falls to `cut`
/// with this current, found by halving; `None` when it never does before
/// empty, full when it does so from the start.
pub(crate) fn trips_at(case: &Case<'_>, current: Amps, held: Hours, cut: Volts) -> Option<Share> {
    let under = |charge: f64| case.sensing(Share::new(charge), current, held).get() <= cut.get();
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
