//! The formulas of battery sizing, each alone, as the handbooks print them.

use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

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
) -> Reckoned<AmpHours, 6> {
    let least = Share::new(0.01);
    reckon!(AmpHours: Q * t / (d * c * e) * m,
        Q: "charge of a day without driving" = charge_a_day,
        t: "days without charge" = days,
        d: "depth of discharge" = depth.max(least),
        c: "share left in that air" = cold.max(least),
        e: "share left at end of life" = end_of_life.max(least),
        m: "design margin" = Figure::new(margin, Unit::Times))
}

/// Capacity that still gives `needed` at a current above the rated one, by
/// Peukert's law turned round; never less than `needed`.
pub fn capacity_for_rate(needed: AmpHours, hours: Hours, exponent: f64, current: Amps) -> Reckoned<AmpHours, 4> {
    reckon!(AmpHours: max(C, power(C * power(H * I, k - 1.0), 1.0 / k)),
        C: "capacity for the days without charge" = needed,
        H: "rated hours" = hours,
        I: "current at which the average ampere-hour is drawn" = current,
        k: "Peukert's exponent" = Figure::number(exponent.max(1.0)))
}

/// Depth reached: Q x days / (C x cold x end of life); over 1 when it runs empty before. `None` for no capacity.
pub fn depth_reached(
    charge_a_day: AmpHours,
    days: Days,
    capacity: AmpHours,
    cold: Share,
    end_of_life: Share,
) -> Option<Reckoned<Share, 5>> {
    let reached = reckon!(Share: Q * t / (C * c * e),
        Q: "charge of a day without driving" = charge_a_day,
        t: "days without charge" = days,
        C: "capacity of the bank" = capacity,
        c: "share left at the coldest" = cold,
        e: "share left at end of life" = end_of_life);
    (capacity * cold.get() * end_of_life.get() > AmpHours::ZERO).then_some(reached)
}

/// Charge voltage at a temperature: V25 + coefficient x (T - 25), the coefficient per kelvin for the whole block.
pub fn compensated(at_25: Volts, volts_per_kelvin: f64, at: Celsius) -> Volts {
    at_25 + Volts::new(volts_per_kelvin * (at.get() - 25.0))
}
