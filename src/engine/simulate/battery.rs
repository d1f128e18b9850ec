//! What a battery does with charge and with temperature, as curves to draw.
//!
//! Resting voltage by state of charge at 25 °C, and the share of the rated
//! capacity that is left by temperature: the same functions that size the
//! battery, at even steps. Left out: the current; the cut-off has the voltage
//! under load.

use crate::catalogue::Chemistry;
use crate::engine::physics::cell::store::{TABLE_AIR, cold_factor, resting_voltage};
use crate::quantity::*;

/// Curves of one chemistry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BatteryCurves {
    /// State of charge, resting voltage.
    pub resting: Vec<(Share, Volts)>,
    /// Temperature, share of the rated capacity left.
    pub capacity: Vec<(Celsius, Share)>,
}

/// The curves of a chemistry; the capacity from -20 °C, or from `coldest` if that is lower, to 40 °C.
pub fn battery_curves(chemistry: &Chemistry, coldest: Celsius) -> BatteryCurves {
    let resting = (0..=50).map(|n| {
        let charge = Share::percent(f64::from(n) * 2.0);
        (charge, resting_voltage(chemistry, charge, TABLE_AIR))
    });
    let from = coldest.get().min(-20.0);
    let air = |n: u32| Celsius::new(from + (40.0 - from) * f64::from(n) / 60.0);
    let capacity = (0..=60).map(|n| (air(n), cold_factor(chemistry, air(n))));
    BatteryCurves { resting: resting.collect(), capacity: capacity.collect() }
}
