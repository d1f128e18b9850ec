//! A plan made ready for stepping: everything looked up once.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::charger::{charge_voltage_at, standing_current};
use crate::engine::installation::climate::Climate;
use crate::engine::installation::counter::Counter;
use crate::engine::installation::cut_off::{behind, inverter_stays_on, stays_on};
use crate::engine::installation::load::Load;
use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::sources::{has_mains, solar_current, sun_of};
use crate::engine::installation::times::Times;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::model::{BatteryModel, Tables};
use crate::engine::physics::cell::store::Store;
use crate::engine::simulate::budget::inverter_hours;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::days::demand::{Cycling, Draw, Steady, cycling, is_steady};
use crate::engine::simulate::days::of_day::Season;
use crate::engine::simulate::days::span::Span;
use crate::engine::simulate::days::starter::StarterSide;
use crate::plan::{Weekdays, point};
use crate::quantity::*;
use std::sync::Arc;

/// The sun is looked at so often, in minutes.
pub(crate) const SUN: u16 = 10;

/// A plan ready to be simulated, as often as wanted.
#[derive(Clone, Debug)]
pub struct Scenario<'a> {
    pub(crate) site: &'a Installation,
    pub(crate) chemistry: &'a Chemistry,
    store: Store<'a>,
    new: BatteryModel<'a>,
    pub(crate) climate: Climate,
    /// All day long: standing draws, and the idle inverter spread over it.
    pub(crate) standing: Steady,
    pub(crate) steady_loads: Vec<SteadyLoad>,
    /// The minutes at which the times of loads or sources begin or end.
    pub(crate) edges: Minutes,
    pub(crate) cycling: Vec<Cycling>,
    pub(crate) driving: Times,
    pub(crate) mains: Times,
    pub(crate) charger: f64,
    pub(crate) mains_current: f64,
    /// Current of the array at 1 kW/m².
    pub(crate) solar: f64,
    /// Which of them come in behind the cut-off.
    pub(crate) behind: SourcesBehind,
    pub(crate) cut: CutSettings,
    pub(crate) protection: f64,
    /// The starter battery and what hangs on it.
    pub(crate) starter: Option<StarterSide<'a>>,
}

/// Loads that do not cycle and have the same times.
#[derive(Clone, Debug)]
pub(crate) struct SteadyLoad {
    /// Their places in the plan.
    pub loads: Vec<usize>,
    /// All of them together.
    pub draw: Draw,
    pub allowed: Minutes,
    pub before: bool,
    pub only_driving: bool,
}

/// What the array gives.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sunny {
    pub amps: f64,
    /// The minute from which it gives something else.
    pub until: u16,
}

/// Sources that come in behind the cut-off, so that they reach the battery only while it is closed.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SourcesBehind {
    pub charger: bool,
    pub mains: bool,
    pub solar: bool,
}

/// The cut-off as it is set, in volts, seconds and ohms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutSettings {
    /// Where it opens.
    pub cut: f64,
    /// Where it closes.
    pub reconnect: f64,
    /// How long it waits.
    pub delay: f64,
    /// Between the posts and where it senses.
    pub between: f64,
    /// What counts the charge, where that makes it open.
    pub counted: Option<Counted>,
}

/// A counter of charge as it is set: shares, Ah and shares an hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted {
    /// Where it opens.
    pub opens: f64,
    /// Where it closes.
    pub closes: f64,
    /// Capacity that is set in it.
    pub counts_on: f64,
    /// How far it is off when full.
    pub reset: f64,
    /// How far it strays.
    pub drift_an_hour: f64,
}

impl Counted {
    /// For a bank of so much.
    pub(crate) fn of(counter: &Counter, bank: AmpHours) -> Self {
        Counted {
            opens: counter.opens.get(),
            closes: counter.closes.get(),
            counts_on: bank.get() * counter.counts_on.get(),
            reset: counter.reset.get(),
            drift_an_hour: counter.drift.get() / 24.0,
        }
    }
}

impl CutSettings {
    /// As designed for a bank of so much.
    pub fn of(design: &CutOffDesign, bank: AmpHours) -> Self {
        CutSettings {
            cut: design.cut.get(),
            reconnect: design.reconnect.get(),
            delay: design.delay.get(),
            between: design.between.get(),
            counted: design.counter.map(|counter| Counted::of(&counter, bank)),
        }
    }
}

