//! What sun and mains add.

use crate::catalogue::{Chemistry, Rule};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::physics::cell::recovery::put_back_factor;
use crate::engine::physics::sun::usual_sun_hours;
use crate::plan::SolarController;
use crate::quantity::*;

/// Peak-sun hours of a usual day: the plan's, or the year's mean at its latitude under usual clouds.
pub fn sun_hours(site: &Installation) -> SunHours {
    match site.solar.sun_hours {
        Some(hours) => hours,
        None if site.solar.array.get() > 0.0 => usual_sun_hours(site.surroundings.latitude),
        None => SunHours::ZERO,
    }
}

/// Share of the array's rated power that reaches the battery: the plan's or the catalogue's.
pub fn solar_derating(site: &Installation) -> Share {
    site.solar.derating.unwrap_or(usual_derating(site).value)
}

/// The catalogue's share for the plan's kind of controller.
pub fn usual_derating(site: &Installation) -> &Rule<Share> {
    match site.solar.controller {
        SolarController::Mppt => &site.catalogue.rules.solar_mppt,
        SolarController::Shunt => &site.catalogue.rules.solar_shunt,
    }
}

/// Current at full sun: MPPT by power over the charge voltage; a shunt
/// controller passes no more than the array's own current.
pub fn solar_current(site: &Installation, chemistry: &Chemistry) -> Amps {
    let power = site.solar.array * solar_derating(site).get();
    let converted = power / chemistry.charge.absorption.max(Volts::new(1.0));
    match site.solar.controller {
        SolarController::Mppt => converted,
        SolarController::Shunt => converted.min(site.solar.array / site.solar.array_voltage.max(Volts::new(1.0))),
    }
}

/// Charge from the sun on a usual day.
pub fn solar_a_day(site: &Installation, chemistry: &Chemistry) -> AmpHours {
    solar_current(site, chemistry) * Hours::new(sun_hours(site).get())
}

/// Whether the mains charger is ever plugged in.
pub fn has_mains(site: &Installation) -> bool {
    site.mains.current.get() > 0.0 && !site.mains.windows.is_empty() && site.mains.weekdays.count() > 0
}

/// Charge stored from the mains on a day with it, at most the planned depth.
pub(crate) fn mains_a_day(site: &Installation, chemistry: &Chemistry, capacity: AmpHours) -> AmpHours {
    if !has_mains(site) {
        return AmpHours::ZERO;
    }
    let stored = site.mains.current * mains_hours(site) / put_back_factor(&site.catalogue, chemistry);
    stored.min(capacity * planned_depth(site, chemistry).get())
}

/// Hours plugged in on a day with mains.
pub(crate) fn mains_hours(site: &Installation) -> Hours {
    Hours::new(f64::from(site.mains.windows.minutes()) / 60.0)
}
