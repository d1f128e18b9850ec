//! How much energy and charge a day: per load and in all.
//!
//! A load's draw at the battery follows its kind: constant power divides by
//! the battery's mean voltage while it is discharged, constant current does
//! not care, a resistance takes more from a fuller battery. AC loads are
//! divided by the inverter's efficiency, and its idle draw is added for the
//! hours it is on. Left out: what is lost in the cables, which is under the
//! drop limits, and days that differ from each other; the endurance
//! simulation takes both the weekday and the weather into account.

pub mod day;
pub mod peak;
pub mod working;

use crate::engine::installation::Installation;
use crate::engine::installation::charger::standing_current;
use crate::engine::installation::load::NOMINAL;
use crate::engine::judge::load as checks;
use crate::engine::simulate::budget::day::day_draw;

use crate::engine::installation::battery::planned_depth;
use crate::engine::judge::book::Book;
use crate::engine::physics::cell::store::mean_voltage;
use crate::quantity::*;

/// The daily budget. Each field's working has the field's first words as name.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Budget {
    /// One for each load of the plan, in its order.
    pub loads: Vec<LoadBudget>,
    /// Mean resting voltage of the battery over the planned depth: what constant power is divided by.
    pub mean_voltage: Volts,
    /// Standing draws of charger and cut-off a day.
    pub standing: AmpHours,
    /// The inverter's idle draw a day.
    pub inverter_idle: AmpHours,
    /// All of it a day, standing draws included.
    pub charge: AmpHours,
    /// All of it a day.
    pub energy: WattHours,
    /// Charge by day (06:00 to 18:00).
    pub by_day: AmpHours,
    /// Charge by night.
    pub by_night: AmpHours,
    /// Charge while driving.
    pub driving: AmpHours,
    /// Charge while parked.
    pub parked: AmpHours,
    /// Charge of a day without driving: all but the loads that run only while driving.
    pub standing_day: AmpHours,
    /// The same at the mean air of the warmest month: thermostats are on for longer, or shorter.
    pub summer_day: AmpHours,
    /// The same on the hottest day.
    pub hot_day: AmpHours,
    /// Current of all that can be on together, at 12 V.
    pub peak: Amps,
    /// The worst start on top of the rest that can be on.
    pub surge: Amps,
    /// The load whose start is the worst.
    pub surge_load: Option<usize>,
    /// Mean current while parked, by night or by day, whichever is more: what usually flows when the cut-off acts.
    pub usual: Amps,
    /// Standing draws and the smallest steady load: the least that flows.
    pub light: Amps,
    /// Current at which the average ampere-hour leaves the battery; sets the rate effect.
    pub at_rate: Amps,
}

/// The budget of one load, all its items together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadBudget {
    /// Hours a day switched on.
    pub hours: Hours,
    /// Share of that time it draws, at the mean air.
    pub share: Share,
    /// Current at 12 V while it draws, taken from the 12 V side, through the inverter if AC.
    pub running: Amps,
    /// Highest current while one of its items starts and the others run; the running current if it has no surge.
    pub starting: Amps,
    /// Charge a day.
    pub charge: AmpHours,
    /// Energy a day, taken from the battery.
    pub energy: WattHours,
    /// Charge by day (06:00 to 18:00).
    pub by_day: AmpHours,
    /// Charge by night.
    pub by_night: AmpHours,
    /// Charge while driving.
    pub driving: AmpHours,
    /// Charge while parked.
    pub parked: AmpHours,
}

/// The daily budget of a plan.
pub fn budget(site: &Installation, book: &mut Book) -> Budget {
    let mean = match site.chemistry() {
        Some(c) => mean_voltage(c, planned_depth(site, c)),
        None => NOMINAL,
    };
    let day = day_draw(site, mean);
    let peak = peak::peak(site);
    let standing_current = standing_current(site);
    let light = day.loads.iter().filter(|l| l.at_battery.get() > 0.0 && l.charge.get() > 0.0);
    let light = light.map(|l| l.at_battery).reduce(Amps::min).unwrap_or(Amps::ZERO) + standing_current;
    let out = Budget {
        loads: site.loads.iter().zip(&day.loads).map(|(load, l)| l.budget(load, mean)).collect(),
        mean_voltage: mean,
        standing: day.standing,
        inverter_idle: day.inverter_idle,
        charge: day.charge,
        energy: day.charge * mean,
        by_day: day.charge - day.by_night,
        by_night: day.by_night,
        driving: day.driving,
        parked: day.charge - day.driving,
        standing_day: day.standing_day,
        summer_day: day.summer_day,
        hot_day: day.hot_day,
        peak: peak.steady,
        surge: peak.surge,
        surge_load: peak.surge_load,
        usual: day.usual,
        light,
        at_rate: day.at_rate,
    };
    working::record(site, &day, &peak, &out, book);
    checks::check(site, &day, book);
    out
}

/// Current of all that can be on together, and with the worst start on top, at 12 V.
pub fn peak_currents(site: &Installation) -> (Amps, Amps) {
    let peak = peak::peak(site);
    (peak.steady, peak.surge)
}
