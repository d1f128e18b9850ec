//! How does the resistance of copper follow its temperature?
//!
//! R(T) = R20 × (234.5 + T) / 254.5, the straight line of annealed copper that
//! would reach zero at -234.5 °C. Source: NBS Handbook 100 (Copper Wire
//! Tables); the same 234.5 and 254.5 are printed in FAA AC 43.13-1B CHG 1,
//! par. 11-66 d(4). Left out: tinning, alloying, and the slight bend of the
//! true curve, which stays within 0.5 % between -40 °C and 200 °C.

use crate::engine::physics::reckon::Reckoned;
use crate::quantity::{Celsius, Ohms};
use crate::reckon;

/// Temperature at which the straight line of copper's resistance would reach zero: -234.5 °C.
pub const INFERRED_ZERO: Celsius = Celsius::new(-234.5);

/// Reference temperature of published conductor resistances: 20 °C.
pub const REFERENCE: Celsius = Celsius::new(20.0);

/// Melting point of copper, 1,084.6 °C (ITS-90 fixed point), rounded up.
pub const MELTING: Celsius = Celsius::new(1085.0);

/// Resistance at `at` over the resistance at 20 °C: (234.5 + T) / 254.5.
///
/// 1 at 20 °C, 1.118 at 50 °C, 1.275 at 90 °C; zero or less below -234.5 °C.
pub fn warm_factor(at: Celsius) -> f64 {
    (at - INFERRED_ZERO) / (REFERENCE - INFERRED_ZERO)
}

/// Resistance at `at` of copper that has `cold` at 20 °C.
pub fn warmed(cold: Ohms, at: Celsius) -> Ohms {
    cold * warm_factor(at)
}

/// Resistance of a loop: its copper as warm as it is, and what does not warm with it.
pub fn hot_loop(cold: Ohms, at: Celsius, fixed: Ohms) -> Reckoned<Ohms, 3> {
    reckon!(Ohms: C * ((234.5 + T) / 254.5) + F,
        C: "its copper at 20 °C" = cold,
        T: "temperature of the conductor" = at,
        F: "what does not warm with it" = fixed)
}

/// Temperature at which copper has `factor` times its resistance at 20 °C, the inverse of [`warm_factor`].
pub fn temperature_of(factor: f64) -> Celsius {
    INFERRED_ZERO + (REFERENCE - INFERRED_ZERO) * factor
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 60228 annex, factors to 20 °C: 0.893 at 50 °C and 0.781 at 90 °C.
    /// The exact law gives 0.8946 and 0.7843, so 0.5 %.
    #[test]
    fn factor_against_iec_60228() {
        for (at, to_20) in [(50.0, 0.893), (90.0, 0.781)] {
            let got = 1.0 / warm_factor(Celsius::new(at));
            assert!((got / to_20 - 1.0).abs() < 0.005, "{at} °C: {got}, IEC 60228 says {to_20}");
        }
    }

    #[test]
    fn temperature_and_factor_are_inverse() {
        for t in [-40.0, 0.0, 20.0, 105.0, 1085.0] {
            assert!((temperature_of(warm_factor(Celsius::new(t))).get() - t).abs() < 1e-9);
        }
    }
}
