//! Does the design hold what it promises?
//!
//! The promise: from full, for the days without charge, new and at the end of
//! its life, on the coldest and on the warmest days, every load has its power
//! and nothing opens; and in the plan's own usual week likewise. Each of
//! these trials is stepped through with the very settings. Left out: what the
//! days leave out, and starts that end within the delay.

use crate::engine::installation::Installation;
use crate::engine::installation::battery::end_of_life;
use crate::engine::installation::climate::{Climate, cold_air, summer_air};
use crate::engine::parts::battery::Bank;
use crate::engine::simulate::days::result::Endurance;
use crate::engine::simulate::days::run::run;
use crate::engine::simulate::days::scenario::{CutSettings, Scenario, Vary};
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;

/// Days of the usual week that are tried: to the morning after its weekend.
const WEEK: u32 = 8;
/// Time without power that is only rounding of the steps.
const MOMENT: Hours = Hours::new(0.02);

/// Under which conditions the promise is tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Conditions {
    /// At the end of its life, not new.
    pub aged: bool,
    /// On the coldest days, not the warmest.
    pub cold: bool,
}

impl Conditions {
    /// All that are tried, the hardest first.
    pub const ALL: [Conditions; 4] = [
        Conditions { aged: true, cold: true },
        Conditions { aged: true, cold: false },
        Conditions { aged: false, cold: true },
        Conditions { aged: false, cold: false },
    ];

    /// In words: `at the end of its life, on the coldest days`.
    pub fn words(self) -> String {
        let age = if self.aged { "at the end of its life" } else { "new" };
        format!("{age}, on the {} days", if self.cold { "coldest" } else { "warmest" })
    }
}

/// One trial of the promise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trial {
    /// Under which conditions.
    pub conditions: Conditions,
    /// How long it was tried.
    pub tried: Hours,
    /// When power first failed; `None` when it held.
    pub failed_at: Option<Hours>,
    /// The load that stood without power for longest, by its place in the plan, and for how long.
    pub worst: Option<(usize, Hours)>,
    /// Hours in which the battery itself gave nothing.
    pub dead: Hours,
    /// Lowest state of charge.
    pub lowest: Share,
    /// Lowest voltage where the cut-off senses, while it was closed.
    pub sensed: Option<Volts>,
}

impl Trial {
    /// Whether every load had its power.
    pub fn held(&self) -> bool {
        self.failed_at.is_none()
    }
}

/// The promise, tried.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Promise {
    /// The days without charge, under each of the conditions. Empty where there is no battery.
    pub without_charge: Vec<Trial>,
    /// The usual week, at the end of its life: on the coldest and on the warmest days.
    pub usual: Vec<Trial>,
}

impl Promise {
    /// Whether the days without charge hold under all conditions.
    pub fn held(&self) -> bool {
        self.without_charge.iter().all(Trial::held)
    }

    /// The trial without charge that fails first.
    pub fn broken(&self) -> Option<&Trial> {
        first_to_fail(&self.without_charge)
    }

    /// The usual week that fails first.
    pub fn unusual(&self) -> Option<&Trial> {
        first_to_fail(&self.usual)
    }
}

fn first_to_fail(trials: &[Trial]) -> Option<&Trial> {
    let failed = trials.iter().filter_map(|t| Some((t, t.failed_at?)));
    failed.min_by(|a, b| a.1.get().total_cmp(&b.1.get())).map(|(trial, _)| trial)
}

/// The days without charge as they go with a cut-off that never opens.
#[derive(Clone, Debug, Default)]
pub(crate) struct Uncut {
    trials: Vec<Trial>,
    delay: f64,
    between: f64,
}

impl Uncut {
    /// Try a bank, with a cut-off that would wait so long, and so much between its posts and where it senses.
    pub fn of(site: &Installation, bank: &Bank, between: Ohms, delay: Seconds) -> Self {
        let (delay, between) = (delay.get(), between.get());
        let never = CutSettings { cut: 0.0, reconnect: 0.0, delay, between };
        let Some(scenario) = Scenario::new(site, bank, Amps::ZERO, never) else { return Uncut::default() };
        Uncut { trials: Conditions::ALL.map(|c| without_charge(&scenario, c)).into(), delay, between }
    }

