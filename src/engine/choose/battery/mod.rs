//! How big a battery, and of which chemistry.
//!
//! Each criterion asks for a capacity; the biggest rules. Energy over the days
//! without charge by the method of IEEE Std 1013 and SAND87-7023 (charge x
//! days / depth, corrected for cold, end of life and margin as in IEEE Std
//! 485); then rate (Peukert), discharge current, short load, charge current.
//! Left out: cells that differ from each other in a bank, and warming by its
//! own losses, which would help in the cold.

pub mod candidates;
pub mod criteria;
pub mod sizes;
pub mod working;

use crate::engine::installation::Installation;
use crate::engine::judge::battery as checks;
use crate::engine::physics::cell::formula::depth_reached;
use crate::engine::physics::cell::store::mean_voltage;

use crate::catalogue::Chemistry;
use crate::engine::judge::book::Book;
use crate::engine::simulate::budget::Budget;
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
    /// Depth of discharge planned with: the plan's or the chemistry's, not deeper than the reserve allows.
    pub depth: Share,
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

/// The chemistry of the plan's service battery.
pub fn chemistry_of(site: &Installation) -> Option<&Chemistry> {
    site.chemistry()
}

/// Charge kept in the battery at the cut-off: the plan's, or the chemistry's,
/// or what a deeper depth chosen in the plan leaves.
pub fn reserve_of(site: &Installation, chemistry: &Chemistry) -> Share {
    let by_depth = site.service_battery.depth.map_or(Share::FULL, |d| Share::FULL - d);
    site.cut_off.reserve.unwrap_or_else(|| chemistry.low.reserve.min(by_depth)).max(Share::ZERO)
}

/// Depth of discharge to plan with: the plan's or the chemistry's, never
/// deeper than the reserve that the cut-off keeps; at least 1 %.
pub fn planned_depth(site: &Installation, chemistry: &Chemistry) -> Share {
    let wanted = site.service_battery.depth.unwrap_or(chemistry.life.depth);
    wanted.min(Share::FULL - reserve_of(site, chemistry)).max(Share::new(0.01))
}

/// Capacity left, as a share of the rated, when it is replaced.
pub fn end_of_life(site: &Installation, chemistry: &Chemistry) -> Share {
    site.service_battery.end_of_life.unwrap_or(chemistry.life.end_of_life)
}

/// Size the service battery, and every other chemistry beside it.
pub fn battery(site: &Installation, budget: &Budget, book: &mut Book) -> BatteryDesign {
    let mut out = BatteryDesign { candidates: candidates::candidates(site, book), ..BatteryDesign::default() };
    let Some(chemistry) = chemistry_of(site) else {
        checks::unknown_chemistry(site, book);
        return out;
    };
    let sizing = criteria::sizing(site, chemistry);
    out.depth = planned_depth(site, chemistry);
    out.needed = sizing.needed();
    out.ruling = sizing.ruling();
    out.criteria = sizing.criteria.clone();
    out.bank = sizes::bank(site, chemistry, out.needed);
    if let Some(bank) = &out.bank {
        out.usable = bank.capacity * out.depth.get() * mean_voltage(chemistry, out.depth);
        out.depth_reached = depth_reached(
            budget.standing_day,
            site.service_battery.days_without_charge,
            bank.capacity,
            sizing.cold,
            sizing.end_of_life,
        );
    }
    working::record(site, chemistry, budget, &sizing, &out, book);
    checks::check(site, chemistry, budget, &out, book);
    out
}
