//! What capacity each criterion asks for.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::{end_of_life, planned_depth, reserve_of};
use crate::engine::installation::charger::plan_charge_current;
use crate::engine::installation::working::Notes;
use crate::engine::physics::cell::formula::{capacity_for_rate, capacity_needed};
use crate::engine::physics::cell::store::{Age, cold_factor, resistance_factor, resting_voltage, scaled};
use crate::engine::simulate::battery::{Criterion, INVERTER, SUMMER};
use crate::engine::simulate::budget::{Budget, budget_at};
use crate::quantity::*;

/// One chemistry sized for a plan, with all that went in.
#[derive(Clone, Debug)]
pub(crate) struct Sizing {
    pub criteria: Vec<Criterion>,
    pub mean: Volts,
    pub day: Budget,
    pub peak: Amps,
    pub surge: Amps,
    pub depth: Share,
    pub reserve: Share,
    pub cold: Share,
    /// The same at the mean air of the warmest month.
    pub summer: Share,
    /// All that can be on together, and the inverter at its rating.
    pub inverter_full: Amps,
    pub end_of_life: Share,
    /// Resting voltage at the reserve and the coldest, and the lowest the short load may pull it to.
    pub resting: Volts,
    pub floor: Volts,
    /// Resistance of a 100 Ah block then, aged.
    pub resistance_100: Ohms,
    pub charge: Amps,
}

impl Sizing {
    pub fn ruling(&self) -> usize {
        let most = |best: usize, i: usize| {
            if self.criteria[i].needed.get() > self.criteria[best].needed.get() { i } else { best }
        };
        (0..self.criteria.len()).fold(0, most)
    }

    pub fn needed(&self) -> AmpHours {
        self.criteria.get(self.ruling()).map_or(AmpHours::ZERO, |c| c.needed)
    }
}

/// Size one chemistry for a plan.
pub(crate) fn sizing(site: &Installation, chemistry: &Chemistry) -> Sizing {
    let own = site.chemistry().is_some_and(|c| c.key == chemistry.key);
    let depth = if own { planned_depth(site, chemistry) } else { chemistry.life.depth };
    let reserve = if own { reserve_of(site, chemistry) } else { chemistry.low.reserve };
    let mean = crate::engine::physics::cell::store::mean_voltage(chemistry, depth);
    let day = budget_at(site, mean, &mut Notes::unkept());
    let (peak, surge) = (day.peak, day.surge);
    let coldest = site.surroundings.coldest;
    let mut out = Sizing {
        criteria: Vec::new(),
        mean,
        peak,
        surge,
        depth,
        reserve,
        cold: cold_factor(chemistry, coldest),
        summer: cold_factor(chemistry, crate::engine::installation::climate::summer_air(&site.surroundings)),
        // The low end of its voltage, where it takes the most.
        inverter_full: peak
            + crate::engine::simulate::budget::peak::inverter_beyond(site)
                / mean.min(crate::engine::installation::load::NOMINAL),
        end_of_life: if own { end_of_life(site, chemistry) } else { chemistry.life.end_of_life },
        resting: resting_voltage(chemistry, reserve, coldest),
        floor: floor(site, chemistry, own),
        resistance_100: scaled(chemistry.resistance.working_mohm, AmpHours::new(100.0))
            * resistance_factor(chemistry, reserve, coldest, Age::EndOfLife),
        charge: plan_charge_current(site, chemistry),
        day,
    };
    out.criteria = criteria(site, chemistry, &out);
    out
}

/// The lowest voltage that a short load may pull the posts to: where harm
/// begins or the battery's own protection opens; or the plan's own cut-off
/// where its delay is shorter than the start.
fn floor(site: &Installation, chemistry: &Chemistry, own: bool) -> Volts {
    let (harm, _) = chemistry.low.floor();
    let start = site.loads.iter().map(|l| l.start.lasts).fold(Seconds::ZERO, Seconds::max);
    match (site.cut_off.cut, site.cut_off.delay) {
        (Some(cut), Some(delay)) if own && delay.get() < start.get() => harm.max(cut),
        _ => harm,
    }
}

fn criteria(site: &Installation, chemistry: &Chemistry, s: &Sizing) -> Vec<Criterion> {
    let days = site.service_battery.days_without_charge;
    let energy =
        capacity_needed(s.day.standing_day, days, s.depth, s.cold, s.end_of_life, site.service_battery.design_margin);
    let mut all = vec![Criterion { name: "days without charge", needed: energy }];
    let mut most = energy;
    if s.day.summer_day.get() > s.day.standing_day.get() + 1e-9 {
        let margin = site.service_battery.design_margin;
        let needed = capacity_needed(s.day.summer_day, days, s.depth, s.summer, s.end_of_life, margin);
        most = most.max(needed);
        all.push(Criterion { name: SUMMER, needed });
    }
    all.extend([
        Criterion {
            name: "rate",
            needed: capacity_for_rate(most, chemistry.rate.rated, chemistry.rate.peukert, s.day.at_rate),
        },
        Criterion { name: "discharge current", needed: per_c(s.peak, chemistry.rate.max_c) },
        Criterion { name: "start current", needed: per_c(s.surge, chemistry.rate.max_short_c) },
    ]);
    if s.inverter_full.get() > s.peak.get() + 1e-9 {
        all.push(Criterion { name: INVERTER, needed: per_c(s.inverter_full, chemistry.rate.max_c) });
    }
    let spare = s.resting - s.floor;
    if spare.get() > 0.01 {
        let needed = AmpHours::new(100.0) * (s.surge * s.resistance_100 / spare);
        all.push(Criterion { name: "short load", needed });
    }
    if s.charge.get() > 0.0 {
        all.push(Criterion { name: "charge current", needed: per_c(s.charge, chemistry.charge.max_c) });
    }
    all
}

/// Capacity for which a current is `times` the capacity per hour.
fn per_c(current: Amps, times: f64) -> AmpHours {
    AmpHours::new(current.get() / times.max(0.001))
}
