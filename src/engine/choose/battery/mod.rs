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
pub mod working;

use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::judge::battery as checks;
use crate::engine::physics::cell::formula::depth_reached;
use crate::engine::physics::cell::store::mean_voltage;
use crate::engine::simulate::bank;
use crate::engine::simulate::battery::BatteryDesign;

use crate::engine::judge::book::Book;
use crate::engine::simulate::budget::Budget;

/// Size the service battery, and every other chemistry beside it.
pub fn battery(site: &Installation, budget: &Budget, book: &mut Book) -> BatteryDesign {
    let mut out = BatteryDesign { candidates: candidates::candidates(site, book), ..BatteryDesign::default() };
    let Some(chemistry) = site.chemistry() else {
        checks::unknown_chemistry(site, book);
        return out;
    };
    let sizing = criteria::sizing(site, chemistry);
    out.depth = planned_depth(site, chemistry);
    out.needed = sizing.needed();
    out.ruling = sizing.ruling();
    out.criteria = sizing.criteria.clone();
    out.bank = bank::bank(site, chemistry, out.needed);
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
