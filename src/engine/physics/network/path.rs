//! How much voltage is lost along one path at a known current, and which area or length keeps within a limit?
//!
//! Ohm's law with copper at its temperature. For loads whose current depends
//! on the voltage they get, solve the network instead.

use crate::catalogue::COPPER_OHM_MM2_PER_KM;
use crate::engine::physics::copper::warm_factor;
use crate::quantity::{Amps, Celsius, Metres, Ohms, OhmsPerKm, SquareMillimetres, Volts};

/// Voltage lost by `current` over resistances in series: U = I × Σ R.
pub fn drop_along(current: Amps, path: impl IntoIterator<Item = Ohms>) -> Volts {
    current * path.into_iter().sum::<Ohms>()
}

/// Smallest copper area that loses no more than `limit`: S = ρ(T) × L × I / U.
///
/// `length` is all the wire the current passes, out and back; `at` the
/// copper's temperature. `None` when the limit is not above 0 V. 100 % IACS
/// copper, 17.241 Ω mm²/km at 20 °C (NBS Handbook 100).
pub fn area_for_drop(current: Amps, length: Metres, limit: Volts, at: Celsius) -> Option<SquareMillimetres> {
    let whole = OhmsPerKm::new(COPPER_OHM_MM2_PER_KM * warm_factor(at)) * length;
    (limit > Volts::ZERO).then(|| SquareMillimetres::new(current * whole / limit))
}

/// Longest wire, out and back, that loses no more than `limit`: L = U / (I × R').
///
/// `None` when the current or the resistance per length is not above 0: no length is too long then.
pub fn length_for_drop(limit: Volts, current: Amps, per_length: OhmsPerKm) -> Option<Metres> {
    let per_metre = current * (per_length * Metres::new(1.0));
    (per_metre > Volts::ZERO).then(|| Metres::new(limit / per_metre))
}
