//! The draw of one usual day, without words: numbers only, so that every
//! chemistry can be asked at its own mean voltage.

use crate::engine::installation::Installation;
use crate::engine::installation::charger::standing_current;
use crate::engine::installation::climate::{hot_air, summer_air};
use crate::engine::installation::load::Load;
use crate::engine::installation::minutes::{Minutes, driving_minutes};
use crate::engine::simulate::budget::LoadBudget;
use crate::plan::Surroundings;
use crate::quantity::*;

/// A usual day of a plan at a mean battery voltage.
#[derive(Clone, Debug)]
pub struct DayDraw {
    /// Each load.
    pub loads: Vec<LoadDay>,
    /// Minutes with the engine running on a driving day.
    pub driving_minutes: Minutes,
    /// See [`super::Budget`] for these.
    pub standing: AmpHours,
    #[allow(missing_docs)]
    pub inverter_idle: AmpHours,
    #[allow(missing_docs)]
    pub charge: AmpHours,
    #[allow(missing_docs)]
    pub by_night: AmpHours,
    #[allow(missing_docs)]
    pub driving: AmpHours,
    #[allow(missing_docs)]
    pub standing_day: AmpHours,
    #[allow(missing_docs)]
    pub summer_day: AmpHours,
    #[allow(missing_docs)]
    pub hot_day: AmpHours,
    #[allow(missing_docs)]
    pub usual: Amps,
    #[allow(missing_docs)]
    pub at_rate: Amps,
}

/// A usual day of one load, all its items together.
#[derive(Clone, Copy, Debug)]
pub struct LoadDay {
    /// Share of its hours that it draws at the mean air.
    pub share: Share,
    /// The same at the mean air of the warmest month, and of the hottest day.
    pub share_summer: Share,
    #[allow(missing_docs)]
    pub share_hot: Share,
    /// Of all items at the battery's mean voltage.
    pub at_battery: Amps,
    /// Charge a day.
    pub charge: AmpHours,
    /// Of it by night and while driving, as shares.
    pub night_share: f64,
    #[allow(missing_docs)]
    pub driving_share: f64,
}

impl LoadDay {
    pub(crate) fn budget(&self, load: &Load, mean: Volts) -> LoadBudget {
        let (by_night, driving) = (self.charge * self.night_share, self.charge * self.driving_share);
        LoadBudget {
            hours: load.hours,
            share: self.share,
            running: load.running(),
            starting: load.running() + load.start_current(),
            charge: self.charge,
            energy: self.charge * mean,
            by_day: self.charge - by_night,
            by_night,
            driving,
            parked: self.charge - driving,
        }
    }
}

/// The draw of a usual day when the battery's mean voltage is `mean`.
pub fn day_draw(site: &Installation, mean: Volts) -> DayDraw {
    let driving = driving_minutes(&site.vehicle);
    let loads: Vec<LoadDay> = site.loads.iter().map(|l| load_day(&site.surroundings, l, driving, mean)).collect();
    let night = Minutes::NIGHT;
    let driving_share = f64::from(driving.count()) / 1440.0;
    let standing = standing_current(site) * Hours::new(24.0);
    let idle = inverter_idle(site) / mean;
    let steady = standing + idle;
    let charge = loads.iter().map(|l| l.charge).sum::<AmpHours>() + steady;
    // A day without driving on which every thermostat stands at another share.
    let standing_at = |share: fn(&LoadDay) -> Share| {
        let parked = site.loads.iter().zip(&loads).filter(|(load, _)| !load.only_driving());
        parked.map(|(load, l)| l.at_battery * load.hours * share(l).get()).sum::<AmpHours>() + steady
    };
    let only_driving = only_driving(site, &loads);
    let mean_in = |time: Minutes| {
        let within = site.loads.iter().zip(&loads).map(|(load, l)| l.charge * load.allowed.share_in(&time));
        let charge: AmpHours = within.sum();
        let hours = Hours::new(f64::from(time.count()) / 60.0);
        if hours.get() > 0.0 { charge / hours } else { Amps::ZERO }
    };
    let parked = driving.rest();
    let usual = mean_in(night.and(parked)).max(mean_in(Minutes::DAY.and(parked))) + steady / Hours::new(24.0);
    DayDraw {
        driving_minutes: driving,
        standing,
        inverter_idle: idle,
        charge,
        by_night: loads.iter().map(|l| l.charge * l.night_share).sum::<AmpHours>() + steady * 0.5,
        driving: loads.iter().map(|l| l.charge * l.driving_share).sum::<AmpHours>() + steady * driving_share,
        standing_day: charge - only_driving,
        summer_day: standing_at(|l| l.share_summer),
        hot_day: standing_at(|l| l.share_hot),
        usual,
        at_rate: at_rate(site, &loads, charge),
        loads,
    }
}

/// Charge of the loads that run only with the engine.
pub(crate) fn only_driving(site: &Installation, loads: &[LoadDay]) -> AmpHours {
    site.loads.iter().zip(loads).filter(|(load, _)| load.only_driving()).map(|(_, l)| l.charge).sum()
}

fn load_day(air: &Surroundings, load: &Load, driving: Minutes, mean: Volts) -> LoadDay {
    let at_battery = load.law.current(mean);
    let share = |air| load.thermostat.share(air).value;
    LoadDay {
        share: share(air.mean),
        share_summer: share(summer_air(air)),
        share_hot: share(hot_air(air)),
        at_battery,
        charge: at_battery * load.hours * share(air.mean).get(),
        night_share: load.allowed.share_in(&Minutes::NIGHT),
        driving_share: load.allowed.share_in(&driving),
    }
}

/// Energy a day that the inverter takes with nothing plugged in. It is on for
/// its own hours, or as long as the longest AC load if that is longer.
fn inverter_idle(site: &Installation) -> WattHours {
    if site.inverter.rating.get() <= 0.0 {
        return WattHours::ZERO;
    }
    site.inverter.idle_draw * inverter_hours(site)
}

/// Hours a day that the inverter is on.
pub fn inverter_hours(site: &Installation) -> Hours {
    let ac = site.loads.iter().filter(|l| l.inverter && l.count > 0);
    ac.map(|l| l.hours).fold(site.inverter.hours_a_day, Hours::max).min(Hours::new(24.0))
}

/// The current at which the average ampere-hour is drawn, when loads go on and
/// off independently: mean of I² over mean of I
/// = mean current + Σ p (1 - p) I² / Σ p I, with p each load's share of the day.
fn at_rate(site: &Installation, loads: &[LoadDay], charge: AmpHours) -> Amps {
    let mean = (charge / Hours::new(24.0)).get();
    if mean <= 0.0 {
        return Amps::ZERO;
    }
    let spread: f64 = site
        .loads
        .iter()
        .zip(loads)
        .map(|(load, l)| {
            let on = (load.hours.get() * l.share.get() / 24.0).clamp(0.0, 1.0);
            on * (1.0 - on) * l.at_battery.get() * l.at_battery.get()
        })
        .sum();
    Amps::new(mean + spread / mean)
}

/// Mean current of the loads while driving.
pub fn driving_load(day: &DayDraw) -> Amps {
    let hours = Hours::new(f64::from(day.driving_minutes.count()) / 60.0);
    if hours.get() > 0.0 { day.driving / hours } else { Amps::ZERO }
}
