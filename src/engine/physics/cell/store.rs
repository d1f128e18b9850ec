//! What voltage and what resistance a battery shows at a state of charge, temperature and age.
//!
//! Resting voltage from the chemistry's table, moved by its temperature
//! coefficient. Where two measured tables are known the lower tells what a load
//! still gets, the higher where a cut-off is set and how full a voltage says it is. Internal resistance is that of a 100 Ah block times 100/C,
//! times a factor each for charge, temperature and age. Left out: the minutes
//! that voltage needs to settle, and the loop between charging and
//! discharging, which is shown as a band and not followed.

use crate::catalogue::{Chemical, Chemistry};
use crate::engine::physics::cell::kinetic::Kinetic;
use crate::quantity::*;

/// Temperature of the chemistry's tables: 25 °C.
pub const TABLE_AIR: Celsius = Celsius::new(25.0);

/// How old a battery is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Age {
    /// As bought.
    New,
    /// About to be replaced.
    EndOfLife,
}

/// A bank with its chemistry: answers voltage and resistance.
#[derive(Clone, Copy, Debug)]
pub struct Store<'a> {
    /// Its chemistry.
    pub chemistry: &'a Chemistry,
    /// Capacity at the rated hours, new, 25 °C.
    pub capacity: AmpHours,
    /// Working resistance, new, 25 °C, half full.
    pub base: Ohms,
}

impl<'a> Store<'a> {
    /// A bank of this capacity; resistance measured, or scaled from the chemistry's 100 Ah block.
    pub fn new(chemistry: &'a Chemistry, capacity: AmpHours, measured: Option<Milliohms>) -> Self {
        let base = measured.map_or_else(|| scaled(chemistry.resistance.working_mohm, capacity), Ohms::from);
        Store { chemistry, capacity, base }
    }

    /// Resting voltage at the posts, the least that is measured.
    pub fn resting(&self, charge: Share, at: Celsius) -> Volts {
        resting_voltage(self.chemistry, charge, at)
    }

    /// The most that is measured.
    pub fn resting_most(&self, charge: Share, at: Celsius) -> Volts {
        resting_most(self.chemistry, charge, at)
    }

    /// Working internal resistance, ohmic and slow polarisation together.
    pub fn resistance(&self, charge: Share, at: Celsius, age: Age) -> Ohms {
        self.base * resistance_factor(self.chemistry, charge, at, age)
    }

    /// Voltage at the posts while `current` flows out: V = resting - I R.
    pub fn under_load(&self, charge: Share, current: Amps, at: Celsius, age: Age) -> Volts {
        self.resting(charge, at) - current * self.resistance(charge, at, age)
    }

    /// By how much the charge at hand stands lower than the state of charge
    /// after `current` has flowed for a time: I (1 - c) / (c k' C) (1 - e^(-k' t)),
    /// from the kinetic battery model. This is what a rest brings back. Of lead-acid
    /// only: in lithium the working resistance has the whole of it, and a cut-off
    /// that counted on more would be set too low.
    pub fn behind(&self, current: Amps, held: Hours) -> Share {
        let kinetic = Kinetic::of(self.chemistry);
        let (c, k) = (kinetic.at_hand.get(), kinetic.rate_per_h);
        if self.capacity.get() <= 0.0 || self.chemistry.chemical != Chemical::LeadAcid {
            return Share::ZERO;
        }
        Share::new(current.get() * (1.0 - c) / (c * k * self.capacity.get()) * (1.0 - (-k * held.get()).exp()))
    }

    /// Voltage at the posts after `current` has flowed for a time, for a cut-off: the
    /// most it may rest at with the charge at hand, less current x resistance.
    pub fn held(&self, charge: Share, current: Amps, held: Hours, at: Celsius, age: Age) -> Volts {
        let at_hand = charge - self.behind(current, held);
        self.resting_most(at_hand, at) - current * self.resistance(charge, at, age)
    }
}