    /// The highest setting of the cut-off that keeps the days without charge; `None` where none does, since the
    /// battery itself gives up or a load switches itself off.
    pub fn highest(&self) -> Option<Volts> {
        let sensed = self.trials.iter().map(|trial| trial.sensed.filter(|_| trial.held()));
        sensed.reduce(|a, b| Some(a?.min(b?))).flatten()
    }

    /// Whether a cut-off set like this never opens either.
    fn never_opened(&self, cut: &CutSettings) -> bool {
        let same = cut.delay == self.delay && cut.between == self.between;
        same && self.highest().is_some_and(|highest| cut.cut <= highest.get())
    }
}

/// Try the promise with a bank, what its charger gives and a cut-off as it is set.
pub(crate) fn promise(site: &Installation, bank: &Bank, charging: Amps, cut: CutSettings, uncut: &Uncut) -> Promise {
    let Some(scenario) = Scenario::new(site, bank, charging, cut) else { return Promise::default() };
    let without_charge = match uncut.never_opened(&cut) {
        true => uncut.trials.clone(),
        false => Conditions::ALL.map(|c| without_charge(&scenario, c)).into(),
    };
    let usual = Conditions::ALL.into_iter().filter(|c| c.aged).map(|c| usual(&scenario, c));
    Promise { without_charge, usual: usual.collect() }
}

fn without_charge(scenario: &Scenario<'_>, conditions: Conditions) -> Trial {
    let lasts = Hours::new(scenario.site.days_without_charge.get() * 24.0);
    let (span, vary) = set(scenario, conditions, (lasts.get() / 24.0).ceil() as u32);
    trial(scenario, conditions, lasts, span, &Vary { fed: false, until: lasts, ..vary })
}

fn usual(scenario: &Scenario<'_>, conditions: Conditions) -> Trial {
    let (span, vary) = set(scenario, conditions, WEEK);
    trial(scenario, conditions, Hours::new(f64::from(WEEK) * 24.0), span, &vary)
}

/// The season by the day of the year; the plan's own extremes by what they add to it.
fn set(scenario: &Scenario<'_>, conditions: Conditions, days: u32) -> (Span, Vary) {
    let site = scenario.site;
    let climate = Climate::new(&site.surroundings);
    let (day, air) = match conditions.cold {
        true => (climate.coldest_day(), cold_air(&site.surroundings)),
        false => (climate.warmest_day(), summer_air(&site.surroundings)),
    };
    let health = if conditions.aged { end_of_life(site, scenario.chemistry) } else { Share::FULL };
    let span = Span { days: days.max(1), first_day: day, health, ..Span::default() };
    let mean = (climate.air(f64::from(day), 3.0).get() + climate.air(f64::from(day), 15.0).get()) / 2.0;
    (span, Vary { warmer: air - Celsius::new(mean), ..Vary::of(span) })
}

fn trial(scenario: &Scenario<'_>, conditions: Conditions, tried: Hours, span: Span, vary: &Vary) -> Trial {
    let out = run(scenario, span, vary, false);
    let worst = out.loads.iter().enumerate().map(|(load, hours)| (load, hours.unserved));
    let worst = worst.filter(|(_, hours)| *hours > MOMENT).max_by(|a, b| a.1.get().total_cmp(&b.1.get()));
    Trial {
        conditions,
        tried,
        failed_at: failed_at(&out, worst),
        worst,
        dead: out.dead_hours,
        lowest: out.lowest,
        sensed: out.lowest_sensed,
    }
}

/// When power first failed: the cut-off opened, the battery gave up, or a load switched itself off.
fn failed_at(out: &Endurance, worst: Option<(usize, Hours)>) -> Option<Hours> {
    let failed = worst.is_some() || out.cuts > 0 || out.dead_hours > MOMENT;
    failed.then(|| out.first_cut.unwrap_or(out.lowest_at))
}
