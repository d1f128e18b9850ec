//! How warm does one insulated conductor get, and how much may it carry?
//!
//! Heat balance per metre, steady: I² R'(T) = (T - Ts) / Rth = π D F (h (Ts - Ta) + ε σ (Ts⁴ - Ta⁴)),
//! with Rth = ln(D/d) / (2 π k) of the insulation, h of natural convection
//! ([`super::air`]), and F for what hinders the air: the place's factor and the
//! square of the bundle factor, since current goes with the root of the heat.
//! Still air; the conductor's own way back beside it is taken to change nothing,
//! as the published table does. Left out: sun, draught, heat along the cable
//! into lugs, and the neighbours' own temperature beyond the bundle factor.

use crate::engine::physics::conductor::air::{convection, prandtl_factor};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::copper;
use crate::engine::physics::copper::MELTING;
use crate::quantity::*;

/// Stefan-Boltzmann constant, W/(m² K⁴) (CODATA 2018).
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// Heat capacity of PVC by volume, J/(m³ K), IEC 60853-2: the least of the usual insulations.
const PVC_STORE: f64 = 1.7e6;

/// The square of the current is met so nearly that the last step needs no further balance,
const NEAR: f64 = 1e-5;
/// where the chord that it goes along is no longer than this, in logarithms: 1e-7 of the rise may be left.
const SHORT: f64 = 0.1;

/// One balance: logarithms of the surface's rise and of the square of the current, temperature of the conductor.
type Balance = (f64, f64, f64);

/// The way of the heat from one conductor to the air.
#[derive(Clone, Copy, Debug)]
pub struct HeatPath {
    /// Diameter of the copper.
    pub copper: Millimetres,
    /// Outside diameter.
    pub outside: Millimetres,
    /// Resistance at 20 °C.
    pub resistance: OhmsPerKm,
    /// Thermal resistance of the insulation, K m / W.
    pub wall: f64,
    /// Emissivity of the surface.
    pub emissivity: f64,
    /// Share of the free surface's heat transfer that is left.
    pub cooling: f64,
    /// Air around it.
    pub air: Celsius,
    /// Factor of the convection formula, see [`prandtl_factor`].
    prandtl: f64,
    /// Copper and insulation, volume per length each, m²: for how fast it warms.
    pub(crate) sections: (f64, f64),
    /// Heat capacity of the insulation by volume, J/(m³ K).
    pub(crate) insulation_store: f64,
}

impl HeatPath {
    /// Of a cable as it is laid; `bundle` is the bundle's factor on the current.
    pub fn new(cable: &Cable, laid: &Laid, bundle: f64) -> Self {
        let (outside, copper) = (cable.conductor.outside, cable.copper_diameter());
        let ratio = (outside / copper).max(1.0);
        let conductivity = laid.insulation.conductivity_w_per_mk.max(1e-3);
        let whole = std::f64::consts::FRAC_PI_4 * (outside.get() / 1000.0).powi(2);
        let metal = cable.conductor.copper().get() * 1e-6;
        HeatPath {
            copper,
            outside,
            resistance: cable.conductor.resistance,
            wall: ratio.ln() / (2.0 * std::f64::consts::PI * conductivity),
            emissivity: laid.insulation.emissivity.clamp(0.0, 1.0),
            cooling: laid.cooling() * bundle * bundle,
            air: laid.air,
            // The film is on average between the air and half way to the insulation's limit.
            prandtl: prandtl_factor(Celsius::new((3.0 * laid.air.get() + laid.insulation.max.get()) / 4.0)),
            sections: (metal, (whole - metal).max(0.0)),
            insulation_store: laid.insulation.heat_store.unwrap_or(PVC_STORE),
        }
    }

    /// Heat leaving a metre of surface at a temperature, W/m.
    fn leaves(&self, surface: f64) -> f64 {
        let (at, air) = (Celsius::new(surface), self.air);
        let radiation = self.emissivity * STEFAN_BOLTZMANN * (at.absolute().powi(4) - air.absolute().powi(4));
        let moved = convection(self.outside, at, air, self.prandtl) * (surface - air.get());
        std::f64::consts::PI * self.outside.get() / 1000.0 * self.cooling * (moved + radiation)
    }