/// Resistance of a bank from that of a 100 Ah block: R = R100 x 100 / C. Zero for no capacity.
pub fn scaled(milliohm_100ah: f64, capacity: AmpHours) -> Ohms {
    if capacity.get() > 0.0 { Ohms::from_milli(milliohm_100ah * 100.0 / capacity.get()) } else { Ohms::ZERO }
}

/// Resting voltage of a block: the lower table at 25 °C plus coefficient x (T - 25).
pub fn resting_voltage(chemistry: &Chemistry, charge: Share, at: Celsius) -> Volts {
    moved(chemistry, chemistry.resting.least(charge), at)
}

/// The same for one state of charge after the other, each no smaller than the last.
pub fn resting_voltages(chemistry: &Chemistry, at: Celsius) -> impl FnMut(Share) -> Volts + '_ {
    let mut least = chemistry.resting.least_growing();
    move |charge| moved(chemistry, least(charge), at)
}

/// The same by the higher table: what it may rest at.
pub fn resting_most(chemistry: &Chemistry, charge: Share, at: Celsius) -> Volts {
    moved(chemistry, chemistry.resting.most(charge), at)
}

fn moved(chemistry: &Chemistry, table: Option<Volts>, at: Celsius) -> Volts {
    table.unwrap_or(chemistry.nominal) + Volts::new(chemistry.resting.v_per_k * (at - TABLE_AIR).get())
}

/// Least state of charge that a resting voltage tells: the higher table read backwards, 0 to 1.
pub fn resting_charge(chemistry: &Chemistry, rested: Volts, at: Celsius) -> Share {
    let table = rested - Volts::new(chemistry.resting.v_per_k * (at - TABLE_AIR).get());
    chemistry.resting.charge(table).unwrap_or(Share::ZERO)
}

/// By how much resistance differs from that of a new, warm, half-full block.
pub fn resistance_factor(chemistry: &Chemistry, charge: Share, at: Celsius, age: Age) -> f64 {
    resistance_factors(chemistry, at, age)(charge)
}

/// The same for one state of charge after the other, each no smaller than the last.
pub fn resistance_factors(chemistry: &Chemistry, at: Celsius, age: Age) -> impl FnMut(Share) -> f64 + '_ {
    let table = &chemistry.resistance;
    let mut by_soc = table.by_soc.growing();
    let by_temperature = table.by_temperature.at(at).map_or(1.0, Share::get);
    let by_age = if age == Age::EndOfLife { table.aged_factor } else { 1.0 };
    move |charge| by_soc(charge).map_or(1.0, Share::get) * by_temperature * by_age
}

/// Self-discharge doubles for every 10 K. Common practice, no source.
const SELF_DISCHARGE_DOUBLES: f64 = 10.0;

/// By how much faster than at 25 °C it discharges by itself.
pub fn self_discharge_factor(at: Celsius) -> f64 {
    2f64.powf((at - TABLE_AIR).get() / SELF_DISCHARGE_DOUBLES).min(64.0)
}

/// Mean resting voltage while it is discharged from full by `depth`, at 25 °C:
/// the area under the lower table over the depth.
pub fn mean_voltage(chemistry: &Chemistry, depth: Share) -> Volts {
    let low = (1.0 - depth.get()).clamp(0.0, 0.999);
    let at = |x: f64| chemistry.resting.least(Share::new(x)).unwrap_or(chemistry.nominal).get();
    let bends = chemistry.resting.bends();
    let inner = bends.iter().map(|x| x.get()).filter(|&x| x > low && x < 1.0);
    let xs: Vec<f64> = std::iter::once(low).chain(inner).chain(std::iter::once(1.0)).collect();
    let area: f64 = xs.windows(2).map(|w| (w[1] - w[0]) * (at(w[0]) + at(w[1])) / 2.0).sum();
    Volts::new(area / (1.0 - low))
}

/// Share of the capacity that is left at a temperature; never more than at 25 °C.
pub fn cold_factor(chemistry: &Chemistry, at: Celsius) -> Share {
    chemistry.cold.capacity.at(at).unwrap_or(Share::FULL).min(Share::FULL).max(Share::new(0.01))
}
