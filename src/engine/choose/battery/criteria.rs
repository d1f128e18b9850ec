//! What capacity each criterion asks for.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::{end_of_life, planned_depth, reserve_of};
use crate::engine::installation::charger::plan_charge_current;
use crate::engine::installation::climate::summer_air;
use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::place::coldest;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::cell::formula::{capacity_for_rate, capacity_needed};
use crate::engine::physics::cell::store::{Age, cold_factor, mean_voltage, resistance_factor, resting_voltage, scaled};
use crate::engine::simulate::battery::{Criterion, SizedBy};
use crate::engine::simulate::budget::peak::inverter_beyond;
use crate::engine::simulate::budget::{Budget, budget_at};
use crate::quantity::*;
use crate::reckon;

/// One chemistry sized for a plan, with what the rest of the choice asks for.
#[derive(Clone, Debug)]
pub(crate) struct Sizing {
    pub criteria: Vec<Criterion>,
    pub day: Budget,
    pub depth: Share,
    pub mean: Volts,
    pub cold: Share,
    pub end_of_life: Share,
}

impl Sizing {
    /// The criterion that asks for the most; of several the first.
    pub fn ruling(&self) -> Option<Criterion> {
        self.criteria.iter().copied().reduce(|most, c| if c.needed > most.needed { c } else { most })
    }

    pub fn needed(&self) -> AmpHours {
        self.ruling().map_or(AmpHours::ZERO, |c| c.needed)
    }

    /// The working of the capacity needed; `own` where each criterion has a working too.
    pub fn needed_working(&self, own: bool) -> Working {
        let mut working = Working::new("capacity needed", "", self.needed()).source("the biggest of the criteria");
        for Criterion { by, needed } in &self.criteria {
            working = match own {
                true => working.with_from("C", by.name(), *needed, SERVICE, by.name()),
                false => working.with("C", by.name(), *needed),
            };
        }
        working.note(format!("ruling: {}", self.ruling().map_or("", |c| c.by.name())))
    }
}

/// Size one chemistry for a plan; with the workings of each criterion, where it is the plan's own.
pub(crate) fn sizing(site: &Installation, chemistry: &Chemistry, notes: &mut Notes) -> Sizing {
    let own = site.chemistry().is_some_and(|c| c.key == chemistry.key);
    let depth = if own { planned_depth(site, chemistry) } else { chemistry.life.depth };
    let mean = mean_voltage(chemistry, depth);
    let mut out = Sizing {
        criteria: Vec::new(),
        day: budget_at(site, mean, &mut Notes::unkept()),
        depth,
        mean,
        cold: cold_factor(chemistry, coldest(site)),
        end_of_life: if own { end_of_life(site, chemistry) } else { chemistry.life.end_of_life },
    };
    out.criteria = out.energy(site, chemistry, notes);
    out.criteria.extend(out.currents(site, chemistry, notes));
    out.criteria.extend(out.short_load(site, chemistry, own, notes));
    out.criteria.extend(charge(site, chemistry, notes));
    out
}

const SERVICE: Subject = Subject::ServiceBattery;

