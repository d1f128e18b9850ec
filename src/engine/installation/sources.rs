//! What sun and mains add.

use crate::catalogue::{Chemistry, Rule};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::cell::recovery::put_back_factor;
use crate::engine::physics::sun::{SunDay, middle_of};
use crate::plan::SolarController;
use crate::quantity::*;
use crate::reckon;

/// The sun of a day of the year on the array.
pub fn sun_of(site: &Installation, day_of_year: f64) -> SunDay {
    SunDay::new(day_of_year, site.surroundings.latitude).tilted(site.solar.tilt, site.solar.faces)
}

/// Peak-sun hours under usual clouds: of the darkest of the months it must do in, or the year's mean.
pub fn usual_sun_hours(site: &Installation) -> SunHours {
    let of = |month: usize| sun_of(site, middle_of(month)).usual_hours(96).get();
    match site.solar.months.filter(|months| !months.is_none()) {
        Some(months) => SunHours::new((0..12).filter(|m| months.contains(*m)).map(of).fold(f64::MAX, f64::min)),
        None => SunHours::new((0..12).map(of).sum::<f64>() / 12.0),
    }
}

/// Peak-sun hours of a usual day: the plan's, or those at its latitude under usual clouds.
pub fn sun_hours(site: &Installation) -> SunHours {
    match site.solar.sun_hours {
        Some(hours) => hours,
        None if site.solar.array.get() > 0.0 => usual_sun_hours(site),
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
pub fn solar_current(site: &Installation, chemistry: &Chemistry, notes: &mut Notes) -> Amps {
    let solar = &site.solar;
    let volts = chemistry.charge.absorption.max(Volts::new(1.0));
    let words = |working: Working| working.source(usual_derating(site).from.words());
    match solar.controller {
        SolarController::Mppt => {
            let converted = reckon!(Amps: W * s / V,
                W: "array" = solar.array,
                s: "share that reaches the battery" = solar_derating(site),
                V: "charge voltage" = volts);
            notes.reckon(&Subject::Solar, "current", converted, |r| words(r.working("current at full sun")))
        }
        SolarController::Shunt => {
            let passed = reckon!(Amps: min(W * s / V, W / A),
                W: "array" = solar.array,
                s: "share that reaches the battery" = solar_derating(site),
                V: "charge voltage" = volts,
                A: "array's voltage at maximum power" = solar.array_voltage.max(Volts::new(1.0)));
            notes.reckon(&Subject::Solar, "current", passed, |r| words(r.working("current at full sun")))
        }
    }
}

/// Whether the mains charger is ever plugged in.
pub fn has_mains(site: &Installation) -> bool {
    site.mains.current.get() > 0.0 && !site.mains.windows.is_empty() && !site.mains.weekdays.is_none()
}

/// Charge stored from the mains on a day with it, at most the planned depth.
pub(crate) fn mains_a_day(
    site: &Installation,
    chemistry: &Chemistry,
    capacity: AmpHours,
    notes: &mut Notes,
) -> AmpHours {
    if !has_mains(site) {
        return AmpHours::ZERO;
    }
    let stored = reckon!(AmpHours: min(I * h / f, C * d),
        I: "its current" = site.mains.current,
        h: "hours plugged in" = mains_hours(site),
        f: "charge put in per charge stored" = Figure::number(put_back_factor(&site.catalogue, chemistry)),
        C: "capacity of the bank" = capacity,
        d: "planned depth" = planned_depth(site, chemistry));
    notes.reckon(&Subject::Mains, "a day", stored, |r| {
        r.working("charge stored from the mains on a day with it")
            .source("charge = current x time, at most what the planned depth took")
    })
}

/// Hours plugged in on a day with mains.
pub(crate) fn mains_hours(site: &Installation) -> Hours {
    Hours::new(f64::from(site.mains.windows.minutes()) / 60.0)
}
