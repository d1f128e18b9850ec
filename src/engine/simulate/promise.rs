//! Does the design hold what it promises?
//!
//! The promise: from full, for the days without charge, new and at the end of
//! its life, on the coldest and on the warmest days, every load has its power
//! and nothing opens; and in the plan's own usual week likewise. Each of
//! these trials is stepped through with the very settings. Left out: what the
//! days leave out, and starts that end within the delay.

use crate::engine::installation::Installation;
use crate::engine::installation::battery::{end_of_life, health};
use crate::engine::installation::climate::{Climate, cold_air, summer_air};
use crate::engine::installation::load::hardest_start;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::model::Tables;
use crate::engine::physics::side_by_side::side_by_side;
use crate::engine::simulate::days::lows::Lows;
use crate::engine::simulate::days::midnight::{Midnight, run_from};
use crate::engine::simulate::days::of_day::Season;
use crate::engine::simulate::days::result::Endurance;
use crate::engine::simulate::days::run::Pace;
use crate::engine::simulate::days::scenario::{CutSettings, Scenario, Vary};
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;
use std::sync::Arc;

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

    /// In few words: `aged, cold`.
    pub fn brief(self) -> &'static str {
        match (self.aged, self.cold) {
            (true, true) => "aged, cold",
            (true, false) => "aged, warm",
            (false, true) => "new, cold",
            (false, false) => "new, warm",
        }
    }

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
    /// Charge left and current when the cut-off opened, where that is what failed first.
    pub opened_with: Option<(Share, Amps)>,
    /// When the starter battery first had less than starting needs.
    pub start_lost: Option<Hours>,
    /// The longest that it was not full, where a counter of charge has to be set right by that.
    pub between_full: Option<Hours>,
    /// Lowest state of charge.
    pub lowest: Share,
    /// Hours after the beginning.
    pub lowest_at: Hours,
    /// Lowest voltage where the cut-off senses, while it was closed, and when: to the hour.
    pub sensed: Option<(Volts, Hours)>,
    /// Where the cut-off is set.
    pub cut: Volts,
}

impl Trial {
    /// Whether every load had its power.
    pub fn held(&self) -> bool {
        self.failed_at.is_none()
    }

    /// By how much the lowest voltage stayed above the cut-off; below zero where that opened.
    pub fn margin(&self) -> Option<Volts> {
        self.sensed.map(|(lowest, _)| lowest - self.cut)
    }
}

/// The promise, tried.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Promise {
    /// The days without charge, under each of the conditions. Empty where there is no battery.
    pub without_charge: Vec<Trial>,
    /// The usual week, or fortnight, at the end of its life: on the coldest and on the warmest days.
    pub usual: Vec<Trial>,
    /// The highest setting of the cut-off that keeps the days without charge; `None` where none does.
    pub kept_by: Option<Volts>,
}

impl Promise {
    /// The trial without charge that is the hardest: the first to fail, or the least above the cut-off.
    pub fn hardest(&self) -> Option<&Trial> {
        let margin = |t: &Trial| t.margin().map_or(f64::MAX, Volts::get);
        let least = self.without_charge.iter().min_by(|a, b| margin(a).total_cmp(&margin(b)));
        self.broken().or(least)
    }

    /// Whether the days without charge hold under all conditions.
    pub fn held(&self) -> bool {
        self.without_charge.iter().all(Trial::held)
    }

    /// The trial without charge that fails first.
    pub fn broken(&self) -> Option<&Trial> {
        first(&self.without_charge, |t| t.failed_at)
    }

    /// The trial in which the engine first does not start, of the usual weeks before those without charge.
    pub fn start_lost(&self) -> Option<&Trial> {
        [&self.usual, &self.without_charge].into_iter().find_map(|trials| first(trials, |t| t.start_lost))
    }

    /// The usual week that fails first.
    pub fn unusual(&self) -> Option<&Trial> {
        first(&self.usual, |t| t.failed_at)
    }
}

/// The trial in which something comes first.
fn first(trials: &[Trial], when: impl Fn(&Trial) -> Option<Hours>) -> Option<&Trial> {
    let when = trials.iter().filter_map(|t| Some((t, when(t)?)));
    when.min_by(|a, b| a.1.get().total_cmp(&b.1.get())).map(|(trial, _)| trial)
}

/// A cut-off that never opens.
const NEVER: CutSettings = CutSettings { cut: 0.0, reconnect: 0.0, delay: 0.0, between: 0.0, counted: None };

/// A plan made ready for its trials, once, whatever bank, charger and settings.
pub struct Trials<'a>(Scenario<'a>);

impl<'a> Trials<'a> {
    /// Of a plan with such a bank; `None` where there is none.
    /// `tables`: those of its chemistry, where they are known.
    pub fn new(site: &'a Installation, bank: &Bank, tables: Option<&Arc<Tables>>) -> Option<Self> {
        Scenario::new(site, bank, Amps::ZERO, NEVER, tables).map(Trials)
    }

