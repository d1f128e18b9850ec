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

/// A current that comes and goes on top of one that stays.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pulsed {
    /// How long it comes and goes.
    pub cycle: Intermittent,
    /// What flows while it is off.
    pub rest: Amps,
}

/// What is rated for ever, and is no cable, is taken to average heat over so long (common practice, no source).
const AVERAGED: Seconds = Seconds::new(60.0);

impl Pulsed {
    /// The steady current that heats as much as `current` does which comes and goes; itself where it is on for longer
    /// than what is not a cable is taken to average: √((I² on + I0² off) / (on + off)).
    pub fn heating(&self, current: Amps) -> Amps {
        let Intermittent { on, off } = self.cycle;
        let whole = (on + off).get();
        if on > AVERAGED || whole <= 0.0 || !whole.is_finite() {
            return current;
        }
        let square = |i: Amps| i.get() * i.get();
        Amps::new(((square(current) * on.get() + square(self.rest) * off.get()) / whole).sqrt())
    }
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
        self.largest((hottest - self.air).get(), |current| {
            let (a, b) = self.rates(current);
            from * (b * t).exp() + a * grow(b, t)
        })
    }

    /// Largest current of an intermittent load whose peaks stay within `hottest` for ever.
    pub fn intermittent(&self, cycle: Intermittent, hottest: Celsius) -> Amps {
        self.pulsed(Pulsed { cycle, rest: Amps::ZERO }, hottest)
    }

    /// The same with what flows while it is off: the largest current in all while it is on; nothing where the rest
    /// alone is too much.
    pub fn pulsed(&self, pulsed: Pulsed, hottest: Celsius) -> Amps {
        let most = self.largest((hottest - self.air).get(), |on| self.swing(pulsed, on.max(pulsed.rest)).0);
        if most > pulsed.rest { most } else { Amps::ZERO }
    }

    /// Hottest of a cycle that goes on for ever, and coolest, with so much in all while it is on.
    pub fn peak(&self, pulsed: Pulsed, on: Amps) -> (Celsius, Celsius) {
        let (peak, trough) = self.swing(pulsed, on);
        let at = |rise: f64| (self.air + Kelvins::new(rise)).min(MELTING);
        (at(peak), at(trough))
    }

    /// Rises at the end of the time on and of the time off: θp = (a1 g1 + a2 g2 e1) / (1 - e1 e2), where each part
    /// warms by θ' = a + b θ, e = exp(b t) and g = (e - 1) / b.
    fn swing(&self, pulsed: Pulsed, current: Amps) -> (f64, f64) {
        let (on, off) = (pulsed.cycle.on.get().max(1e-6), pulsed.cycle.off.get().max(0.0));
        let ((a1, b1), (a2, b2)) = (self.rates(current), self.rates(pulsed.rest));
        let (e1, e2) = ((b1 * on).min(50.0).exp(), (b2 * off).min(50.0).exp());
        let kept = e1 * e2;
        // A cycle that keeps all its heat has no steady peak.
        if kept >= 1.0 {
            return (f64::INFINITY, f64::INFINITY);
        }
        let cooled = a2 * grow(b2, off);
        let peak = (a1 * grow(b1, on) + cooled * e1) / (1.0 - kept);
        (peak, peak * e2 + cooled)
    }

    /// How long a current may flow from `start` until the conductor is at `hottest`; `None` where it never gets there.
    pub fn lasts(&self, start: Celsius, current: Amps, hottest: Celsius) -> Option<Seconds> {
        let (from, to) = ((start - self.air).get(), (hottest - self.air).get());
        if from >= to {
            return Some(Seconds::ZERO);
        }
        let (a, b) = self.rates(current);
        if b.abs() < 1e-12 {
            return (a > 0.0).then(|| Seconds::new((to - from) / a));
        }
        let (end, begin) = (to + a / b, from + a / b);
        let time = (end / begin).ln() / b;
        (time.is_finite() && time > 0.0).then(|| Seconds::new(time))
    }

    /// How a current warms it: θ' = a + b θ, θ above the air.
    fn rates(&self, current: Amps) -> (f64, f64) {
        let square = current.get() * current.get();
        let at_air = self.resistance * warm_factor(self.air);
        let per_k = self.resistance / (REFERENCE - INFERRED_ZERO).get();
        (square * at_air / self.store, (square * per_k - 1.0 / self.to_air) / self.store)
    }

    /// Largest current whose rise stays within `span`.
    fn largest(&self, span: f64, rise: impl Fn(Amps) -> f64) -> Amps {
        if span.is_nan() || span <= 0.0 {
            return Amps::ZERO;
        }
        let fits = |current: f64| rise(Amps::new(current)) <= span;
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_comes_and_goes_heats_by_its_mean_square() {
        let pulsed = |on, rest| Pulsed {
            cycle: Intermittent { on: Seconds::new(on), off: Seconds::new(300.0) },
            rest: Amps::new(rest),
        };
        // 100 A for a sixth of the time heat like 100 / √6 = 40.8 A.
        assert!((pulsed(60.0, 0.0).heating(Amps::new(100.0)).get() - 100.0 / 6f64.sqrt()).abs() < 1e-9);
        assert!((pulsed(60.0, 100.0).heating(Amps::new(100.0)).get() - 100.0).abs() < 1e-9);
        // On for longer than a minute it counts as lasting.
        assert_eq!(pulsed(61.0, 0.0).heating(Amps::new(100.0)), Amps::new(100.0));
    }
}
