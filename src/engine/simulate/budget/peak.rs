//! What can be on together, and the worst start on top of it.
//!
//! Times of day are habits and do not count: whoever turns everything on must
//! not melt a cable. What the plan says to exclude each other (`not_with`) counts.

use crate::engine::installation::Installation;
use crate::engine::installation::load::{NOMINAL, efficiency, power_together, together};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, sum};
use crate::engine::simulate::budget::sum::over_loads;
use crate::quantity::*;
use crate::reckon;

/// What can be on together at 12 V.
pub(crate) struct Peak {
    /// All of it.
    pub steady: Amps,
    /// With the worst start on top of the rest.
    pub surge: Amps,
    /// Whose start that is.
    pub surge_load: Option<usize>,
}

pub(crate) fn peak(site: &Installation, notes: &mut Notes) -> Peak {
    let idle = if site.inverter.rating > Watts::ZERO { site.inverter.idle_draw / NOMINAL } else { Amps::ZERO };
    let service = |i: &usize| !site.loads[*i].on_starter;
    let counted: Vec<usize> = together(&site.loads, |l| l.running().get()).into_iter().filter(service).collect();
    let steady = counted.iter().map(|&i| site.loads[i].running()).sum::<Amps>() + idle;
    notes.add(Subject::Budget, "peak current", || {
        let mut terms =
            over_loads(site, counted.iter().copied(), |i| site.loads[i].running().into(), "running current");
        terms.push(("inverter's idle draw at 12 V".into(), idle.into(), None));
        let working = sum("current of all that can be on together, at 12 V", steady, terms)
            .source("sum of running currents; of loads that exclude each other only the largest")
            .note("times of day do not count here: everything may be turned on at once");
        match (0..site.loads.len()).filter(service).count() - counted.len() {
            0 => working,
            out => working.note(format!("left out because others exclude them: {out}")),
        }
    });
    let mut worst = (steady, Amps::ZERO, None);
    for (i, load) in site.loads.iter().enumerate().filter(|(i, _)| service(i)) {
        // A load that excludes others starts in their place.
        let same = counted.iter().map(|&c| &site.loads[c]).find(|c| c.group.is_some() && c.group == load.group);
        let rest = steady - same.unwrap_or(load).running() + load.running();
        if rest + load.start_current() > worst.0 + worst.1 {
            worst = (rest, load.start_current(), Some(i));
        }
    }
    let (rest, added, surge_load) = worst;
    let surge = reckon!(Amps: R + A,
        R: "all that can be on together with it" = rest,
        A: "what its start adds" = added);
    let surge = notes.reckon(&Subject::Budget, "surge current", surge, |r| {
        r.working("worst start on top of the rest, at 12 V").source("one start at a time").note(match surge_load {
            Some(i) => format!("worst start: {}", site.loads[i].name),
            None => "no load has a start surge".into(),
        })
    });
    Peak { steady, surge, surge_load }
}

/// AC power that can be on together; of loads that exclude each other the largest counts.
pub fn ac_power(site: &Installation) -> Watts {
    power_together(&site.loads, |l| l.inverter)
}

/// Power that the inverter takes from the 12 V side at its rating, beyond its AC loads of the plan.
pub fn inverter_beyond(site: &Installation) -> Watts {
    (site.inverter.rating - ac_power(site)).max(Watts::ZERO) / efficiency(&site.inverter).get()
}
