//! What sun and mains add.

use crate::catalogue::{Catalogue, Chemistry, Rule};
use crate::engine::choose::battery::planned_depth;
use crate::engine::physics::cell::recovery::put_back_factor;
use crate::engine::physics::sun::usual_sun_hours;
use crate::plan::{Plan, SolarController};
use crate::quantity::*;

/// Peak-sun hours of a usual day: the plan's, or the year's mean at its latitude under usual clouds.
pub fn sun_hours(plan: &Plan) -> SunHours {
    match plan.solar.sun_hours {
        Some(hours) => hours,
        None if plan.solar.array.get() > 0.0 => usual_sun_hours(plan.surroundings.latitude),
        None => SunHours::ZERO,
    }
}

/// Share of the array's rated power that reaches the battery: the plan's or the catalogue's.
pub fn solar_derating(plan: &Plan, catalogue: &Catalogue) -> Share {
    plan.solar.derating.unwrap_or(usual_derating(plan, catalogue).value)
}

/// The catalogue's share for the plan's kind of controller.
pub fn usual_derating<'a>(plan: &Plan, catalogue: &'a Catalogue) -> &'a Rule<Share> {
    match plan.solar.controller {
        SolarController::Mppt => &catalogue.rules.solar_mppt,
        SolarController::Shunt => &catalogue.rules.solar_shunt,
    }
}

/// Current at full sun: MPPT by power over the charge voltage; a shunt
/// controller passes no more than the array's own current.
pub fn solar_current(plan: &Plan, catalogue: &Catalogue, chemistry: &Chemistry) -> Amps {
    let power = plan.solar.array * solar_derating(plan, catalogue).get();
    let converted = power / chemistry.charge.absorption.max(Volts::new(1.0));
    match plan.solar.controller {
        SolarController::Mppt => converted,
        SolarController::Shunt => converted.min(plan.solar.array / plan.solar.array_voltage.max(Volts::new(1.0))),
    }
}

/// Charge from the sun on a usual day.
pub fn solar_a_day(plan: &Plan, catalogue: &Catalogue, chemistry: &Chemistry) -> AmpHours {
    solar_current(plan, catalogue, chemistry) * Hours::new(sun_hours(plan).get())
}

/// Whether the mains charger is ever plugged in.
pub fn has_mains(plan: &Plan) -> bool {
    plan.mains.current.get() > 0.0 && !plan.mains.windows.is_empty() && plan.mains.weekdays.count() > 0
}

/// Charge stored from the mains on a day with it, at most the planned depth.
pub(crate) fn mains_a_day(plan: &Plan, catalogue: &Catalogue, chemistry: &Chemistry, capacity: AmpHours) -> AmpHours {
    if !has_mains(plan) {
        return AmpHours::ZERO;
    }
    let stored = plan.mains.current * mains_hours(plan) / put_back_factor(catalogue, chemistry);
    stored.min(capacity * planned_depth(plan, chemistry).get())
}

/// Hours plugged in on a day with mains.
pub(crate) fn mains_hours(plan: &Plan) -> Hours {
    Hours::new(f64::from(plan.mains.windows.minutes()) / 60.0)
}
