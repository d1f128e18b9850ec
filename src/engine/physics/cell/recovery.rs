//! How fast a battery takes its charge back.
//!
//! Constant current until the battery takes less than is offered, then the
//! falling current of constant voltage. What it takes is a straight line over
//! its charge: 0.2 C at the chemistry's `bulk_to`, the tail current when full.
//! Charge put in per charge stored is the chemistry's 1/coulombic, for
//! lead-acid not less than the overcharge factor. Left out: warming, and
//! sulphated plates that take less.

use crate::catalogue::{Catalogue, Chemical, Chemistry};
use crate::quantity::*;

/// The current, in multiples of the capacity, at which `bulk_to` is stated.
const KNEE_C: f64 = 0.2;

/// Charge put in per charge stored.
pub fn put_back_factor(catalogue: &Catalogue, chemistry: &Chemistry) -> f64 {
    let by_efficiency = 1.0 / chemistry.charge.coulombic.get().clamp(0.1, 1.0);
    match chemistry.chemical {
        Chemical::LeadAcid => by_efficiency.max(catalogue.rules.overcharge.value),
        _ => by_efficiency,
    }
}

/// Slope of the falling part: acceptance in C per share of charge that is missing.
fn slope(chemistry: &Chemistry) -> f64 {
    let beyond = (1.0 - chemistry.charge.bulk_to.get()).clamp(0.01, 1.0);
    (KNEE_C - tail(chemistry)).max(0.01) / beyond
}

fn tail(chemistry: &Chemistry) -> f64 {
    chemistry.charge.tail_c.max(0.001)
}

/// The most current it takes at a state of charge, at its charge voltage.
pub fn acceptance(chemistry: &Chemistry, capacity: AmpHours, charge: Share) -> Amps {
    let missing = (1.0 - charge.get()).clamp(0.0, 1.0);
    let c = (tail(chemistry) + slope(chemistry) * missing).min(chemistry.charge.max_c.max(tail(chemistry)));
    Amps::new(c * capacity.get())
}

/// State of charge where constant current ends.
fn knee(chemistry: &Chemistry, c: f64) -> f64 {
    (1.0 - (c - tail(chemistry)) / slope(chemistry)).clamp(0.0, 1.0)
}

/// Hours from one state of charge to another with `current` offered to the
/// battery after its loads; `None` when nothing is left for it.
pub fn hours_to(
    catalogue: &Catalogue,
    chemistry: &Chemistry,
    capacity: AmpHours,
    current: Amps,
    from: Share,
    to: Share,
) -> Option<Hours> {
    if to.get() <= from.get() {
        return Some(Hours::ZERO);
    }
    if current.get() <= 0.0 || capacity.get() <= 0.0 {
        return None;
    }
    let factor = put_back_factor(catalogue, chemistry);
    let c = (current.get() / capacity.get()).min(chemistry.charge.max_c.max(tail(chemistry)));
    let knee = knee(chemistry, c);
    let steady = (to.get().min(knee) - from.get()).max(0.0) * factor / c;
    let begin = from.get().max(knee);
    let falling = if to.get() > begin {
        let taken = |s: f64| tail(chemistry) + slope(chemistry) * (1.0 - s);
        factor / slope(chemistry) * (taken(begin) / taken(to.get())).ln()
    } else {
        0.0
    };
    Some(Hours::new(steady + falling))
}

/// State of charge after `hours` with `current` offered; the inverse of [`hours_to`], at most full.
pub fn charge_after(
    catalogue: &Catalogue,
    chemistry: &Chemistry,
    capacity: AmpHours,
    current: Amps,
    from: Share,
    hours: Hours,
) -> Share {
    if current.get() <= 0.0 || capacity.get() <= 0.0 || hours.get() <= 0.0 {
        return from;
    }
    let factor = put_back_factor(catalogue, chemistry);
    let c = (current.get() / capacity.get()).min(chemistry.charge.max_c.max(tail(chemistry)));
    let knee = knee(chemistry, c);
    let steady_time = (knee - from.get()).max(0.0) * factor / c;
    if hours.get() <= steady_time {
        return Share::new(from.get() + hours.get() * c / factor);
    }
    let begin = from.get().max(knee);
    let taken = tail(chemistry) + slope(chemistry) * (1.0 - begin);
    let later = taken * (-(hours.get() - steady_time) * slope(chemistry) / factor).exp();
    Share::new((1.0 - (later - tail(chemistry)) / slope(chemistry)).min(1.0).max(begin))
}

/// One moment of a charge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RechargePoint {
    /// Since it began.
    pub at: Hours,
    /// State of charge by then.
    pub charge: Share,
    /// What the battery takes then.
    pub current: Amps,
}

/// A charge with some current offered to the battery.
#[derive(Clone, Copy, Debug)]
pub struct Recharge<'a> {
    /// For the overcharge factor.
    pub catalogue: &'a Catalogue,
    /// Of the battery.
    pub chemistry: &'a Chemistry,
    /// Of the battery.
    pub capacity: AmpHours,
    /// What is offered to it.
    pub current: Amps,
    /// State of charge at the beginning.
    pub from: Share,
}

impl Recharge<'_> {
    /// How it goes, in 61 points over `hours`.
    pub fn curve(&self, hours: Hours) -> Vec<RechargePoint> {
        let &Recharge { catalogue, chemistry, capacity, current, from } = self;
        let point = |n: u32| {
            let at = hours * (f64::from(n) / 60.0);
            let charge = charge_after(catalogue, chemistry, capacity, current, from, at);
            RechargePoint { at, charge, current: current.max(Amps::ZERO).min(acceptance(chemistry, capacity, charge)) }
        };
        (0..=60).map(point).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// US Army TM 5-4210-230-14&P-1: charge = rate x hours. *Lessons in Electric
    /// Circuits*, DC, "Battery ratings": 70 Ah at 7 A is 10 h from empty, ideal.
    #[test]
    fn time_and_charge_are_inverse_and_never_faster_than_ideal() {
        let catalogue = Catalogue::embedded().unwrap();
        for chemistry in &catalogue.chemistries {
            let capacity = AmpHours::new(70.0);
            for amps in [0.5, 3.5, 7.0, 20.0, 200.0] {
                for to in [0.5, 0.8, 0.9, 1.0] {
                    let (amps, from, to) = (Amps::new(amps), Share::new(0.3), Share::new(to));
                    let hours = hours_to(&catalogue, chemistry, capacity, amps, from, to).unwrap();
                    let ideal = capacity * (to - from).get() / amps;
                    assert!(hours.get() >= ideal.get() - 1e-9, "{}: {hours} under {ideal}", chemistry.key);
                    let back = charge_after(&catalogue, chemistry, capacity, amps, from, hours);
                    assert!((back - to).get().abs() < 1e-6, "{}: {back} instead of {to}", chemistry.key);
                    let recharge = Recharge { catalogue: &catalogue, chemistry, capacity, current: amps, from };
                    let curve = recharge.curve(hours);
                    let end = curve.last().unwrap();
                    assert!((end.charge - to).get().abs() < 1e-6, "{}: {end:?}", chemistry.key);
                    // What flowed, put in per charge stored, is what was stored: trapezia over the curve.
                    let step = hours.get() / 60.0;
                    let flowed: f64 =
                        curve.windows(2).map(|p| (p[0].current.get() + p[1].current.get()) / 2.0 * step).sum();
                    let stored = flowed / put_back_factor(&catalogue, chemistry) / capacity.get();
                    assert!((stored / (to - from).get() - 1.0).abs() < 0.02, "{}: {stored}", chemistry.key);
                }
            }
        }
    }
}
