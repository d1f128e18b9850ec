//! The formulas of battery sizing, each alone, as the handbooks print them.

use crate::quantity::*;

/// Ideal discharge time: t = C / I. `None` when nothing flows.
pub fn ideal_time(capacity: AmpHours, current: Amps) -> Option<Hours> {
    (current.get() > 0.0).then(|| capacity / current)
}

/// Discharge time by Peukert's law from a rated pair: t = H (C / (I H))^k.
///
/// `rated` is the capacity that lasts `hours`; `exponent` at least 1. It holds
/// near the rates that the exponent was fitted to: at slower ones it promises
/// more than there is. `None` when nothing flows.
pub fn peukert_time(rated: AmpHours, hours: Hours, exponent: f64, current: Amps) -> Option<Hours> {
    let ratio = rated.get() / (current.get() * hours.get());
    (current.get() > 0.0 && hours.get() > 0.0).then(|| hours * ratio.powf(exponent))
}

/// Discharge time by Peukert's law in its old form, t = C1 / I^k, where C1 is
/// the capacity at 1 A and no rating. Kept apart: fed with a rating it is wrong.
pub fn peukert_time_one_amp(capacity_at_one_amp: AmpHours, exponent: f64, current: Amps) -> Option<Hours> {
    (current.get() > 0.0).then(|| Hours::new(capacity_at_one_amp.get() / current.get().powf(exponent)))
}

/// Charge delivered at a current by Peukert's law, and no more than the rating
/// at slower rates than the rated one.
pub fn delivered(rated: AmpHours, hours: Hours, exponent: f64, current: Amps) -> AmpHours {
    match peukert_time(rated, hours, exponent, current) {
        Some(time) => (current * time).min(rated),
        None => rated,
    }
}

/// Peukert's exponent from two discharges: k = ln(t1 / t2) / ln(I2 / I1).
/// `None` when the two are at the same current or not positive.
pub fn peukert_exponent(first: (Amps, Hours), second: (Amps, Hours)) -> Option<f64> {
    let (currents, times) = (second.0 / first.0, first.1 / second.1);
    let exponent = times.ln() / currents.ln();
    exponent.is_finite().then_some(exponent)
}

/// Capacity needed for charge over days: C = Q x days / (depth x cold x end of life) x margin.
///
/// `cold` is the share of the capacity left at the coldest (1/k of IEEE 485),
/// `end_of_life` the share left when it is replaced (1/1.25 in IEEE 485).
/// Shares under 1 % are taken as 1 %.
pub fn capacity_needed(
    charge_a_day: AmpHours,
    days: Days,
    depth: Share,
    cold: Share,
    end_of_life: Share,
    margin: f64,
) -> AmpHours {
    let least = Share::new(0.01);
    charge_a_day * days.get() / (depth.max(least).get() * cold.max(least).get() * end_of_life.max(least).get()) * margin
}

/// Capacity that still gives `needed` at a current above the rated one:
/// C^k = needed (H I)^(k - 1), from Peukert's law turned round; never less than `needed`.
pub fn capacity_for_rate(needed: AmpHours, hours: Hours, exponent: f64, current: Amps) -> AmpHours {
    if needed.get() <= 0.0 || current.get() <= 0.0 || exponent <= 0.0 {
        return needed;
    }
    let power = needed.get() * (hours.get() * current.get()).powf(exponent - 1.0);
    AmpHours::new(power.powf(1.0 / exponent)).max(needed)
}

/// Depth reached: Q x days / (C x cold x end of life); over 1 when it runs empty before. 1 for no capacity.
pub fn depth_reached(charge_a_day: AmpHours, days: Days, capacity: AmpHours, cold: Share, end_of_life: Share) -> Share {
    let left = capacity * cold.get() * end_of_life.get();
    if left.get() > 0.0 { Share::new(charge_a_day * days.get() / left) } else { Share::FULL }
}

/// Charge to put back: taken out x factor (1.1 to 1.2 for lead-acid).
pub fn put_back(taken: AmpHours, factor: f64) -> AmpHours {
    taken * factor
}

/// Specific gravity at 80 °F from a reading: 0.004 for each 10 °F above or below.
/// Source: US Army TM 5-3820-256-24-4.
pub fn gravity_at_80f(reading: f64, at: Celsius) -> f64 {
    let fahrenheit = at.get() * 1.8 + 32.0;
    reading + 0.004 * (fahrenheit - 80.0) / 10.0
}

/// Current and voltage of a source with inner resistance: I = V / (R + Ri). `None` when both are zero.
pub fn loop_current(open: Volts, inner: Ohms, outer: Ohms) -> Option<Amps> {
    let all = inner + outer;
    (all.get() > 0.0).then(|| open / all)
}

/// Charge voltage at a temperature: V25 + coefficient x (T - 25), the coefficient per kelvin for the whole block.
pub fn compensated(at_25: Volts, volts_per_kelvin: f64, at: Celsius) -> Volts {
    at_25 + Volts::new(volts_per_kelvin * (at.get() - 25.0))
}

/// One-way share of a round trip: its square root.
pub fn one_way(round_trip: Share) -> Share {
    Share::new(round_trip.get().max(0.0).sqrt())
}