/// What is varied from the plan. The default varies nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct Vary {
    /// Factor on what the loads draw.
    pub draw: f64,
    /// Added to the air.
    pub warmer: Kelvins,
    /// Factor on the sun of every day.
    pub sun: f64,
    /// Factor on the sun of each day, repeated; empty for none.
    pub weather: Vec<f64>,
    /// Factor on the charge current while driving.
    pub driving: f64,
    /// Share of the capacity that age has left.
    pub health: Share,
    /// State of charge at the beginning.
    pub from: Share,
    /// Whether anything charges.
    pub fed: bool,
    /// When it ends, where that is before the last midnight.
    pub until: Hours,
    /// Day of the fortnight on which it begins, 0 for the Monday of week A.
    pub weekday: usize,
    /// Which half of the year's loads there are, whatever the day; those of each day's month when `None`.
    pub season: Option<Season>,
    /// It ends as soon as the cut-off opens or the battery gives nothing.
    pub to_failure: bool,
}

impl Vary {
    /// Nothing but what the span says.
    pub fn of(span: Span) -> Self {
        Vary {
            draw: 1.0,
            warmer: Kelvins::ZERO,
            sun: 1.0,
            weather: Vec::new(),
            driving: 1.0,
            health: span.health,
            from: span.from,
            fed: true,
            until: Hours::new(f64::MAX),
            weekday: 0,
            season: None,
            to_failure: false,
        }
    }
}

impl<'a> Scenario<'a> {
    /// Make a plan ready; `None` when it has no battery. `charging`: what the charger gives while driving.
    /// `tables`: those of its battery's chemistry, where they are known.
    pub(crate) fn new(
        site: &'a Installation,
        bank: &Bank,
        charging: Amps,
        cut: CutSettings,
        tables: Option<&Arc<Tables>>,
    ) -> Option<Self> {
        let chemistry = site.chemistry().filter(|_| bank.capacity.get() > 0.0)?;
        let tables = tables.cloned().unwrap_or_else(|| Tables::of(chemistry));
        let inverter_cut = (site.inverter.rating.get() > 0.0).then_some(site.inverter.own_cut);
        let mut out = Scenario {
            site,
            chemistry,
            store: bank.store(chemistry),
            new: BatteryModel::new(&bank.store(chemistry), Share::FULL, tables),
            climate: Climate::new(&site.surroundings),
            standing: Steady::default(),
            steady_loads: Vec::new(),
            edges: Minutes::NONE,
            cycling: Vec::new(),
            driving: site.drives,
            mains: if has_mains(site) { site.plugged } else { Times::daily(Minutes::NONE) },
            charger: charging.get(),
            mains_current: site.mains.current.get(),
            solar: solar_current(site, chemistry, &mut Notes::unkept()).get(),
            behind: SourcesBehind {
                charger: behind(site, point::CHARGER) == Some(true),
                mains: behind(site, &site.mains.at) == Some(true),
                solar: behind(site, &site.solar.at) == Some(true),
            },
            cut,
            protection: chemistry.low.own_protection.map_or(0.0, Volts::get),
            starter: StarterSide::of(site, chemistry),
        };
        for (index, load) in site.loads.iter().enumerate() {
            let before = stays_on(site, load);
            out.take(index, load, inverter_cut, before);
        }
        out.standing = out.standing_draws();
        out.edges = out.edges();
        Some(out)
    }

    /// The same with another bank of its kind, another charger and another cut-off.
    pub(crate) fn refit(&mut self, bank: &Bank, charging: Amps, cut: CutSettings) {
        self.store = bank.store(self.chemistry);
        self.new = self.new.aged(&self.store, Share::FULL);
        (self.charger, self.cut) = (charging.get(), cut);
        self.standing = self.standing_draws();
    }

    /// Whether each day is like the other.
    pub(crate) fn daily(&self) -> bool {
        let same = |days: &Weekdays| days.is_daily() || days.is_none();
        self.days().all(|days| same(&days)) && self.cycling.iter().all(|c| c.calendar.is_daily()) && {
            self.site.loads.iter().filter(|l| l.on_starter).all(|l| l.calendar.is_daily())
        }
    }

    /// Days after which the week, or the fortnight, begins anew.
    pub(crate) fn round(&self) -> u32 {
        let loads = self.cycling.iter().map(|c| c.calendar.times.days());
        if self.days().chain(loads).all(Weekdays::weeks_alike) { 7 } else { 14 }
    }