    /// The tables of its battery's chemistry.
    pub fn tables(&self) -> &Arc<Tables> {
        self.0.tables()
    }

    /// The days without charge as they go with a cut-off that never opens.
    pub fn uncut(&mut self, bank: &Bank) -> Uncut {
        self.0.refit(bank, Amps::ZERO, NEVER);
        let trial = |c| without_charge(&self.0, c, false);
        let [a, b, c, d] = Conditions::ALL;
        let ([a, b], [c, d]) = side_by_side(|| [a, b].map(trial), || [c, d].map(trial));
        let trials = [a, b, c, d];
        Uncut::of(trials)
    }

    /// The usual weeks with such a bank and charger as they go with a cut-off that never opens.
    fn usual_uncut(&mut self, bank: &Bank, charging: Amps) -> Uncut {
        self.0.refit(bank, charging, NEVER);
        let (mut cold, mut warm) = (Vec::new(), Vec::new());
        let uncut =
            side_by_side(|| self.usual(true, (None, Some(&mut cold))), || self.usual(false, (None, Some(&mut warm))));
        Uncut { midnights: vec![cold, warm], ..Uncut::of(uncut.into()) }
    }

    /// At the end of its life, on the coldest or on the warmest days.
    fn usual(&self, cold: bool, midnights: Midnights) -> (Trial, Lows) {
        usual(&self.0, Conditions { aged: true, cold }, midnights)
    }

    /// Whether the days without charge hold with such a bank and cut-off.
    pub fn hold(&mut self, bank: &Bank, cut: CutSettings) -> bool {
        self.0.refit(bank, Amps::ZERO, cut);
        Conditions::ALL.into_iter().all(|c| without_charge(&self.0, c, true).0.held())
    }

    /// The days without charge and the usual weeks as they go with a cut-off that never opens, with a bank and what
    /// its charger gives; `uncut`: those without charge, where they are known.
    pub fn days(&mut self, bank: &Bank, steady: Amps, uncut: Option<Uncut>) -> Days {
        let uncut = uncut.unwrap_or_else(|| self.uncut(bank));
        let weeks = self.usual_uncut(bank, steady);
        Days { bank: bank.clone(), steady, uncut, weeks }
    }

    /// The promise with a cut-off as it is set; `or_nothing`: the usual weeks are not gone through where the days
    /// without charge do not hold.
    pub fn promise(&mut self, days: &Days, cut: CutSettings, or_nothing: bool) -> Promise {
        let Days { bank, steady, uncut, weeks } = days;
        self.0.refit(bank, *steady, cut);
        let [a, b, c, d] = Conditions::ALL;
        let days = |n: usize, c| uncut.settled(n, &cut).unwrap_or_else(|| without_charge(&self.0, c, false).0);
        let week = |n, cold| weeks.settled(n, &cut).unwrap_or_else(|| self.usual(cold, (weeks.sound(n, &cut), None)).0);
        let without_charge = side_by_side(|| [days(0, a), days(1, b)], || [days(2, c), days(3, d)]);
        let without_charge = <[_; 2]>::from(without_charge).concat();
        let usual = match or_nothing && !without_charge.iter().all(Trial::held) {
            true => Vec::new(),
            false => <[_; 2]>::from(side_by_side(|| week(0, true), || week(1, false))).to_vec(),
        };
        let kept_by = uncut.highest(Ohms::new(cut.between), Seconds::new(cut.delay));
        Promise { without_charge, usual, kept_by }
    }
}

/// Days without charge and usual weeks as they go with a cut-off that never opens.
#[derive(Clone, Debug)]
pub struct Days {
    /// The bank that they were gone through with.
    pub bank: Bank,
    /// What its charger gives.
    pub steady: Amps,
    /// The days without charge.
    pub uncut: Uncut,
    /// The usual weeks.
    pub weeks: Uncut,
}

/// Trials as they go with a cut-off that never opens: with one that would not have opened they need not be gone through
/// again.
#[derive(Clone, Debug, Default)]
pub struct Uncut {
    trials: Vec<Trial>,
    lows: Vec<Lows>,
    /// Of each trial, as far as they were kept.
    midnights: Vec<Vec<Midnight>>,
}

/// The one from which days are gone through, and where to put those on the way.
type Midnights<'a> = (Option<&'a Midnight>, Option<&'a mut Vec<Midnight>>);

impl Uncut {
    fn of<const N: usize>(trials: [(Trial, Lows); N]) -> Self {
        let (trials, lows) = trials.into_iter().unzip();
        Uncut { trials, lows, midnights: Vec::new() }
    }

