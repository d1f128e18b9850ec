//! How much energy and charge a day: per load and in all.
//!
//! A load's draw at the battery follows its kind: constant power divides by
//! the battery's mean voltage while it is discharged, constant current does
//! not care, a resistance takes more from a fuller battery. AC loads are
//! divided by the inverter's efficiency, and its idle draw is added for the
//! hours it is on. Left out: what is lost in the cables, which is under the
//! drop limits, and days that differ from each other; the endurance
//! simulation takes both the weekday and the weather into account.

pub mod load;
pub mod peak;
pub mod sum;

use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::charger::standing_current;
use crate::engine::installation::climate::{cold_air, hot_air, summer_air};
use crate::engine::installation::load::{Load, NOMINAL};
use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::place::{air_there, heated_capacity, heater};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working, sum};
use crate::engine::physics::cell::store::mean_voltage;
use crate::engine::simulate::budget::load::{LoadBudget, SOURCE, load_budget};
use crate::engine::simulate::budget::peak::peak;
use crate::engine::simulate::budget::sum::over_loads;
use crate::quantity::*;
use crate::reckon;
use std::f64::consts::TAU;

const BUDGET: Subject = Subject::Budget;

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
    /// The battery's heater pad on the coldest days; zero where it has none.
    pub heater: AmpHours,
    /// The same on a usual day, as warm as the mean.
    pub heater_usual: AmpHours,
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
    /// Mean current while driving.
    pub driving_current: Amps,
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

/// The daily budget of a plan.
pub fn budget(site: &Installation, notes: &mut Notes) -> Budget {
    let mean = site.chemistry().map_or(NOMINAL, |c| mean_voltage(c, planned_depth(site, c)));
    notes.add(BUDGET, "mean voltage", || {
        Working::new("battery's mean resting voltage over the planned depth", "", mean)
            .source("area under the chemistry's resting curve over the depth; see the battery's working")
            .note("approximation: the sag by internal resistance, a few tenths of a volt at most, is left out")
    });
    budget_at(site, mean, notes)
}

/// The same when the battery's mean voltage is `mean`: every chemistry can be asked at its own.
pub fn budget_at(site: &Installation, mean: Volts, notes: &mut Notes) -> Budget {
    let at = |i: usize| mean * (site.loads[i].nominal / NOMINAL);
    let loads = (0..site.loads.len()).map(|i| load_budget(site, i, at(i), notes)).collect();
    let mut out = Budget { loads, mean_voltage: mean, ..Budget::default() };
    charges(site, &mut out, notes);
    parts(site, &mut out, notes);
    other_days(site, &mut out, notes);
    currents(site, &mut out, notes);
    out
}

/// Hours a day that the inverter is on: its own, or as long as the longest AC load if that is longer.
pub fn inverter_hours(site: &Installation) -> Hours {
    if site.inverter.rating <= Watts::ZERO {
        return Hours::ZERO;
    }
    let ac = site.loads.iter().filter(|l| l.inverter && l.count > 0);
    ac.map(|l| l.hours).fold(site.inverter.hours_a_day, Hours::max).min(Hours::new(24.0))
}

impl Budget {
    /// What does not depend on a load being on: standing draws, the inverter's idle draw, the battery's heater pad.
    fn steady(&self) -> AmpHours {
        self.standing + self.inverter_idle + self.heater_usual
    }

    /// Over the loads of the service battery.
    fn sum(&self, site: &Installation, part: impl Fn(&LoadBudget) -> AmpHours) -> AmpHours {
        self.of_service(site).map(|(_, load)| part(load)).sum()
    }

    /// The loads that the service battery feeds.
    fn of_service<'a>(&'a self, site: &'a Installation) -> impl Iterator<Item = (&'a Load, &'a LoadBudget)> {
        site.loads.iter().zip(&self.loads).filter(|(load, _)| !load.on_starter)
    }
}

