//! What can be on together, and the worst start on top of it.
//!
//! Times of day are habits and do not count: whoever turns everything on must
//! not melt a cable. What the plan says to exclude each other (`not_with`) counts.

use crate::engine::installation::Installation;
use crate::engine::simulate::budget::day::{DayDraw, power_of_one};
use crate::plan::Load;
use crate::quantity::*;
use std::collections::BTreeMap;

pub(crate) struct Peak {
    pub steady: Amps,
    pub surge: Amps,
    pub surge_load: Option<usize>,
    /// Loads counted in the steady peak.
    pub counted: Vec<usize>,
    /// The inverter's idle draw at 12 V.
    pub idle: Amps,
    /// Steady part of the surge, and what the start adds.
    pub rest: Amps,
    pub added: Amps,
}

pub(crate) fn peak(site: &Installation, day: &DayDraw) -> Peak {
    let running: Vec<Amps> = day.loads.iter().map(|l| l.one * l.count).collect();
    let idle = if site.inverter.rating.get() > 0.0 {
        site.inverter.idle_draw / crate::engine::installation::load::NOMINAL
    } else {
        Amps::ZERO
    };
    let mut largest: BTreeMap<&str, usize> = BTreeMap::new();
    let mut counted = Vec::new();
    for (i, load) in site.loads.iter().enumerate() {
        match load.not_with.as_deref().filter(|w| !w.is_empty()) {
            None => counted.push(i),
            Some(word) => {
                let best = largest.entry(word).or_insert(i);
                if running[i].get() > running[*best].get() {
                    *best = i;
                }
            }
        }
    }
    counted.extend(largest.values());
    counted.sort_unstable();
    let steady = counted.iter().map(|&i| running[i]).sum::<Amps>() + idle;
    let mut out = Peak { steady, surge: steady, surge_load: None, counted, idle, rest: steady, added: Amps::ZERO };
    for (i, load) in site.loads.iter().enumerate() {
        // A load that excludes others starts in their place.
        let in_place_of = load.not_with.as_deref().and_then(|w| largest.get(w)).copied().unwrap_or(i);
        let rest = steady - running[in_place_of] + running[i];
        let added = day.loads[i].starting - running[i];
        if (rest + added).get() > out.surge.get() {
            out = Peak { surge: rest + added, surge_load: Some(i), rest, added, ..out };
        }
    }
    out
}

/// AC power of one item.
pub(crate) fn ac_of_one(site: &Installation, load: &Load) -> Watts {
    power_of_one(site, load) * site.inverter.efficiency.get().max(0.01)
}

/// AC power that can be on together; of loads that exclude each other the largest counts.
pub fn ac_power(site: &Installation) -> Watts {
    let mut groups = BTreeMap::<&str, Watts>::new();
    let mut sum = Watts::ZERO;
    for load in site.loads.iter().filter(|l| l.inverter) {
        let power = ac_of_one(site, load) * f64::from(load.count);
        match load.not_with.as_deref().filter(|w| !w.is_empty()) {
            None => sum += power,
            Some(word) => {
                let most = groups.entry(word).or_default();
                *most = most.max(power);
            }
        }
    }
    sum + groups.values().copied().sum::<Watts>()
}

/// Power that the inverter takes from the 12 V side at its rating, beyond its AC loads of the plan.
pub fn inverter_beyond(site: &Installation) -> Watts {
    (site.inverter.rating - ac_power(site)).max(Watts::ZERO) / site.inverter.efficiency.get().max(0.01)
}
