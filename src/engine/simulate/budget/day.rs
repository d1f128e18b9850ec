//! The draw of one usual day, without words: numbers only, so that every
//! chemistry can be asked at its own mean voltage.

use crate::engine::installation::Installation;
use crate::engine::installation::charger::standing_current;
use crate::engine::installation::climate::{hot_air, summer_air};
use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::minutes::{Minutes, driving_minutes};
use crate::engine::simulate::budget::LoadBudget;
use crate::plan::{Load, LoadKind, When};
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
    /// When it may run.
    pub allowed: Minutes,
    /// Whether it runs only with the engine.
    pub only_driving: bool,
    /// Hours switched on.
    pub hours: Hours,
    /// Share of them that it draws at the mean air.
    pub share: Share,
    /// The same at the mean air of the warmest month, and of the hottest day.
    pub share_summer: Share,
    #[allow(missing_docs)]
    pub share_hot: Share,
    /// Of one item at 12 V, through the inverter if AC.
    pub one: Amps,
    /// Number of items.
    pub count: f64,
    /// Of all items at the battery's mean voltage.
    pub at_battery: Amps,
    /// Highest while one item starts.
    pub starting: Amps,
    /// Charge a day.
    pub charge: AmpHours,
    /// Of it by night and while driving, as shares.
    pub night_share: f64,
    #[allow(missing_docs)]
    pub driving_share: f64,
}

impl LoadDay {
    pub(crate) fn budget(&self, mean: Volts) -> LoadBudget {
        let (by_night, driving) = (self.charge * self.night_share, self.charge * self.driving_share);
        LoadBudget {
            hours: self.hours,
            share: self.share,
            running: self.one * self.count,
            starting: self.starting,
            charge: self.charge,
            energy: self.charge * mean,
            by_day: self.charge - by_night,
            by_night,
            driving,
            parked: self.charge - driving,
        }
    }
}

/// Power that one item takes from the 12 V side at 12 V. Where power and
/// current are both given the larger counts. Through the inverter: over its efficiency.
pub fn power_of_one(site: &Installation, load: &Load) -> Watts {
    let by_power = load.power.unwrap_or(Watts::ZERO);
    let by_current = NOMINAL * load.current.unwrap_or(Amps::ZERO);
    let power = by_power.max(by_current);
    if load.inverter { power / site.inverter.efficiency.get().max(0.01) } else { power }
}

/// Share of the on-time at an air temperature: share at 25 °C + share per K x (T - 25), within 0 and 1.
pub fn share_at(load: &Load, air: Celsius) -> Share {
    let moved = load.duty.share_on.get() + load.duty.share_per_k * (air.get() - 25.0);
    Share::new(moved.clamp(0.0, 1.0))
}

/// The draw of a usual day when the battery's mean voltage is `mean`.
pub fn day_draw(site: &Installation, mean: Volts) -> DayDraw {
    let driving = driving_minutes(&site.vehicle);
    let loads: Vec<LoadDay> = site.loads.iter().map(|l| load_day(site, l, driving, mean)).collect();
    let night = Minutes::NIGHT;
    let driving_share = f64::from(driving.count()) / 1440.0;
    let standing = standing_current(site) * Hours::new(24.0);
    let idle = inverter_idle(site) / mean;
    let steady = standing + idle;
    let charge = loads.iter().map(|l| l.charge).sum::<AmpHours>() + steady;
    // A day without driving on which every thermostat stands at another share.
    let standing_at = |share: fn(&LoadDay) -> Share| {
        let parked = loads.iter().filter(|l| !l.only_driving);
        parked.map(|l| l.at_battery * l.hours * share(l).get()).sum::<AmpHours>() + steady
    };
    let only_driving: AmpHours = loads.iter().filter(|l| l.only_driving).map(|l| l.charge).sum();
    let mean_in = |time: Minutes| {
        let charge: AmpHours = loads.iter().map(|l| l.charge * l.allowed.share_in(&time)).sum();
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
        at_rate: at_rate(&loads, charge),
        loads,
    }
}

fn load_day(site: &Installation, load: &Load, driving: Minutes, mean: Volts) -> LoadDay {
    let allowed = Minutes::allowed(&load.duty.windows, load.duty.when, driving);
    let most = Hours::new(f64::from(allowed.count()) / 60.0);
    // Longer than its times allow is kept as it was said, with a finding: a battery is not sized by the smaller.
    let hours = if allowed.count() == 0 { Hours::ZERO } else { load.duty.hours_a_day.unwrap_or(most) };
    let count = f64::from(load.count);
    let one_power = power_of_one(site, load);
    let one = one_power / NOMINAL;
    let kind = if load.inverter { LoadKind::ConstantPower } else { load.kind };
    let at_battery = count
        * match kind {
            LoadKind::ConstantPower => one_power / mean,
            LoadKind::ConstantCurrent => one,
            LoadKind::Resistance => one * (mean / NOMINAL),
        };
    let share = share_at(load, site.surroundings.mean);
    let surge = if load.count > 0 { one * (load.start.times - 1.0).max(0.0) } else { Amps::ZERO };
    LoadDay {
        allowed,
        only_driving: load.duty.when == When::Driving,
        hours,
        share,
        share_summer: share_at(load, summer_air(&site.surroundings)),
        share_hot: share_at(load, hot_air(&site.surroundings)),
        one,
        count,
        at_battery,
        starting: one * count + surge,
        charge: at_battery * hours * share.get(),
        night_share: allowed.share_in(&Minutes::NIGHT),
        driving_share: allowed.share_in(&driving),
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
    let driving = driving_minutes(&site.vehicle);
    let ac = site.loads.iter().filter(|l| l.inverter && l.count > 0);
    let hours = ac.map(|l| {
        let allowed = Minutes::allowed(&l.duty.windows, l.duty.when, driving);
        let most = Hours::new(f64::from(allowed.count()) / 60.0);
        if allowed.count() == 0 { Hours::ZERO } else { l.duty.hours_a_day.unwrap_or(most) }
    });
    hours.fold(site.inverter.hours_a_day, Hours::max).min(Hours::new(24.0))
}

/// The current at which the average ampere-hour is drawn, when loads go on and
/// off independently: mean of I² over mean of I
/// = mean current + Σ p (1 - p) I² / Σ p I, with p each load's share of the day.
fn at_rate(loads: &[LoadDay], charge: AmpHours) -> Amps {
    let mean = (charge / Hours::new(24.0)).get();
    if mean <= 0.0 {
        return Amps::ZERO;
    }
    let spread: f64 = loads
        .iter()
        .map(|l| {
            let on = (l.hours.get() * l.share.get() / 24.0).clamp(0.0, 1.0);
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