fn charges(site: &Installation, out: &mut Budget, notes: &mut Notes) {
    let standing = standing_current(site);
    let day = Hours::new(24.0);
    let a_day = reckon!(AmpHours: I * h, I: "standing draws" = standing.value, h: "hours of a day" = day);
    notes.add(BUDGET, "standing current", || standing.working("standing draws").source("plan"));
    out.standing = notes.reckon(&BUDGET, "standing", a_day, |r| {
        r.working("standing draws a day").from("I", BUDGET, "standing current").source(SOURCE)
    });
    let idle = reckon!(AmpHours: P * h / V,
        P: "idle draw" = site.inverter.idle_draw,
        h: "hours a day on: its own, or the longest AC load's" = inverter_hours(site),
        V: "battery's mean voltage" = out.mean_voltage);
    out.inverter_idle = notes.reckon(&BUDGET, "inverter idle", idle, |r| {
        r.working("inverter's idle draw a day")
            .from("V", BUDGET, "mean voltage")
            .source("charge = power x time / voltage")
    });
    out.heater_usual = heater_usual(site, out.mean_voltage, notes);
    out.charge = out.sum(site, |l| l.charge) + out.steady();
    notes.add(BUDGET, "charge a day", || {
        let mut terms = over_loads(
            site,
            (0..site.loads.len()).filter(|i| !site.loads[*i].on_starter),
            |i| out.loads[i].charge.into(),
            "charge a day",
        );
        terms.push(("standing draws".into(), out.standing.into(), Some((BUDGET, "standing"))));
        terms.push(("inverter's idle draw".into(), out.inverter_idle.into(), Some((BUDGET, "inverter idle"))));
        if out.heater_usual > AmpHours::ZERO {
            terms.push(("battery's heater pad".into(), out.heater_usual.into(), Some((BUDGET, "usual heater"))));
        }
        sum("charge a day", out.charge, terms).source("sum over all loads")
    });
    let energy =
        reckon!(WattHours: Q * V, Q: "charge a day" = out.charge, V: "battery's mean voltage" = out.mean_voltage);
    out.energy = notes.reckon(&BUDGET, "energy a day", energy, |r| {
        r.working("energy a day")
            .from("Q", BUDGET, "charge a day")
            .from("V", BUDGET, "mean voltage")
            .source("energy = charge x voltage")
    });
}

/// The pad of a battery that is kept warm, over a day whose air swings about the year's mean.
fn heater_usual(site: &Installation, volts: Volts, notes: &mut Notes) -> AmpHours {
    if !site.service_battery.heated {
        return AmpHours::ZERO;
    }
    let (air, capacity) = (&site.surroundings, heated_capacity(site));
    let at = |hour: u32| {
        let swing = (TAU * (f64::from(hour) + 0.5) / 24.0).cos() * air.daily_swing.get() / 2.0;
        heater(site, capacity, air_there(site, air.mean + Kelvins::new(swing))).get()
    };
    let mean = Watts::new((0..24).map(at).sum::<f64>() / 24.0);
    let a_day = reckon!(AmpHours: P * 24.0 / V,
        P: "heater pad of the battery, mean over a day of the mean air" = mean,
        V: "battery's mean voltage" = volts);
    notes.reckon(&BUDGET, "usual heater", a_day, |r| {
        r.working("heater pad of the battery on a usual day")
            .from("V", BUDGET, "mean voltage")
            .source("a block of 100 Ah behind 20 mm of foam loses 0.61 W for each kelvin, worked on paper; foam: common practice, no source")
    })
}

/// By night and day, while driving and parked.
fn parts(site: &Installation, out: &mut Budget, notes: &mut Notes) {
    let driving = f64::from(site.driving.count()) / 1440.0;
    let steady = out.steady();
    let mut part = |name: &'static str, loads: AmpHours, share: f64| {
        let part = reckon!(AmpHours: L + S * s,
            L: "sum over the loads" = loads,
            S: "standing draws, inverter's idle draw and battery's heater pad a day" = steady,
            s: "share of the day" = Share::new(share));
        notes.reckon(&BUDGET, name, part, |r| r.working(name).source(SOURCE))
    };
    out.by_night = part("charge by night", out.sum(site, |l| l.by_night), 0.5);
    out.by_day = part("charge by day", out.sum(site, |l| l.by_day), 0.5);
    out.driving = part("charge while driving", out.sum(site, |l| l.driving), driving);
    out.parked = part("charge while parked", out.sum(site, |l| l.parked), 1.0 - driving);
    let hours = driving * 24.0;
    out.driving_current = if hours > 0.0 { out.driving / Hours::new(hours) } else { Amps::ZERO };
}

