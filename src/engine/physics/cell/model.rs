//! How does a battery answer, minute by minute?
//!
//! Charge in two wells (see `kinetic`). The voltage is the resting voltage at
//! the head of the well at hand, less current times internal resistance, so a
//! long heavy load pulls it down and a rest brings it back. Cold takes away the
//! bottom of the charge; age takes capacity and adds resistance; charging is
//! limited by what the battery takes, by temperature and by the wells; part of
//! it is lost to gassing and heat, most of that above the end of bulk. Left
//! out: its own warming, the loop between charging and discharging, and
//! recovery of sulphated plates.

use crate::catalogue::Chemistry;
use crate::engine::physics::cell::kinetic::{Kinetic, Step, Wells};
use crate::engine::physics::cell::recovery::acceptance;
use crate::engine::physics::cell::store::{
    Age, Store, TABLE_AIR, resistance_factors, resting_voltages, self_discharge_factor,
};
use crate::quantity::*;
use std::sync::Arc;

/// Points of the tables over charge: every 0.1 %, so that published points lie on them.
const POINTS: usize = 1000;
const HOURS_A_MONTH: f64 = 720.0;

/// A bank ready to be stepped through time.
#[derive(Clone, Debug)]
pub struct BatteryModel<'a> {
    chemistry: &'a Chemistry,
    kinetic: Kinetic,
    /// Charge in both wells when full.
    whole: f64,
    /// Capacity at the rated hours, aged.
    rated: f64,
    /// 1 over that, and over the share at hand.
    over: (f64, f64),
    base: f64,
    tables: Arc<Tables>,
}

/// What depends on the charge only, whatever size and age: made once for a chemistry.
#[derive(Debug)]
pub struct Tables {
    resting: Vec<f64>,
    factor: Vec<f64>,
    /// What an ampere-hour of capacity takes, in A.
    takes: Vec<f64>,
}

/// What depends on temperature only; made once for as long as it holds.
#[derive(Clone, Copy, Debug)]
pub struct Warmth {
    offset: f64,
    resistance: f64,
    /// Level of the well at hand below which nothing can be drawn.
    floor: f64,
    /// Self-discharge in A when full.
    leak: f64,
    /// Whether it may be charged.
    pub charges: bool,
}

impl Warmth {
    /// Of two temperatures that may hold what harms more: no deeper floor, no less resistance or leak, charged only
    /// where both let it.
    pub fn worse(self, other: Warmth) -> Warmth {
        Warmth {
            offset: self.offset,
            resistance: self.resistance.max(other.resistance),
            floor: self.floor.max(other.floor),
            leak: self.leak.max(other.leak),
            charges: self.charges && other.charges,
        }
    }

    /// Whether the well at hand stands well above the floor.
    pub fn plenty(&self, wells: Wells) -> bool {
        wells.at_hand.get() > 1.3 * self.floor
    }
}

/// Electromotive force and resistance of a moment: V = E - I R.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Source {
    /// Voltage with nothing flowing, after what has flowed before.
    pub open: Volts,
    /// Internal resistance.
    pub inner: Ohms,
}

impl Tables {
    /// Of a chemistry.
    pub fn of(chemistry: &Chemistry) -> Arc<Self> {
        let charges = || (0..=POINTS).map(|i| Share::new(i as f64 / POINTS as f64));
        let mut rests = resting_voltages(chemistry, TABLE_AIR);
        Arc::new(Tables {
            resting: charges().map(|charge| rests(charge).get()).collect(),
            factor: charges().map(resistance_factors(chemistry, TABLE_AIR, Age::New)).collect(),
            takes: charges().map(|charge| acceptance(chemistry, AmpHours::new(1.0), charge).get()).collect(),
        })
    }
}

impl<'a> BatteryModel<'a> {
    /// A bank; `health` is the share of its capacity that age has left, from 1
    /// to the chemistry's end of life, where its resistance has risen to the full aged factor.
    /// `tables`: those of its chemistry.
    pub fn new(store: &Store<'a>, health: Share, tables: Arc<Tables>) -> Self {
        let chemistry = store.chemistry;
        let kinetic = Kinetic::of(chemistry);
        let health = health.get().clamp(0.05, 1.0);
        let rated = (store.capacity.get() * health).max(1e-6);
        let worn = (1.0 - health) / (1.0 - chemistry.life.end_of_life.get()).max(0.01);
        let aged = 1.0 + (chemistry.resistance.aged_factor - 1.0).max(0.0) * worn;
        BatteryModel {
            chemistry,
            kinetic,
            whole: kinetic.whole(AmpHours::new(rated), chemistry.rate.rated).get(),
            rated,
            over: (1.0 / rated, 1.0 / kinetic.at_hand.get()),
            base: store.base.get() * aged,
            tables,
        }
    }

