//! How much voltage does one branch lose at a current, its own warming included?
//!
//! Drop f(I) = I × (fixed + R20 × (234.5 + T(I)) / 254.5), with its slope for
//! Newton's method. Left out: warming over time; for a start surge hold the
//! temperature that the working current has given.

use crate::engine::physics::copper;
use crate::engine::physics::copper::{INFERRED_ZERO, MELTING, REFERENCE};
use crate::quantity::{Amps, Celsius, Kelvins, Ohms, Watts};

/// How the copper's temperature follows the current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Warming {
    /// The copper is held at this temperature: a surge too short to warm it,
    /// or a comparison at fixed temperature. -200 °C to 1,085 °C.
    Held(Celsius),
    /// The rise is proportional to the heat made in the branch's copper:
    /// T = air + rise × I²R(T) / at_loss.
    ///
    /// Beyond the melting point of copper the drop goes on along its tangent,
    /// so that an absurd current still has an answer that can be reported.
    Linear {
        /// Temperature without current; -200 °C to 1,085 °C.
        air: Celsius,
        /// Rise over `air`; 0 K or more …
        rise: Kelvins,
        /// … when the copper of the whole branch, out and back, makes this heat; above 0 W.
        at_loss: Watts,
    },
}

/// A branch's drop as a function of its current, prepared for many evaluations. Volts, amps and ohms.
#[derive(Clone, Copy)]
pub(crate) enum Law {
    /// Constant resistance.
    Straight { resistance: f64 },
    /// Linear warming: copper resistance `at_air` / (1 - `per_a2` × I²), tangent above `knee`.
    Linear { fixed: f64, at_air: f64, per_a2: f64, knee: f64 },
}

impl Law {
    pub(crate) fn new(copper: Ohms, fixed: Ohms, warming: &Warming) -> Self {
        match warming {
            Warming::Held(at) => Law::Straight { resistance: (fixed + copper::warmed(copper, *at)).get() },
            Warming::Linear { air, rise, at_loss } => {
                let at_air = copper::warmed(copper, *air).get();
                // T = air + θ I² R20 w(T) with w linear in T solves to w(T) = w(air) / (1 - per_a2 I²).
                let per_a2 = rise.get() / at_loss.get() * copper.get() / (REFERENCE - INFERRED_ZERO).get();
                if per_a2 <= 0.0 {
                    return Law::Straight { resistance: fixed.get() + at_air };
                }
                let cold_share = copper::warm_factor(*air) / copper::warm_factor(MELTING);
                Law::Linear { fixed: fixed.get(), at_air, per_a2, knee: ((1.0 - cold_share) / per_a2).max(0.0).sqrt() }
            }
        }
    }

    /// Drop in volts and its slope in ohms at `current`. Odd in the current, slope never negative.
    pub(crate) fn drop(&self, current: f64) -> (f64, f64) {
        match *self {
            Law::Straight { resistance } => (resistance * current, resistance),
            Law::Linear { fixed, at_air, per_a2, knee } => {
                let size = current.abs().min(knee);
                let k = per_a2 * size * size;
                let copper = at_air / (1.0 - k);
                let slope = fixed + copper * (1.0 + k) / (1.0 - k);
                let drop = size * (fixed + copper) + (current.abs() - size) * slope;
                (drop.copysign(current), slope)
            }
        }
    }
}

impl Warming {
    /// Temperature of `copper` (its resistance at 20 °C) at `current`.
    ///
    /// With linear warming and a current beyond what would melt copper, the
    /// figure exceeds 1,085 °C and only says that no cable is left.
    pub fn temperature(&self, copper: Ohms, current: Amps) -> Celsius {
        match self {
            Warming::Held(at) => *at,
            Warming::Linear { air, .. } => {
                let drop = Law::new(copper, Ohms::ZERO, self).drop(current.get().abs()).0;
                if copper <= Ohms::ZERO || drop <= 0.0 {
                    return *air;
                }
                copper::temperature_of(drop / current.get().abs() / copper.get())
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn linear(air: f64, kelvins_per_watt: f64) -> Warming {
        Warming::Linear { air: Celsius::new(air), rise: Kelvins::new(kelvins_per_watt), at_loss: Watts::new(1.0) }
    }

    /// The closed form against the definition iterated: T = air + θ I² R20 (234.5 + T) / 254.5.
    #[test]
    fn linear_warming_meets_its_definition() {
        let (cold, theta, air) = (Ohms::from_milli(20.0), 2.0, 40.0);
        for current in [0.0, 5.0, 30.0, -30.0, 50.0] {
            let mut t = air;
            for _ in 0..500 {
                t = air + theta * current * current * cold.get() * (234.5 + t) / 254.5;
            }
            let got = linear(air, theta).temperature(cold, Amps::new(current)).get();
            assert!((got - t).abs() < 1e-6, "{current} A: {got} °C, iterated {t} °C");
        }
    }

    /// The slope against a central difference, for both kinds, also past the melting point.
    #[test]
    fn slope_is_the_derivative() {
        let kinds = [Warming::Held(Celsius::new(60.0)), linear(30.0, 3.0)];
        for warming in kinds {
            let law = Law::new(Ohms::from_milli(20.0), Ohms::from_milli(2.0), &warming);
            for current in [-40.0, -3.0, 0.5, 12.0, 45.0, 200.0, 3000.0] {
                let h = 1e-4 * f64::abs(current);
                let expected = (law.drop(current + h).0 - law.drop(current - h).0) / (2.0 * h);
                let got = law.drop(current).1;
                assert!((got / expected - 1.0).abs() < 2e-3, "{warming:?} {current} A: {got}, difference {expected}");
            }
            assert_eq!(law.drop(7.0).0, -law.drop(-7.0).0);
        }
    }
}