    /// The highest setting of a cut-off, behind such a resistance and with such a delay, that keeps them;
    /// `None` where none does, since the battery itself gives up or a load switches itself off.
    pub fn highest(&self, between: Ohms, delay: Seconds) -> Option<Volts> {
        let lowest = self.trials.iter().zip(&self.lows).map(|(trial, lows)| {
            let sensed = lows.lowest(between, delay);
            sensed.filter(|_| trial.held())
        });
        lowest.reduce(|a, b| Some(a?.min(b?))).flatten()
    }

    /// One of the trials with a cut-off that would not have opened either, and what that sensed.
    fn settled(&self, trial: usize, cut: &CutSettings) -> Option<Trial> {
        let (trial, lows) = (self.trials.get(trial)?, self.lows.get(trial)?);
        let sensed = lows.moment(Ohms::new(cut.between), Seconds::new(cut.delay))?;
        // What a counter shows was not looked at.
        let stays = trial.held() && cut.counted.is_none() && cut.cut <= sensed.0.get();
        stays.then_some(Trial { sensed: Some(sensed), cut: Volts::new(cut.cut), ..*trial })
    }

    /// The last midnight of one of the trials until which a cut-off would not have opened either.
    fn sound(&self, trial: usize, cut: &CutSettings) -> Option<&Midnight> {
        // What a counter shows was not looked at.
        if cut.counted.is_some() {
            return None;
        }
        let (between, delay) = (Ohms::new(cut.between), Seconds::new(cut.delay));
        self.midnights.get(trial)?.iter().rev().find(|m| m.keeps(Volts::new(cut.cut), between, delay))
    }
}

fn without_charge(scenario: &Scenario<'_>, conditions: Conditions, to_failure: bool) -> (Trial, Lows) {
    let lasts = Hours::new(scenario.site.days_without_charge.get() * 24.0);
    let days = (lasts.get() / 24.0).ceil() as u32;
    let (span, vary) = set(scenario, conditions, days);
    let weekday = hardest_start(&scenario.site.loads, days as usize);
    let vary = Vary { fed: false, until: lasts, weekday, to_failure, ..vary };
    trial(scenario, conditions, lasts, (span, &vary), (None, None))
}

fn usual(scenario: &Scenario<'_>, conditions: Conditions, midnights: Midnights) -> (Trial, Lows) {
    // To the morning after its last weekend.
    let days = scenario.round() + 1;
    let (span, vary) = set(scenario, conditions, days);
    trial(scenario, conditions, Hours::new(f64::from(days) * 24.0), (span, &vary), midnights)
}

/// The season by the day of the year; the plan's own extremes by what they add to it.
fn set(scenario: &Scenario<'_>, conditions: Conditions, days: u32) -> (Span, Vary) {
    let site = scenario.site;
    let climate = Climate::new(&site.surroundings);
    let (day, air) = match conditions.cold {
        true => (climate.coldest_day(), cold_air(&site.surroundings)),
        false => (climate.warmest_day(), summer_air(&site.surroundings)),
    };
    let health = if conditions.aged { end_of_life(site, scenario.chemistry) } else { health(site) };
    let span = Span { days: days.max(1), first_day: day, health, ..Span::default() };
    let mean = (climate.air(f64::from(day), 3.0).get() + climate.air(f64::from(day), 15.0).get()) / 2.0;
    let season = Some(if conditions.cold { Season::Cold } else { Season::Warm });
    (span, Vary { warmer: air - Celsius::new(mean), season, ..Vary::of(span) })
}

fn trial(
    scenario: &Scenario<'_>,
    conditions: Conditions,
    tried: Hours,
    (span, vary): (Span, &Vary),
    midnights: Midnights,
) -> (Trial, Lows) {
    let out = run_from(scenario, span, vary, Pace::Leaps, midnights);
    let worst = out.loads.iter().enumerate().map(|(load, hours)| (load, hours.unserved));
    let worst = worst.filter(|(_, hours)| *hours > MOMENT).max_by(|a, b| a.1.get().total_cmp(&b.1.get()));
    let cut = scenario.cut;
    let failed_at = failed_at(&out, worst);
    let trial = Trial {
        conditions,
        tried,
        failed_at,
        worst,
        dead: out.dead_hours,
        opened_with: out.first_cut_with.filter(|_| failed_at == out.first_cut),
        start_lost: out.start_lost,
        between_full: out.between_full,
        lowest: out.lowest,
        lowest_at: out.lowest_at,
        sensed: out.lows.moment(Ohms::new(cut.between), Seconds::new(cut.delay)),
        cut: Volts::new(cut.cut),
    };
    (trial, out.lows)
}

/// When power first failed: the cut-off opened, the battery gave up, or a load switched itself off.
fn failed_at(out: &Endurance, worst: Option<(usize, Hours)>) -> Option<Hours> {
    let failed = worst.is_some() || out.cuts > 0 || out.dead_hours > MOMENT;
    let first = [out.first_cut, out.first_lack].into_iter().flatten().reduce(Hours::min);
    failed.then(|| first.unwrap_or(out.lowest_at))
}