impl Sizing {
    /// What the days without charge ask for, in the cold and in the warmest month, and how fast it is drawn.
    fn energy(&self, site: &Installation, chemistry: &Chemistry, notes: &mut Notes) -> Vec<Criterion> {
        let battery = &site.service_battery;
        let mut days =
            |by: SizedBy, charge: AmpHours, day: &'static str, left: Share, words: &dyn Fn(Working) -> Working| {
                let needed = capacity_needed(
                    charge,
                    site.days_without_charge,
                    self.depth,
                    left,
                    self.end_of_life,
                    battery.design_margin,
                );
                let needed = notes.reckon(&SERVICE, by.name(), needed, |r| {
                    words(r.working(format!("capacity for the {}", by.name())))
                        .from("Q", Subject::Budget, day)
                        .from("d", SERVICE, "depth")
                });
                Criterion { by, needed }
            };
        let cold = days(SizedBy::Days, self.day.standing_day, "charge of a standing day", self.cold, &|working| {
            working
                .from("c", SERVICE, "cold factor")
                .source("method of IEEE Std 1013 and SAND87-7023; factors as in IEEE Std 485")
                .note("the methods are described from memory of the standards; factors have their own sources")
        });
        let summer = (self.day.summer_day.get() > self.day.standing_day.get() + 1e-9).then(|| {
            let left = cold_factor(chemistry, summer_air(&site.surroundings));
            days(SizedBy::SummerDays, self.day.summer_day, "charge of a summer day", left, &|working| {
                working
                    .source("as for the days without charge, with each thermostat's share in the warmest month")
                    .note("charge and air are those of the warmest month")
            })
        });
        let most = summer.filter(|s| s.needed > cold.needed).unwrap_or(cold);
        let rate = &chemistry.rate;
        let by_rate = capacity_for_rate(most.needed, rate.rated, rate.peukert, self.day.at_rate);
        let by_rate = notes.reckon(&SERVICE, SizedBy::Rate.name(), by_rate, |r| {
            r.working("capacity that gives this at the rate it is drawn")
                .from("C", SERVICE, most.by.name())
                .from("I", Subject::Budget, "rate current")
                .source(format!("Peukert's law from a rated pair; {}", rate.from.peukert.words()))
                .note("never less than without it; the trial of days uses the kinetic battery model instead")
        });
        [Some(cold), summer, Some(Criterion { by: SizedBy::Rate, needed: by_rate })].into_iter().flatten().collect()
    }

    /// What the loads' currents ask for, each as a multiple of the capacity.
    fn currents(&self, site: &Installation, chemistry: &Chemistry, notes: &mut Notes) -> Vec<Criterion> {
        let (rate, peak) = (&chemistry.rate, self.day.peak);
        let mut all = vec![
            bears(SizedBy::Discharge, peak, rate.max_c, notes, |working| {
                working.from("I", Subject::Budget, "peak current").source(rate.from.max_c.words())
            }),
            bears(SizedBy::Start, self.day.surge, rate.max_short_c, notes, |working| {
                working.from("I", Subject::Budget, "surge current").source(rate.from.max_short_c.words())
            }),
        ];
        // The low end of its voltage, where the inverter takes the most.
        let inverter = peak + inverter_beyond(site) / self.mean.min(NOMINAL);
        if inverter.get() > peak.get() + 1e-9 {
            all.push(bears(SizedBy::Inverter, inverter, rate.max_c, notes, |working| {
                working
                    .source(rate.from.max_c.words())
                    .note("all that can be on together, and the rest of the inverter's rating")
            }));
        }
        all
    }

    /// What the worst start asks for, so that it does not pull the posts down too far.
    fn short_load(
        &self,
        site: &Installation,
        chemistry: &Chemistry,
        own: bool,
        notes: &mut Notes,
    ) -> Option<Criterion> {
        let coldest = coldest(site);
        let reserve = if own { reserve_of(site, chemistry) } else { chemistry.low.reserve };
        let (resting, floor) = (resting_voltage(chemistry, reserve, coldest), floor(site, chemistry, own));
        if (resting - floor).get() <= 0.01 {
            return None;
        }
        let block = scaled(chemistry.resistance.working_mohm, AmpHours::new(100.0));
        let needed = reckon!(AmpHours: 100.0 * (I * R / (V - F)),
            I: "worst start on top of the rest" = self.day.surge,
            R: "resistance of a 100 Ah block: at the reserve, coldest, aged" =
                block * resistance_factor(chemistry, reserve, coldest, Age::EndOfLife),
            V: "resting voltage at the reserve, coldest" = resting,
            F: "lowest voltage allowed" = floor);
        let needed = notes.reckon(&SERVICE, SizedBy::ShortLoad.name(), needed, |r| {
            r.working("capacity that keeps the voltage up in the worst start")
                .from("I", Subject::Budget, "surge current")
                .source(format!("Ohm's law; {}", chemistry.resistance.words(None, true)))
        });
        Some(Criterion { by: SizedBy::ShortLoad, needed })
    }
}

/// What the charge current given asks for.
fn charge(site: &Installation, chemistry: &Chemistry, notes: &mut Notes) -> Option<Criterion> {
    let (given, charge) = (plan_charge_current(site, chemistry), &chemistry.charge);
    (given.get() > 0.0).then(|| {
        bears(SizedBy::Charge, given, charge.max_c, notes, |working| {
            working.source(charge.from.max_c.words()).note("chargers given in the plan, and the sun")
        })
    })
}

/// Capacity for which a current is no more than so many times the capacity.
fn bears(
    by: SizedBy,
    current: Amps,
    times: f64,
    notes: &mut Notes,
    words: impl FnOnce(Working) -> Working,
) -> Criterion {
    let needed = reckon!(AmpHours: I / c,
        I: "current" = current, c: "highest multiple of the capacity" = Figure::number(times.max(0.001)));
    let title = format!("capacity that bears the {}", by.name());
    Criterion { by, needed: notes.reckon(&SERVICE, by.name(), needed, |r| words(r.working(title))) }
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
