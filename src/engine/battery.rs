//! How big a battery, and of which chemistry.

use crate::quantity::*;

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
    /// Energy that may be used, new and at 25 °C, down to the planned depth.
    pub usable: WattHours,
    /// Depth of discharge reached after the days without charge with this bank, cold and at end of life.
    pub depth_reached: Share,
    /// Every chemistry side by side, the plan's among them.
    pub candidates: Vec<Candidate>,
}

/// Equal blocks in parallel.
#[derive(Clone, Debug, PartialEq)]
pub struct Bank {
    /// Chemistry key.
    pub chemistry: String,
    /// Capacity of the whole bank.
    pub capacity: AmpHours,
    /// Blocks in parallel.
    pub blocks: u32,
    /// Capacity of one block.
    pub block: AmpHours,
    /// Mass of the whole bank.
    pub mass: Kilograms,
    /// Working internal resistance, new, warm, half full.
    pub resistance: Ohms,
    /// Working internal resistance at the coldest, aged, at the reserve.
    pub resistance_worst: Ohms,
    /// Least resistance, for fault currents.
    pub resistance_fault: Ohms,
    /// Short-circuit current at the posts: full resting voltage over the least resistance.
    pub fault: Amps,
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
    /// Years by cycles alone.
    pub years_cycles: Years,
    /// Whether it may be charged at the coldest of the plan.
    pub charges_cold: bool,
    /// Coldest at which it may be charged.
    pub charge_min: Celsius,
    /// Hours from the planned depth to 90 % with the plan's charger.
    pub recharge: Option<Hours>,
    /// Highest charge current it takes.
    pub charge_max: Amps,
    /// Whether the plan uses it.
    pub chosen: bool,
}
