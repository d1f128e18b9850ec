//! Which blocks make up the bank.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::reserve_of;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::{Age, Store, resting_most, scaled};
use crate::quantity::*;

/// Most blocks in parallel that are looked at.
pub(crate) const MOST: u32 = 12;

/// The bank as given, or of standard blocks: the fewest that reach `needed`, then the smallest.
pub(crate) fn bank(site: &Installation, chemistry: &Chemistry, needed: AmpHours) -> Option<Bank> {
    let battery = &site.service_battery;
    if let Some(capacity) = battery.capacity {
        return Some(build(site, chemistry, capacity, battery.in_parallel.unwrap_or(1).max(1), true));
    }
    standard(site, chemistry, needed, battery.in_parallel, true)
}

/// A bank of standard blocks; `own` when it is the plan's own chemistry.
pub(crate) fn standard(
    site: &Installation,
    chemistry: &Chemistry,
    needed: AmpHours,
    in_parallel: Option<u32>,
    own: bool,
) -> Option<Bank> {
    let counts = match in_parallel {
        Some(n) => n.max(1)..=n.max(1),
        None => 1..=MOST,
    };
    let mut sizes = chemistry.blocks.sizes.clone();
    sizes.sort_by(|a, b| a.get().total_cmp(&b.get()));
    counts.into_iter().find_map(|n| {
        let each = needed / f64::from(n);
        let block = sizes.iter().find(|s| s.get() >= each.get() - 1e-9)?;
        Some(build(site, chemistry, *block * f64::from(n), n, own))
    })
}

fn build(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, blocks: u32, own: bool) -> Bank {
    let battery = &site.service_battery;
    let store = Store::new(chemistry, capacity, battery.resistance_mohm.filter(|_| own));
    let reserve = if own { reserve_of(site, chemistry) } else { chemistry.low.reserve };
    // A measured battery may have been cold, low or badly clamped: for faults the smaller of both counts.
    let resistance_fault = scaled(chemistry.resistance.fault_mohm, capacity).min(store.base);
    let full = resting_most(chemistry, Share::FULL, site.surroundings.hottest);
    Bank {
        chemistry: chemistry.key.clone(),
        capacity,
        blocks,
        block: capacity / f64::from(blocks),
        mass: battery.mass.filter(|_| own).unwrap_or(chemistry.blocks.mass_100ah * (capacity.get() / 100.0)),
        resistance: store.base,
        resistance_worst: store.resistance(reserve, site.surroundings.coldest, Age::EndOfLife),
        resistance_fault,
        fault: if resistance_fault.get() > 0.0 { full / resistance_fault } else { Amps::ZERO },
    }
}
