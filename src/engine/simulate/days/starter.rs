//! How does the starter battery fare?
//!
//! It is a bus like the other: loads hang on it, the parked vehicle draws from it, and while driving it makes
//! up for what the alternator lacks. What the charger wants beyond the alternator's spare comes out of it, down to
//! the charge that starting needs; from there on the charger gives no more than the alternator feeds. Charge is
//! counted, not voltage; the alternator is taken at its mean over a drive. Left out: the start itself, which takes
//! under 1 % of the charge, and the rate effect, which is small at such currents.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::spare_over_drive;
use crate::engine::installation::minutes::Minutes;
use crate::engine::physics::cell::recovery::{acceptance, put_back_factor};
use crate::engine::simulate::charger::bounds::output_of;
use crate::engine::simulate::days::of_day::OfDay;
use crate::plan::ChargerKind;
use crate::quantity::*;

/// Hours within which the charger may not take more than lies above what starting needs: the longest step.
const STEP: f64 = 5.0 / 60.0;
const HOURS_A_MONTH: f64 = 720.0;

/// What does not change over the days; in A and Ah.
#[derive(Clone, Debug)]
pub(crate) struct StarterSide<'a> {
    chemistry: &'a Chemistry,
    capacity: AmpHours,
    keep: f64,
    /// Charge put in per charge stored.
    factor: f64,
    /// The alternator's over a drive, less what the vehicle uses; below zero where that alone is more.
    spare: f64,
    /// Whether there is an alternator at all; without one nothing charges while driving.
    alternator: bool,
    parked: f64,
    /// Output of the charger that one ampere of spare feeds.
    fed_by_one: f64,
    /// Loads on it, by their places in the plan.
    loads: Vec<usize>,
}

impl<'a> StarterSide<'a> {
    /// Of a plan; `None` where the catalogue does not have its chemistry.
    pub fn of(site: &'a Installation, service: &Chemistry) -> Option<Self> {
        let chemistry = site.catalogue.chemistry(&site.starter_battery.chemistry)?;
        let by_converter = || output_of(site, service, Amps::new(1.0)).value.get().max(0.01);
        Some(StarterSide {
            chemistry,
            capacity: site.starter_battery.capacity,
            keep: site.starter_battery.keep.get(),
            factor: put_back_factor(&site.catalogue, chemistry),
            spare: spare_over_drive(site).get(),
            alternator: site.vehicle.alternator_rating > Amps::ZERO,
            parked: site.vehicle.parked_draw.get(),
            fed_by_one: if site.charger.kind == ChargerKind::Relay { 1.0 } else { by_converter() },
            loads: (0..site.loads.len()).filter(|i| site.loads[*i].on_starter && site.loads[*i].count > 0).collect(),
        })
    }
}

/// Where it stands.
#[derive(Clone, Debug)]
pub(crate) struct Starter<'a> {
    side: &'a StarterSide<'a>,
    capacity: f64,
    charge: f64,
    /// In which minutes of this day its loads are used.
    today: Vec<Minutes>,
    /// Into it, before the charger takes anything; below zero: out of it.
    net: f64,
    /// What it loses by itself.
    leak: f64,
}

impl<'a> Starter<'a> {
    /// Full, with so much of its capacity left by age.
    pub fn new(side: &'a StarterSide<'a>, health: Share) -> Self {
        let capacity = side.capacity.get() * health.get();
        let leak = capacity * side.chemistry.life.self_discharge.get() / HOURS_A_MONTH;
        Starter { side, capacity, charge: capacity, today: vec![Minutes::NONE; side.loads.len()], net: 0.0, leak }
    }

    /// State of charge.
    pub fn charge(&self) -> Share {
        if self.capacity > 0.0 { Share::new(self.charge / self.capacity) } else { Share::ZERO }
    }

    /// What is in it, in Ah.
    pub fn stands(&self) -> f64 {
        self.charge
    }

    /// Put so much into it.
    pub fn stand(&mut self, charge: f64) {
        self.charge = charge;
    }

    /// What starting needs.
    pub fn keep(&self) -> f64 {
        self.side.keep
    }

    /// A day begins.
    pub fn begins(&mut self, site: &Installation, day: &OfDay) {
        for (today, load) in self.today.iter_mut().zip(&self.side.loads) {
            let load = &site.loads[*load];
            *today = day.used(&load.calendar, load.allowed, load.only_driving());
        }
    }

    /// What flows in a minute without the charger; `times`: on what the loads draw.
    pub fn settles(&mut self, site: &Installation, minute: u16, engine: bool, air: Celsius, times: f64) {
        let on = self.today.iter().zip(&self.side.loads).filter(|(today, _)| today.has(minute));
        let loads: f64 = on.map(|(_, load)| site.loads[*load].mean_current(air).get()).sum();
        let vehicle = if engine && self.side.alternator { self.side.spare } else { -self.side.parked };
        self.net = vehicle - loads * times;
    }

    /// What a charger that wants to give so much can give: what the alternator feeds, and with it what lies above
    /// the charge that starting needs.
    pub fn feeds(&self, wanted: f64) -> f64 {
        if !self.side.alternator {
            return 0.0;
        }
        let above = (self.charge - self.side.keep * self.capacity).max(0.0);
        let most = (self.net + above / STEP).max(0.0) * self.side.fed_by_one;
        wanted.min(most)
    }

    /// After a time in which the charger gave so much; what came out of it for the charger, in Ah.
    pub fn pass(&mut self, hours: Hours, given: f64) -> f64 {
        let hours = hours.get();
        let taken = given / self.side.fed_by_one;
        let net = self.net - taken;
        let before = self.charge;
        self.charge += if net > 0.0 {
            let takes = acceptance(self.side.chemistry, AmpHours::new(self.capacity), self.charge()).get();
            net.min(takes) * hours / self.side.factor
        } else {
            net * hours
        };
        self.charge = (self.charge - self.leak * hours).clamp(0.0, self.capacity);
        let helped = (taken - self.net.max(0.0)).max(0.0).min(taken) * hours;
        helped.min((before - self.charge).max(0.0))
    }
}
