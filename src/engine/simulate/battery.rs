//! What the battery is asked for and what it gives, and how it behaves with charge and temperature.
//!
//! Curves to draw: resting voltage by state of charge at 25 °C, and the share of the rated
//! capacity that is left by temperature: the same functions that size the
//! battery, at even steps. Left out: the current; the cut-off has the voltage
//! under load.

use crate::catalogue::Chemistry;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::{TABLE_AIR, cold_factor, mean_voltage, resting_voltage};
use crate::engine::physics::reckon::Reckoned;
use crate::plan::BatteryPlace;
use crate::quantity::*;
use crate::reckon;

/// The service battery.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BatteryDesign {
    /// The bank of the plan's chemistry: as given, or as sized.
    pub bank: Option<Bank>,
    /// Capacity needed at the rated hours, by the ruling criterion.
    pub needed: AmpHours,
    /// What each criterion asks for; the biggest rules.
    pub criteria: Vec<Criterion>,
    /// The ruling one.
    pub ruling: Option<SizedBy>,
    /// Depth of discharge planned with: the plan's or the chemistry's, not deeper than the reserve allows.
    pub depth: Share,
    /// Energy that may be used, new and at 25 °C, down to the planned depth.
    pub usable: WattHours,
    /// Depth of discharge reached after the days without charge with this bank, cold and at end of life.
    pub depth_reached: Share,
    /// Where it stands: as given, or as the hold-down suggests.
    pub place: BatteryPlace,
    /// Air to be changed where it stands, while it is charged; zero for a kind that gives off no gas.
    pub vent_air: CubicMetresPerHour,
    /// Free area of an opening low down, and of another high up, that changes so much by itself.
    pub vent_opening: SquareCentimetres,
    /// Every chemistry side by side, the plan's among them.
    pub candidates: Vec<Candidate>,
}

/// What asks for a capacity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizedBy {
    /// The energy of the days without charge, in the coldest air.
    Days,
    /// The same at the mean air of the warmest month, when thermostats are on for longer.
    SummerDays,
    /// The same, tried with the very settings where the capacity so far did not last.
    Promise,
    /// That it is drawn faster than rated.
    Rate,
    /// All that can be on together.
    Discharge,
    /// The worst start.
    Start,
    /// The same with the inverter at its rating: whoever owns it will plug something in.
    Inverter,
    /// That a start does not pull the voltage down too far.
    ShortLoad,
    /// The charge current given.
    Charge,
}

impl SizedBy {
    /// Its name, also the working's.
    pub fn name(self) -> &'static str {
        match self {
            SizedBy::Days => "days without charge",
            SizedBy::SummerDays => "summer days without charge",
            SizedBy::Promise => "days without charge, tried",
            SizedBy::Rate => "rate",
            SizedBy::Discharge => "discharge current",
            SizedBy::Start => "start current",
            SizedBy::Inverter => "inverter at its rating",
            SizedBy::ShortLoad => "short load",
            SizedBy::Charge => "charge current",
        }
    }
}

/// One criterion of size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Criterion {
    /// What asks.
    pub by: SizedBy,
    /// Capacity it asks for.
    pub needed: AmpHours,
}

/// One chemistry as a candidate.
#[derive(Clone, Debug, Default, PartialEq)]
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

/// A bank beside the one that is chosen, and how long it lasts.
#[derive(Clone, Debug, PartialEq)]
pub struct NearBank {
    /// The bank.
    pub bank: Bank,
    /// Until power first fails, in the hardest of the trials; all of the days where it lasts them.
    pub lasts: Days,
    /// The days without charge that are planned.
    pub of: Days,
    /// What it costs by the user's own prices; `None` where none is entered.
    pub price: Option<Money>,
}

/// What a chemistry gives in an hour, by either.
#[derive(Clone, Debug, PartialEq)]
pub struct BySheets {
    /// Share of its rating, by the model that it is sized by.
    pub model: Share,
    /// The same by cell sheets.
    pub sheets: Share,
    /// The smaller bank that would do by those; `None` where that is the one that is chosen, or it is given.
    pub bank: Option<Bank>,
}

/// Energy that a bank gives over a depth of discharge, new, at 25 °C.
pub(crate) fn usable(chemistry: &Chemistry, capacity: AmpHours, depth: Share) -> Reckoned<WattHours, 3> {
    reckon!(WattHours: C * d * V,
        C: "capacity of the bank" = capacity,
        d: "depth of discharge" = depth,
        V: "mean resting voltage over that depth" = mean_voltage(chemistry, depth))
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

/// Resting voltage half full, at 25 °C.
pub(crate) fn rests_at(chemistry: &Chemistry) -> Volts {
    resting_voltage(chemistry, Share::new(0.5), TABLE_AIR)
}

/// Whether a block's voltage suits 12 V equipment: half full it rests between 11.5 and 15 V.
pub(crate) fn suits(chemistry: &Chemistry) -> bool {
    (11.5..=15.0).contains(&rests_at(chemistry).get())
}
