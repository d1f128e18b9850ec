//! How fast does a conductor warm, and what may it carry for a short time?
//!
//! One heat store behind one thermal resistance, the one of the steady state at
//! the insulation's limit: C θ' = I² R'(T) - θ / Rth with R' linear in T, so
//! θ(t) is an exponential. The time constant counts copper and insulation. The
//! insulation lags behind the copper, so starts and intermittent loads are
//! rated with the copper's store alone, which warms faster; up to 5 s no heat
//! is taken to leave it at all (adiabatic, as IEC 60364-4-43 takes faults).

use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::copper::{INFERRED_ZERO, MELTING, REFERENCE, warm_factor};
use crate::quantity::*;

/// Heat capacity of copper by volume, J/(m³ K): 8,890 kg/m³ × 388 J/(kg K) (IEC 60853 gives 3.45e6).
const COPPER_STORE: f64 = 3.45e6;

/// Longest time that is taken without heat leaving (IEC 60364-4-43: 5 s).
const ADIABATIC: Seconds = Seconds::new(5.0);

/// A load that comes and goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Intermittent {
    /// On for so long …
    pub on: Seconds,
    /// … then off for so long, for ever.
    pub off: Seconds,
}

/// How a conductor warms.
#[derive(Clone, Copy, Debug)]
pub struct Warmth {
    air: Celsius,
    /// Heat store of copper, and of copper with insulation, J/(m K).
    copper: f64,
    store: f64,
    /// K m / W from conductor to air.
    to_air: f64,
    /// Ω/m at 20 °C.
    resistance: f64,
}

impl Warmth {
    /// Of a conductor whose insulation stands `hottest`.
    pub fn new(path: &HeatPath, hottest: Celsius) -> Self {
        let copper = path.sections.0 * COPPER_STORE;
        let to_air =
            path.resistance_to_air(if hottest.get() > path.air.get() { hottest } else { path.air + Kelvins::new(1.0) });
        let resistance = path.resistance.get() / 1000.0;
        Warmth { air: path.air, copper, store: copper + path.sections.1 * path.insulation_store, to_air, resistance }
    }

    /// Of a conductor that carries `ampacity` at `hottest`: the copper's store alone, which warms fastest.
    pub fn of_copper(path: &HeatPath, hottest: Celsius, ampacity: Amps) -> Self {
        let copper = path.sections.0 * COPPER_STORE;
        let heat = path.heat(ampacity, hottest);
        let to_air = if heat > 0.0 { (hottest - path.air).get() / heat } else { path.wall };
        Warmth { air: path.air, copper, store: copper, to_air, resistance: path.resistance.get() / 1000.0 }
    }

    /// Time in which it comes within 37 % of its steady rise: τ = C × Rth.
    pub fn time_constant(&self) -> Seconds {
        Seconds::new(self.store * self.to_air)
    }

    /// Heat store, J/(m K).
    pub fn heat_store(&self) -> f64 {
        self.store
    }

    /// Thermal resistance from conductor to air, K m/W.
    pub fn resistance_to_air(&self) -> f64 {
        self.to_air
    }

    /// Temperature after a surge of `lasts` from `start`; up to 5 s without any heat leaving
    /// (adiabatic, as IEC 60364-4-43 takes faults), longer ones with it.
    ///
    /// Adiabatic: T = (T0 + 234.5) exp(I² R20 t / (254.5 C)) - 234.5, C the copper's store.
    pub fn after_surge(&self, start: Celsius, current: Amps, lasts: Seconds) -> Celsius {
        let span = (REFERENCE - INFERRED_ZERO).get();
        let (t, square) = (lasts.get().max(0.0), current.get() * current.get());
        let per_k = square * self.resistance / span;
        if t <= ADIABATIC.get() {
            let hot = INFERRED_ZERO + (start - INFERRED_ZERO) * (per_k * t / self.copper).min(50.0).exp();
            return hot.min(MELTING);
        }
        let at_air = square * self.resistance * warm_factor(self.air);
        let b = ((per_k - 1.0 / self.to_air) / self.store).min(50.0 / t);
        let hot = self.air + (start - self.air) * (b * t).exp() + Kelvins::new(at_air / self.store * grow(b, t));
        hot.min(MELTING)
    }

    /// Largest current for `lasts`, begun at `start`, after which [`Warmth::after_surge`] stays within `hottest`.
    pub fn short_time(&self, start: Celsius, lasts: Seconds, hottest: Celsius) -> Amps {
        let t = lasts.get().max(1e-3);
        if start >= hottest {
            return Amps::ZERO;
        }
        if t <= ADIABATIC.get() {
            let span = (REFERENCE - INFERRED_ZERO).get();
            let ratio = (hottest - INFERRED_ZERO) / (start - INFERRED_ZERO).max(Kelvins::new(1.0));
            return Amps::new((ratio.ln() * span * self.copper / (self.resistance * t)).max(0.0).sqrt());
        }
        let from = (start - self.air).get();
        self.largest((hottest - self.air).get(), |a, b| from * (b * t).exp() + a * grow(b, t))
    }

    /// Largest current of an intermittent load whose peaks stay within `hottest` for ever.
    pub fn intermittent(&self, cycle: Intermittent, hottest: Celsius) -> Amps {
        let (on, off) = (cycle.on.get().max(1e-6), cycle.off.get().max(0.0));
        let cools = (-off / (self.store * self.to_air)).exp();
        self.largest((hottest - self.air).get(), |a, b| {
            let kept = (b * on).exp() * cools;
            // A cycle that keeps all its heat has no steady peak.
            if kept < 1.0 { a * grow(b, on) / (1.0 - kept) } else { f64::INFINITY }
        })
    }

    /// Largest current whose rise, a function of the start's slope and the rate, stays within `span`.
    fn largest(&self, span: f64, rise: impl Fn(f64, f64) -> f64) -> Amps {
        if span.is_nan() || span <= 0.0 {
            return Amps::ZERO;
        }
        let at_air = self.resistance * warm_factor(self.air);
        let per_k = self.resistance / (REFERENCE - INFERRED_ZERO).get();
        let fits = |current: f64| {
            let square = current * current;
            let (a, b) = (square * at_air / self.store, (square * per_k - 1.0 / self.to_air) / self.store);
            rise(a, b) <= span
        };
        let (mut low, mut high) = (0.0, 1.0);
        while fits(high) && high < 1e6 {
            (low, high) = (high, high * 2.0);
        }
        for _ in 0..30 {
            let middle = (low + high) / 2.0;
            if fits(middle) { low = middle } else { high = middle }
        }
        Amps::new(low)
    }
}

/// (exp(b t) - 1) / b, which is t where b is nothing.
fn grow(b: f64, t: f64) -> f64 {
    if (b * t).abs() < 1e-9 { t } else { (b * t).exp_m1() / b }
}