    /// The days of the sources.
    fn days(&self) -> impl Iterator<Item = Weekdays> + '_ {
        [self.driving, self.mains].into_iter().map(|times| times.days())
    }

    fn take(&mut self, index: usize, load: &Load, inverter_cut: Option<Volts>, before: bool) {
        if load.count == 0 || load.allowed.count() == 0 || load.on_starter {
            return;
        }
        if !is_steady(load) || (load.inverter && inverter_cut.is_some()) {
            let new = cycling(index, load, inverter_cut, before);
            if !self.cycling.iter_mut().any(|known| known.takes_in(&new)) {
                self.cycling.push(new);
            }
            return;
        }
        let (draw, only_driving) = (Draw::of(load.law), load.only_driving());
        let alike = |l: &&mut SteadyLoad| (l.allowed, l.before, l.only_driving) == (load.allowed, before, only_driving);
        match self.steady_loads.iter_mut().find(alike) {
            Some(known) => {
                known.loads.push(index);
                known.draw.add(&draw, 1.0);
            }
            None => {
                let (loads, allowed) = (vec![index], load.allowed);
                self.steady_loads.push(SteadyLoad { loads, draw, allowed, before, only_driving });
            }
        }
    }

    /// Standing draws before the cut-off; the inverter's idle draw on its side, spread over the day.
    fn standing_draws(&self) -> Steady {
        let mut out = Steady::default();
        let own = self.chemistry.low.own_draw.get() * self.store.capacity.get() / 100.0;
        let standing = standing_current(self.site).value.get() + own;
        out.before.add(&Draw { current: standing, ..Draw::default() }, 1.0);
        let hours = inverter_hours(self.site).get();
        let idle = Draw { power: self.site.inverter.idle_draw.get() * hours / 24.0, ..Draw::default() };
        let side = if inverter_stays_on(self.site) { &mut out.before } else { &mut out.behind };
        side.add(&idle, 1.0);
        out
    }

    fn edges(&self) -> Minutes {
        let loads = self.cycling.iter().map(|c| c.allowed).chain(self.steady_loads.iter().map(|l| l.allowed));
        let days = self.cycling.iter().map(|c| c.calendar.times).chain([self.driving, self.mains]);
        let starter = self.site.loads.iter().filter(|l| l.on_starter);
        let starter = starter.map(|l| l.allowed.edges().or(l.calendar.times.edges()));
        let edges = loads.map(Minutes::edges).chain(days.map(|times| times.edges())).chain(starter);
        edges.fold(Minutes::NONE, Minutes::or)
    }

    /// The tables of its battery's chemistry.
    pub(crate) fn tables(&self) -> &Arc<Tables> {
        self.new.tables()
    }

    /// The battery, aged.
    pub(crate) fn model(&self, health: Share) -> BatteryModel<'a> {
        self.new.aged(&self.store, health)
    }

    /// Capacity at the rated hours, new.
    pub fn capacity(&self) -> AmpHours {
        self.store.capacity
    }

    /// Charge voltage at an air temperature.
    pub(crate) fn charge_volts(&self, air: Celsius) -> f64 {
        charge_voltage_at(self.site, self.chemistry, air).get()
    }

    /// The sun of a day by its ten minutes: the clear day's course, times what makes its hours what they are meant to be
    /// and a factor more.
    pub(crate) fn sun(&self, day_of_year: f64, factor: f64) -> Vec<Sunny> {
        let sun = sun_of(self.site, day_of_year);
        let middle = |slot: u16| (f64::from(slot * SUN) + f64::from(SUN) / 2.0) / 60.0;
        let course: Vec<f64> = (0..1440 / SUN).map(|slot| sun.clear(middle(slot))).collect();
        let clear = course.iter().sum::<f64>() * f64::from(SUN) / 60.0;
        let hours = || self.site.solar.sun_hours.unwrap_or_else(|| sun.usual_hours(course.len() as u32));
        let factor = if clear > 0.05 { hours().get() / clear * factor * self.solar } else { 0.0 };
        let mut all: Vec<Sunny> = course.iter().map(|suns| Sunny { amps: suns * factor, until: 1440 }).collect();
        let (mut until, mut then) = (1440, None);
        for (slot, sunny) in (0u16..1440 / SUN).zip(all.iter_mut()).rev() {
            if then.is_some_and(|amps| amps != sunny.amps) {
                until = (slot + 1) * SUN;
            }
            (sunny.until, then) = (until, Some(sunny.amps));
        }
        all
    }
}
