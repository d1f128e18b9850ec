//! How much air carries the hydrogen off?
//!
//! IEC 62485-2: the current that makes gas in each cell, thinned to a quarter of what can burn, with a factor of five
//! for safety. Air that moves by itself needs an opening low and one high.

use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// Current that makes gas in valve-regulated cells on boost charge, in mA for each Ah: what gives more has free acid.
/// Source: IEC 62485-2 table 1, from memory.
pub const VALVE_REGULATED: f64 = 8.0;

/// Air to be changed while charging.
pub fn vent_air(cells: u32, gas_ma_per_ah: f64, capacity: AmpHours) -> Reckoned<CubicMetresPerHour, 3> {
    reckon!(CubicMetresPerHour: 0.05 * n * g * C / 1000.0,
        n: "cells in series" = Figure::number(f64::from(cells)),
        g: "current that makes gas, in mA for each Ah" = Figure::number(gas_ma_per_ah),
        C: "capacity of the bank" = capacity)
}

/// Free area of the inlet, and as much of the outlet, where the air moves by itself.
pub fn vent_opening(air: CubicMetresPerHour) -> Reckoned<SquareCentimetres, 1> {
    reckon!(SquareCentimetres: 28.0 * Q, Q: "air to be changed" = air)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 62485-2 (its predecessor EN 50272-2 has the same law and table): 100 Ah, six cells, boost charge: 20 mA/Ah
    /// flooded 0.60 m³/h and 17 cm², 8 mA/Ah valve-regulated 0.24 m³/h and 7 cm²; worked on paper from the law.
    #[test]
    fn six_cells_of_100_ah_on_boost_charge() {
        for (gas, air, opening) in [(20.0, 0.60, 17.0), (8.0, 0.24, 7.0)] {
            let found = vent_air(6, gas, AmpHours::new(100.0)).value;
            assert!((found.get() - air).abs() < 1e-9, "{found}");
            assert_eq!(vent_opening(found).value.get().round(), opening);
        }
    }
}