/// Days without driving: as usual, in the warmest month, the hottest.
fn other_days(site: &Installation, out: &mut Budget, notes: &mut Notes) {
    let south = site.surroundings.latitude.get() < 0.0;
    let cold = air_there(site, cold_air(&site.surroundings));
    let heater = reckon!(AmpHours: P * 24.0 / V,
        P: "heater pad of the battery, on the coldest days" = heater(site, heated_capacity(site), cold),
        V: "battery's mean voltage" = out.mean_voltage);
    out.heater = notes.reckon(&BUDGET, "heater", heater, |r| {
        r.working("heater pad of the battery on a day as cold as any")
            .from("V", BUDGET, "mean voltage")
            .source("a block of 100 Ah behind 20 mm of foam loses 0.61 W for each kelvin, worked on paper; foam: common practice, no source")
    });
    let not_then = |load: &Load, cold: bool| load.only_driving() || !load.calendar.in_half(cold, south);
    let only = out.of_service(site).filter(|(load, _)| not_then(load, true)).map(|(_, l)| l.charge);
    let standing = reckon!(AmpHours: Q - D + H - U,
        Q: "charge a day" = out.charge,
        D: "loads that run only while driving, or only in the warm months" = only.sum::<AmpHours>(),
        H: "heater pad of the battery on the coldest days" = out.heater,
        U: "the same on a usual day" = out.heater_usual);
    out.standing_day = notes.reckon(&BUDGET, "charge of a standing day", standing, |r| {
        r.working("charge of a day without driving")
            .from("Q", BUDGET, "charge a day")
            .from("H", BUDGET, "heater")
            .source("what runs only with the engine does not draw on days without it")
    });
    let mut day = |name: &'static str, what: &'static str, air: Celsius| {
        let parked = out.of_service(site).filter(|(load, _)| !not_then(load, false));
        let charge = parked
            .map(|(load, l)| l.at_battery * load.hours * load.thermostat.share(air).value.get() * load.often.get());
        // Nothing is kept warm then.
        let charge = charge.sum::<AmpHours>() + out.steady() - out.heater_usual;
        notes.add(BUDGET, name, || {
            Working::new(format!("{name}, without driving"), "", charge)
                .with("T", what, air)
                .source("the budget with each thermostat's share at that air")
                .note("the days of use follow the air of each hour")
        });
        charge
    };
    let air = &site.surroundings;
    let summer = day("charge of a summer day", "mean air of the warmest month", summer_air(air));
    out.hot_day = day("charge of a hot day", "mean air of the hottest day", hot_air(air));
    out.summer_day = summer;
}

fn currents(site: &Installation, out: &mut Budget, notes: &mut Notes) {
    let day = Hours::new(24.0);
    let peak = peak(site, notes);
    (out.peak, out.surge, out.surge_load) = (peak.steady, peak.surge, peak.surge_load);
    let mean_in = |time: Minutes| {
        let within = out.of_service(site).map(|(load, l)| l.charge * load.allowed.share_in(&time));
        let hours = Hours::new(f64::from(time.count()) / 60.0);
        if hours.get() > 0.0 { within.sum::<AmpHours>() / hours } else { Amps::ZERO }
    };
    let parked = site.driving.rest();
    out.usual = mean_in(Minutes::NIGHT.and(parked)).max(mean_in(Minutes::DAY.and(parked))) + out.steady() / day;
    notes.add(BUDGET, "usual current", || {
        Working::new("usual current when the cut-off may act", "", out.usual)
            .source("charge while parked by night (18:00 to 06:00) or by day over that time, the larger; standing draws included")
    });
    let draws = out.of_service(site).map(|(_, l)| l).filter(|l| l.at_battery > Amps::ZERO && l.charge > AmpHours::ZERO);
    let light = reckon!(Amps: S + I,
        S: "standing draws" = standing_current(site).value,
        I: "smallest load while it draws" = draws.map(|l| l.at_battery).reduce(Amps::min).unwrap_or(Amps::ZERO));
    out.light = notes.reckon(&BUDGET, "light current", light, |r| {
        r.working("light current").from("S", BUDGET, "standing current").source("least that flows with something on")
    });
    let mean = out.charge / day;
    let rate = reckon!(Amps: m + r,
        m: "mean current of the day" = mean,
        r: "spread of the loads: sum of p (1 - p) I² over the mean" = spread(site, out, mean));
    out.at_rate = notes.reckon(&BUDGET, "rate current", rate, |r| {
        r.working("current at which the average ampere-hour is drawn")
            .source("mean of I² over mean of I for loads that go on and off independently")
            .note(format!("from {} loads; p is each load's share of the day", out.loads.len()))
    });
}

/// By how much the current at which the average ampere-hour is drawn stands over the mean, when loads go on and off
/// independently: mean of I² over mean of I = mean + Σ p (1 - p) I² / Σ p I, with p each load's share of the day.
fn spread(site: &Installation, out: &Budget, mean: Amps) -> Amps {
    if mean <= Amps::ZERO {
        return Amps::ZERO;
    }
    let squares = out.of_service(site).map(|(_, l)| {
        let on = (l.hours.get() * l.share.get() / 24.0).clamp(0.0, 1.0);
        on * (1.0 - on) * l.at_battery.get() * l.at_battery.get()
    });
    Amps::new(squares.sum::<f64>() / mean.get())
}
