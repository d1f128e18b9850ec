//! What the battery is asked for and what it gives, and how it behaves with charge and temperature.
//!
//! Curves to draw: resting voltage by state of charge at 25 °C, and the share of the rated
//! capacity that is left by temperature: the same functions that size the
//! battery, at even steps. Left out: the current; the cut-off has the voltage
//! under load.

use crate::catalogue::Chemistry;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::{TABLE_AIR, cold_factor, resting_voltage};
use crate::quantity::*;

/// The energy of days at the mean air of the warmest month, when thermostats are on for longer.
pub(crate) const SUMMER: &str = "summer days without charge";
/// The current of all loads with the inverter at its rating: whoever owns it will plug something in.
pub(crate) const INVERTER: &str = "inverter at its rating";

/// The service battery.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BatteryDesign {
    /// The bank of the plan's chemistry: as given, or as sized.
    pub bank: Option<Bank>,
    /// Capacity needed at the rated hours, by the ruling criterion.
    pub needed: AmpHours,
    /// What each criterion asks for; the biggest rules.
    pub criteria: Vec<Criterion>,
    /// Index of the ruling one.
    pub ruling: usize,
    /// Depth of discharge planned with: the plan's or the chemistry's, not deeper than the reserve allows.
    pub depth: Share,
    /// Energy that may be used, new and at 25 °C, down to the planned depth.
    pub usable: WattHours,
    /// Depth of discharge reached after the days without charge with this bank, cold and at end of life.
    pub depth_reached: Share,
    /// Every chemistry side by side, the plan's among them.
    pub candidates: Vec<Candidate>,
}

/// One criterion of size.
#[derive(Clone, Debug, PartialEq)]
pub struct Criterion {
    /// `days without charge`, `rate`, `short load`, `charge current`, … also the working's name.
    pub name: &'static str,
    /// Capacity it asks for.
    pub needed: AmpHours,
}

/// One chemistry as a candidate.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Chemistry key.
    pub chemistry: String,
    /// Name as shown.
    pub name: String,
    /// Capacity needed.
    pub needed: AmpHours,
    /// Name of the ruling criterion.
    pub ruling: &'static str,
    /// Bank of standard blocks, if any is big enough.
    pub bank: Option<Bank>,
    /// Usable energy of that bank.
    pub usable: WattHours,
    /// Years to end of life, by cycles and calendar together.
    pub years: Years,
    /// Years by cycles alone; 99 where it is hardly used.
    pub years_cycles: Years,
    /// Whether it may be charged at the coldest of the plan.
    pub charges_cold: bool,
    /// Coldest at which it may be charged.
    pub charge_min: Celsius,
    /// Hours from the planned depth to 90 % with the plan's charger.
    pub recharge: Option<Hours>,
    /// Output of that charger: as given, or as it would be chosen for this chemistry.
    pub charger: Option<Amps>,
    /// Highest charge current it takes.
    pub charge_max: Amps,
    /// What the bank costs by the user's own prices; `None` where none is entered.
    pub price: Option<Money>,
    /// The same over the years it lasts.
    pub price_a_year: Option<Money>,
    /// Whether its voltage suits 12 V equipment.
    pub suits: bool,
    /// Whether the plan uses it.
    pub chosen: bool,
}

/// Curves of one chemistry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BatteryCurves {
    /// State of charge, resting voltage.
    pub resting: Vec<(Share, Volts)>,
    /// Temperature, share of the rated capacity left.
    pub capacity: Vec<(Celsius, Share)>,
}

/// The curves of a chemistry; the capacity from -20 °C, or from `coldest` if that is lower, to 40 °C.
pub fn battery_curves(chemistry: &Chemistry, coldest: Celsius) -> BatteryCurves {
    let resting = (0..=50).map(|n| {
        let charge = Share::percent(f64::from(n) * 2.0);
        (charge, resting_voltage(chemistry, charge, TABLE_AIR))
    });
    let from = coldest.get().min(-20.0);
    let air = |n: u32| Celsius::new(from + (40.0 - from) * f64::from(n) / 60.0);
    let capacity = (0..=60).map(|n| (air(n), cold_factor(chemistry, air(n))));
    BatteryCurves { resting: resting.collect(), capacity: capacity.collect() }
}

/// Whether a block's voltage suits 12 V equipment: half full it rests between 11.5 and 15 V.
pub(crate) fn suits(chemistry: &Chemistry) -> bool {
    let half = crate::engine::physics::cell::store::resting_voltage(
        chemistry,
        Share::new(0.5),
        crate::engine::physics::cell::store::TABLE_AIR,
    )
    .get();
    (11.5..=15.0).contains(&half)
}
