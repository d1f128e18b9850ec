//! What can be on together, and the worst start on top of it.
//!
//! Times of day are habits and do not count: whoever turns everything on must
//! not melt a cable. What the plan says to exclude each other (`not_with`) counts.

use crate::engine::installation::Installation;
use crate::engine::installation::load::{efficiency, power_together, together};
use crate::quantity::*;

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

pub(crate) fn peak(site: &Installation) -> Peak {
    let idle = if site.inverter.rating.get() > 0.0 {
        site.inverter.idle_draw / crate::engine::installation::load::NOMINAL
    } else {
        Amps::ZERO
    };
    let counted = together(&site.loads, |l| l.running().get());
    let steady = counted.iter().map(|&i| site.loads[i].running()).sum::<Amps>() + idle;
    let mut out = Peak { steady, surge: steady, surge_load: None, counted, idle, rest: steady, added: Amps::ZERO };
    for (i, load) in site.loads.iter().enumerate() {
        // A load that excludes others starts in their place.
        let same = out.counted.iter().map(|&c| &site.loads[c]).find(|c| c.group.is_some() && c.group == load.group);
        let rest = steady - same.unwrap_or(load).running() + load.running();
        let added = load.start_current();
        if (rest + added).get() > out.surge.get() {
            out = Peak { surge: rest + added, surge_load: Some(i), rest, added, ..out };
        }
    }
    out
}

/// AC power that can be on together; of loads that exclude each other the largest counts.
pub fn ac_power(site: &Installation) -> Watts {
    power_together(&site.loads, |l| l.inverter)
}

/// Power that the inverter takes from the 12 V side at its rating, beyond its AC loads of the plan.
pub fn inverter_beyond(site: &Installation) -> Watts {
    (site.inverter.rating - ac_power(site)).max(Watts::ZERO) / efficiency(&site.inverter).get()
}