    /// For a surface this much above the air: conductor temperature and the square of the current that keeps it.
    fn state(&self, above: f64) -> (f64, f64) {
        let surface = self.air.get() + above;
        let heat = self.leaves(surface);
        let conductor = surface + heat * self.wall;
        let per_metre = self.resistance.get() / 1000.0 * copper::warm_factor(Celsius::new(conductor));
        (conductor, heat / per_metre)
    }

    /// Current that keeps the conductor at `hottest`; zero when the air is as hot.
    pub fn ampacity(&self, hottest: Celsius) -> Amps {
        let span = (hottest - self.air).get();
        if span.is_nan() || span <= 0.0 {
            return Amps::ZERO;
        }
        // The conductor's rise grows a little faster than the surface's; a secant from both ends settles in a few steps.
        let rise = |above: f64| self.state(above).0 - self.air.get();
        let (mut low, mut high) = (0.0, span);
        let mut above = span * span / rise(span).max(span);
        for _ in 0..60 {
            let got = rise(above);
            if (got - span).abs() < 1e-8 * span {
                break;
            }
            if got > span {
                high = above
            } else {
                low = above
            }
            let next = above * span / got;
            above = if next > low && next < high { next } else { (low + high) / 2.0 };
        }
        Amps::new(self.state(above).1.max(0.0).sqrt())
    }

    /// Steady temperature of the conductor at `current`; copper's melting point when it would get hotter.
    pub fn temperature(&self, current: Amps) -> Celsius {
        self.temperature_from(current, 20.0, None)
    }

    /// The same when the current that keeps a temperature is known already, which makes a good first guess.
    pub fn temperature_by(&self, current: Amps, known: Amps, at: Celsius) -> Celsius {
        let above = (at - self.air).get() - self.heat(known, at) * self.wall;
        let guess = above * (current.get() / known.get()).powf(2.0 / 1.2);
        let known = (above.ln(), 2.0 * known.get().ln(), at.get());
        match guess.is_finite() && guess > 0.0 {
            true => self.temperature_from(current, guess, Some(known)),
            false => self.temperature(current),
        }
    }

    fn temperature_from(&self, current: Amps, guess: f64, known: Option<Balance>) -> Celsius {
        let wanted = current.get() * current.get();
        if wanted == 0.0 || wanted.is_nan() {
            return self.air;
        }
        let most = (MELTING - self.air).get().max(1.0);
        // Heat goes with about the 1.2th power of the rise: a secant on the logarithms of both.
        let (mut above, mut slope) = (guess.clamp(1e-9, most), 1.2);
        let mut last = known;
        for _ in 0..60 {
            let (conductor, carried) = self.state(above);
            if conductor >= MELTING.get() && carried <= wanted {
                return MELTING;
            }
            let miss = (wanted / carried).ln();
            if miss.abs() < 1e-8 {
                return Celsius::new(conductor).min(MELTING);
            }
            let here = (above.ln(), carried.ln(), conductor);
            if let Some(before) = last {
                let run = here.0 - before.0;
                let steep = (here.1 - before.1) / run;
                if steep.is_finite() && (0.2..=3.0).contains(&steep) {
                    slope = steep;
                    // So near the curve is its chord, far below what any balance is worth.
                    if miss.abs() < NEAR && run.abs() < SHORT {
                        let last = (here.2 - before.2) / run * (miss / slope);
                        return Celsius::new(conductor + last).min(MELTING);
                    }
                }
            }
            last = Some(here);
            above = (above * (miss / slope).clamp(-5.0, 5.0).exp()).clamp(1e-12, most);
        }
        Celsius::new(self.state(above).0).min(MELTING)
    }

    /// Thermal resistance from conductor to air when the conductor is at `at`, K m / W.
    pub(crate) fn resistance_to_air(&self, at: Celsius) -> f64 {
        let current = self.ampacity(at);
        let heat = self.heat(current, at);
        if heat > 0.0 { (at - self.air).get() / heat } else { self.wall }
    }

    /// Heat made in a metre of one conductor, W/m.
    pub(crate) fn heat(&self, current: Amps, at: Celsius) -> f64 {
        current.get() * current.get() * self.resistance.get() / 1000.0 * copper::warm_factor(at)
    }
}