    /// The same bank at another age.
    pub fn aged(&self, store: &Store<'a>, health: Share) -> Self {
        Self::new(store, health, Arc::clone(&self.tables))
    }

    /// The tables of its chemistry.
    pub fn tables(&self) -> &Arc<Tables> {
        &self.tables
    }

    /// Capacity at the rated hours, aged.
    pub fn rated(&self) -> AmpHours {
        AmpHours::new(self.rated)
    }

    /// A rested battery at a state of charge, 0 to 1.
    pub fn rested(&self, charge: Share) -> Wells {
        let missing = (1.0 - charge.get().clamp(0.0, 1.0)) * self.rated;
        self.kinetic.rested(AmpHours::new(self.whole - missing))
    }

    /// State of charge: 1 less what is missing over the rated capacity. A slow
    /// discharge can go a little under zero, since it gives more than the rating.
    pub fn charge(&self, wells: Wells) -> Share {
        Share::new(1.0 - (self.whole - wells.whole().get()) * self.over.0)
    }

    /// Prepare steps of one length.
    pub fn step(&self, length: Seconds) -> Step {
        self.kinetic.step(length.as_hours())
    }

    /// What temperature does to it.
    pub fn warmth(&self, air: Celsius) -> Warmth {
        let c = self.chemistry;
        let above = (air - TABLE_AIR).get();
        let limits = &c.limits;
        Warmth {
            offset: c.resting.v_per_k * above,
            resistance: c.resistance.by_temperature.at(air).map_or(1.0, Share::get),
            floor: self.kinetic.at_hand.get()
                * self.whole
                * (1.0 - crate::engine::physics::cell::store::cold_factor(c, air).get()),
            leak: self.rated * c.life.self_discharge.get() / HOURS_A_MONTH * self_discharge_factor(air),
            charges: (limits.charge_min.get()..=limits.charge_max.get()).contains(&air.get()),
        }
    }

    /// Voltage and resistance now.
    pub fn source(&self, wells: Wells, warmth: &Warmth) -> Source {
        let head = wells.at_hand.get() * self.over.1;
        let charge = 1.0 - (self.whole - head) * self.over.0;
        let (index, part) = place(charge);
        let open = between(&self.tables.resting, index, part) + warmth.offset;
        let inner = self.base * between(&self.tables.factor, index, part) * warmth.resistance;
        Source { open: Volts::new(open), inner: Ohms::new(inner) }
    }

    /// The most that can be drawn over a step.
    pub fn most_out(&self, wells: Wells, warmth: &Warmth, step: &Step) -> Amps {
        step.current_to(wells, AmpHours::new(warmth.floor)).max(Amps::ZERO)
    }

    /// The most that it takes over a step at its charge voltage.
    pub fn most_in(&self, wells: Wells, warmth: &Warmth, step: &Step) -> Amps {
        if !warmth.charges {
            return Amps::ZERO;
        }
        let charge = self.charge(wells);
        let (index, part) = place(charge.get());
        let takes = Amps::new(between(&self.tables.takes, index, part) * self.rated);
        let brim = AmpHours::new(self.kinetic.at_hand.get() * self.whole);
        let stored = -step.current_to(wells, brim);
        takes.min(stored / self.efficiency(charge).get()).max(Amps::ZERO)
    }

    /// Share of the charge put in that is stored, at a state of charge: a third
    /// of the chemistry's loss below the end of bulk, the rest above, so that a
    /// whole charge has the chemistry's coulombic efficiency.
    pub fn efficiency(&self, charge: Share) -> Share {
        let (mean, bulk) = (self.chemistry.charge.coulombic.get(), self.chemistry.charge.bulk_to.get());
        let below = 1.0 - (1.0 - mean) / 3.0;
        if charge.get() < bulk || bulk >= 0.999 {
            return Share::new(below);
        }
        Share::new(((mean - bulk * below) / (1.0 - bulk)).clamp(0.2, 1.0))
    }

    /// Self-discharge now, as a current inside the battery.
    pub fn leak(&self, wells: Wells, warmth: &Warmth) -> Amps {
        Amps::new(warmth.leak * (wells.whole().get() / self.whole).clamp(0.0, 1.0))
    }
}

/// Where in the tables a state of charge lies.
fn place(charge: f64) -> (usize, f64) {
    let at = charge.clamp(0.0, 1.0) * POINTS as f64;
    let index = (at as i32).min(POINTS as i32 - 1);
    (index as usize, at - f64::from(index))
}

fn between(table: &[f64], index: usize, part: f64) -> f64 {
    match (table.get(index), table.get(index + 1)) {
        (Some(a), Some(b)) => a + (b - a) * part,
        _ => 0.0,
    }
}
