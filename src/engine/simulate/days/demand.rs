//! What the loads want in a minute.
//!
//! A load that is on all through its times is written into a table by minute.
//! One that cycles (a thermostat, or fewer hours than its times allow) runs in
//! turns of a few minutes: each minute adds its share to what it is owed, and
//! it runs when a turn's worth is owed, until nothing is.

use crate::engine::installation::load::{Load, Thermostat};
use crate::engine::installation::minutes::Minutes;
use crate::engine::physics::network::load::Load as Law;
use crate::quantity::*;

/// Longest turn of a cycling load, in minutes. Common practice, no source.
const LONGEST_TURN: f64 = 8.0;

/// A demand as its three kinds together: power, current, conductance.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Draw {
    pub power: f64,
    pub current: f64,
    pub conductance: f64,
}

impl Draw {
    /// What a load draws while on.
    pub fn of(law: Law) -> Self {
        match law {
            Law::Power(power) => Draw { power: power.get(), ..Draw::default() },
            Law::Current(current) => Draw { current: current.get(), ..Draw::default() },
            Law::Resistance { .. } => Draw { conductance: law.current(Volts::new(1.0)).get(), ..Draw::default() },
        }
    }

    pub fn add(&mut self, other: &Draw, times: f64) {
        self.power += other.power * times;
        self.current += other.current * times;
        self.conductance += other.conductance * times;
    }

    /// Current at a voltage.
    pub fn at(&self, volts: f64) -> f64 {
        self.power / volts.max(1.0) + self.current + self.conductance * volts
    }

    /// Voltage at the posts of a source with E and R that feeds this, from
    /// V = E - R (P/V + I + G V); `None` when it cannot.
    pub fn settle(&self, open: f64, inner: f64) -> Option<f64> {
        let a = 1.0 + self.conductance * inner;
        let b = open - self.current * inner;
        let inside = b * b - 4.0 * a * self.power * inner;
        if inside < 0.0 || b <= 0.0 {
            return None;
        }
        Some((b + inside.sqrt()) / (2.0 * a))
    }
}

/// A load that cycles.
#[derive(Clone, Debug)]
pub(crate) struct Cycling {
    /// Index of the load in the plan.
    pub load: usize,
    pub allowed: Minutes,
    pub draw: Draw,
    pub before: bool,
    pub only_driving: bool,
    /// What its start adds, and how long it lasts.
    pub start: f64,
    pub start_s: f64,
    pub own_cut: f64,
    /// Length of a turn in minutes.
    pub turn: f64,
    /// Hours asked for over hours its times allow.
    pub switched: f64,
    thermostat: Thermostat,
}

impl Cycling {
    /// Share of its minutes that it draws at this air.
    pub fn share(&self, air: Celsius) -> f64 {
        self.thermostat.share(air).value.get() * self.switched
    }
}

/// Where a cycling load stands.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Turn {
    pub owed: f64,
    pub on: bool,
    /// It has switched itself off for low voltage.
    pub tripped: bool,
    /// Share now.
    pub share: f64,
}

/// One minute of the loads that do not cycle.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Steady {
    pub behind: Draw,
    pub before: Draw,
}

/// Whether a load is on all through its times, whatever the air.
pub(crate) fn is_steady(load: &Load) -> bool {
    let all_through = load.hours.get() >= load.hours_allowed().value.get() - 1e-9;
    let always = load.thermostat.per_k == 0.0 && load.thermostat.at_25.get() >= 0.999;
    all_through && always && load.own_cut.is_none() && load.start.times <= 1.0
}

/// A load made ready for cycling; `before`: it goes on with the cut-off open.
pub(crate) fn cycling(index: usize, load: &Load, inverter_cut: Option<Volts>, before: bool) -> Cycling {
    let most = load.hours_allowed().value.get();
    let switched = if most > 0.0 { (load.hours.get() / most).min(1.0) } else { 0.0 };
    let minutes = most * 60.0 * switched * load.thermostat.share(Celsius::new(25.0)).value.get();
    let own_cut = load.own_cut.or(inverter_cut.filter(|_| load.inverter));
    Cycling {
        load: index,
        allowed: load.allowed,
        draw: Draw::of(load.law),
        before,
        only_driving: load.only_driving(),
        start: load.start_current().get(),
        start_s: load.start.lasts.get(),
        own_cut: own_cut.map_or(0.0, Volts::get),
        turn: (minutes / 4.0).clamp(1.0, LONGEST_TURN),
        switched,
        thermostat: load.thermostat,
    }
}
