//! The loop: days, hours, minutes, and five seconds where something switches.
//!
//! In leaps (`leap`) it goes from one switching to the next, as far as nothing
//! acts on the voltage on the way.

use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::place::{air_there, bay_heat, heater, warmed};
use crate::engine::physics::cell::kinetic::{Step, Wells};
use crate::engine::physics::cell::model::{BatteryModel, Source, Warmth};
use crate::engine::simulate::days::bay::Bay;
use crate::engine::simulate::days::counter::Counting;
use crate::engine::simulate::days::demand::{Does, Draw, SETTLED, Steady, Turn};
use crate::engine::simulate::days::of_day::OfDay;
use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::result::LoadHours;
use crate::engine::simulate::days::scenario::{SUN, Scenario, Sunny, Vary};
use crate::engine::simulate::days::span::Span;
use crate::engine::simulate::days::starter::Starter;
use crate::quantity::*;

pub(super) const MINUTE: f64 = 60.0;
const FINE: f64 = 5.0;
/// A load that switched itself off for low voltage comes back this much higher.
/// Common practice, no source.
const OWN_RETURN: f64 = 0.5;

const NO_SUN: Sunny = Sunny { amps: 0.0, until: 1440 };

/// How the days are gone through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Pace {
    /// Minute by minute, with the curve kept.
    Shown,
    /// Minute by minute.
    Minutes,
    /// From switching to switching; no further than until the days repeat.
    Leaps,
}

pub(super) struct State<'a> {
    pub(super) scenario: &'a Scenario<'a>,
    pub(super) model: BatteryModel<'a>,
    /// Steps of whole minutes, from one on.
    pub(super) steps: Vec<Step>,
    fine_step: Step,
    pub(super) wells: Wells,
    /// Voltage at the posts and current out of them, last step.
    pub(super) volts: f64,
    pub(super) current: f64,
    /// What the loads took then.
    pub(super) used: f64,
    /// What the battery's heater pad takes in this hour, in W.
    heater: f64,
    pub(super) starter: Option<Starter<'a>>,
    pub(super) counting: Option<Counting>,
    /// Where it stands beside the engine.
    pub(super) bay: Option<Bay>,
    pub(super) connected: bool,
    /// The battery gives nothing: empty, or its own protection open.
    pub(super) dead: bool,
    pub(super) low_for: f64,
    pub(super) high_for: f64,
    pub(super) turns: Vec<Turn>,
    /// In which minutes of this day the cycling loads are used.
    pub(super) today: Vec<Minutes>,
    pub(super) steady: Vec<LoadHours>,
    pub(super) now: Now,
    /// The battery as the last leap left it, while the hour lasts.
    pub(super) stands: Option<Source>,
}

/// What holds until times of loads or sources begin or end.
#[derive(Default)]
pub(super) struct Now {
    /// Until which minute of the day.
    pub(super) until: u16,
    /// What the loads that do not cycle draw.
    pub(super) draws: Steady,
    /// The cycling loads whose time it is.
    pub(super) turns: Vec<usize>,
    /// The others whose time it is.
    pub(super) steady: Vec<usize>,
}

/// What holds for an hour.
pub(super) struct HourOf {
    pub(super) warmth: Warmth,
    charge_volts: f64,
    air: Celsius,
}

/// What a minute asks and offers.
#[derive(Clone, Copy, Default)]
pub(super) struct Ask {
    pub(super) behind: Draw,
    before: Draw,
    pub(super) offered: f64,
    /// Part of the offer that comes in behind the cut-off.
    pub(super) offered_behind: f64,
    /// Whether it has a start, and the largest of them that outlasts the delay.
    pub(super) starts: bool,
    pub(super) surge: f64,
    /// Whether a load that should draw has no power.
    lacks: bool,
    /// The highest voltage at which a load that draws would switch itself off.
    pub(super) own_cut: f64,
    /// For how many minutes the cycling loads go on like this; found only for leaps.
    pub(super) alike: u16,
}

/// What flows in a step.
pub(super) struct Flow {
    /// Out of the posts; negative: in.
    pub(super) out: f64,
    /// At the posts.
    pub(super) volts: f64,
    open: f64,
    pub(super) inner: f64,
    used: f64,
}

/// What a step does to the charge.
pub(super) struct Moved {
    pub(super) wells: Wells,
    stored: f64,
    leak: Amps,
    from_wells: Amps,
}

impl<'a> State<'a> {
    pub(super) fn new(scenario: &'a Scenario<'a>, vary: &Vary, pace: Pace) -> Self {
        let model = scenario.model(vary.health);
        let wells = model.rested(vary.from);
        let open = model.source(wells, &model.warmth(scenario.site.surroundings.mean)).open.get();
        let longest = if pace == Pace::Leaps { 60 } else { 1 };
        State {
            scenario,
            steps: (1..=longest).map(|n| model.step(Seconds::new(MINUTE * f64::from(n)))).collect(),
            fine_step: model.step(Seconds::new(FINE)),
            wells,
            volts: open,
            current: 0.0,
            used: 0.0,
            heater: 0.0,
            starter: scenario.starter.as_ref().map(|side| Starter::new(side, vary.health)),
            bay: Bay::of(bay_heat(scenario.site)),
            counting: scenario.cut.counted.map(|counted| Counting::new(counted, model.rated())),
            connected: true,
            dead: false,
            low_for: 0.0,
            high_for: 0.0,
            turns: scenario.cycling.iter().map(|c| Turn::owing(c.turn)).collect(),
            today: vec![Minutes::NONE; scenario.cycling.len()],
            steady: vec![LoadHours::default(); scenario.steady_loads.len()],
            now: Now::default(),
            stands: None,
            model,
        }
    }

    /// Whether it went on until midnight.
    pub(super) fn day(&mut self, day: u32, span: Span, vary: &Vary, record: &mut Record) -> bool {
        let s = self.scenario;
        let day_of_year = (span.first_day - 1 + day) % 365 + 1;
        let of_year = f64::from(day_of_year);
        let weekday = vary.weekday + day as usize;
        let fed = |minutes: Minutes| if vary.fed { minutes } else { Minutes::NONE };
        let (drives, plugged) = (fed(s.driving.on(weekday)), fed(s.mains.on(weekday)));
        let south = s.site.surroundings.latitude.get() < 0.0;
        let of_day = OfDay { number: weekday, of_year: day_of_year, drives, season: vary.season, south };
        for (today, c) in self.today.iter_mut().zip(&s.cycling) {
            *today = of_day.used(&c.calendar, c.allowed, c.only_driving);
        }
        self.starter.iter_mut().for_each(|starter| starter.begins(s.site, &of_day));
        let weather = if vary.weather.is_empty() { 1.0 } else { vary.weather[day as usize % vary.weather.len()] };
        let sun = if vary.fed && s.solar > 0.0 { s.sun(of_year, vary.sun * weather) } else { Vec::new() };
        self.now.until = 0;
        let end = (vary.until.get() * 60.0).ceil() as u32;
        for hour in 0..24u16 {
            let at = self.hour(of_year, (hour, &drives), vary);
            record.hour(at.air);
            let mut minute = hour * 60;
            while minute < hour * 60 + 60 {
                let left = end.saturating_sub(record.minute());
                if left == 0 || (vary.to_failure && (self.dead || !self.connected)) {
                    return false;
                }
                let Sunny { amps: sun_now, until } = sun.get(usize::from(minute / SUN)).copied().unwrap_or(NO_SUN);
                let engine = drives.has(minute);
                let driving = self.driving(minute, engine, at.air, vary);
                let mains = if plugged.has(minute) { s.mains_current } else { 0.0 };
                if minute >= self.now.until {
                    self.begins(minute, engine, vary.draw);
                }
                let mut ask = self.ask(vary.draw);
                for (amps, behind) in [(driving, s.behind.charger), (mains, s.behind.mains), (sun_now, s.behind.solar)]
                {
                    *if behind { &mut ask.offered_behind } else { &mut ask.offered } += amps;
                }
                if ask.lacks {
                    record.lacked();
                }
                let most = self.most(minute, &ask, driving, until).min(left.min(1440) as u16);
                let stood = (!self.connected, self.dead);
                let minutes = self.step(&ask, &at, most, record);
                let hours = Hours::new(f64::from(minutes) / 60.0);
                self.pass(minutes, hours, stood, record);
                self.starter_after(&ask, driving, hours, record);
                let ledger = record.ledger();
                ledger.from_driving += Amps::new(driving) * hours;
                ledger.from_sun += Amps::new(sun_now) * hours;
                ledger.from_mains += Amps::new(mains) * hours;
                let charge = self.model.charge(self.wells);
                record.minutes(minutes, charge, self.volts, self.current, at.air, !self.connected);
                minute += minutes;
            }
        }
        true
    }

    /// Of the battery and of the starter battery.
    pub(super) fn charges(&self) -> (Share, Share) {
        (self.model.charge(self.wells), self.starter.as_ref().map_or(Share::FULL, Starter::charge))
    }

    /// Whether every load had its power up to now.
    pub(super) fn untroubled(&self, record: &Record) -> bool {
        let mut loads = self.turns.iter().map(|turn| turn.hours).chain(self.steady.iter().copied());
        record.out.cuts == 0 && record.out.dead_hours == Hours::ZERO && loads.all(|load| load.unserved == Hours::ZERO)
    }

    fn hour(&mut self, of_year: f64, (hour, drives): (u16, &Minutes), vary: &Vary) -> HourOf {
        let s = self.scenario;
        let air = s.climate.air(of_year, f64::from(hour) + 0.5) + vary.warmer;
        let around = air_there(s.site, air);
        let there = warmed(s.site, s.capacity(), around);
        let mut warmth = self.model.warmth(there);
        let mut hot = there;
        if let Some(bay) = &mut self.bay {
            bay.hour(drives, hour);
            hot = there + bay.battery;
            warmth = self.model.warmth(hot).worse(warmth);
        }
        self.turns.iter_mut().zip(&s.cycling).for_each(|(turn, cycling)| turn.draws_for(cycling.share(air)));
        self.stands = None;
        self.heater = heater(s.site, s.capacity(), around).get();
        HourOf { warmth, charge_volts: s.charge_volts(hot), air }
    }

    /// What the loads want in the minute at hand.
    fn ask(&mut self, times: f64) -> Ask {
        let s = self.scenario;
        let Steady { behind, before } = self.now.draws;
        let mut ask = Ask { behind, before, alike: u16::MAX, ..Ask::default() };
        ask.behind.power += self.heater * times;
        let leaps = self.steps.len() > 1;
        for &place in &self.now.turns {
            let (turn, cycling) = (&mut self.turns[place], &s.cycling[place]);
            if cycling.own_cut > 0.0 {
                turn.tripped = self.volts < cycling.own_cut + if turn.tripped { OWN_RETURN } else { 0.0 };
            }
            let powered = !self.dead && (self.connected || cycling.before) && !turn.tripped;
            turn.does = match powered {
                false => Does::Lack,
                true if turn.on => Does::Draw,
                true if turn.owed + turn.share >= cycling.turn - SETTLED => Does::Start,
                true => Does::Wait,
            };
            ask.lacks |= turn.does == Does::Lack;
            if turn.runs() {
                let side = if cycling.before { &mut ask.before } else { &mut ask.behind };
                side.add(&cycling.draw, times);
                ask.own_cut = ask.own_cut.max(cycling.own_cut);
            }
            if turn.does == Does::Start && !cycling.starts.is_empty() {
                ask.starts = true;
                ask.surge = ask.surge.max(cycling.rush(s.cut.delay));
            }
            if leaps {
                ask.alike = ask.alike.min(turn.alike(cycling.turn));
            }
        }
        ask
    }

    /// So many minutes at once, or one; how many it were.
    fn step(&mut self, ask: &Ask, at: &HourOf, most: u16, record: &mut Record) -> u16 {
        if most > 1 && self.leap(ask, at, most, record) {
            return most;
        }
        let mut left = MINUTE;
        while left > 0.5 {
            let switching = self.low_for > 0.0 || self.high_for > 0.0;
            let length = if switching { FINE.min(left) } else { left };
            self.advance(ask, at, length, record);
            left -= length;
        }
        1
    }

    /// One step of the battery, then what the cut-off makes of its voltage.
    fn advance(&mut self, ask: &Ask, at: &HourOf, length: f64, record: &mut Record) {
        let step = self.step_of(length);
        if self.dead && self.offered(ask) > 0.0 {
            self.dead = false;
        }
        let mut flow = self.flow(ask, at, &step);
        if flow.out > 0.0 && self.gives_up(&flow, at, &step, length) {
            self.dead = true;
            record.lacked();
            flow = Flow { out: 0.0, volts: flow.open, used: 0.0, ..flow };
        }
        let moved = self.moved(&flow, at, &step);
        self.stands = None;
        self.book(&flow, moved, length, self.offered(ask), at, record);
        self.watch(ask, &flow, length, record);
    }

    /// What the sources offer that reach the battery.
    pub(super) fn offered(&self, ask: &Ask) -> f64 {
        ask.offered + if self.connected { ask.offered_behind } else { 0.0 }
    }

    /// What flows, with the battery as it stands.
    pub(super) fn flow(&self, ask: &Ask, at: &HourOf, step: &Step) -> Flow {
        let offered = self.offered(ask);
        let mut total = Draw::default();
        if !self.dead {
            total = ask.before;
            if self.connected {
                total.add(&ask.behind, 1.0);
            }
        }
        let source = self.stands.unwrap_or_else(|| self.model.source(self.wells, &at.warmth));
        let (open, inner) = (source.open.get(), source.inner.get());
        let (out, volts) = if offered > 0.0 {
            self.while_charging(&total, offered, at, step, open, inner)
        } else {
            match total.settle(open, inner) {
                Some(volts) => (total.at(volts), volts),
                None => (f64::INFINITY, 0.0),
            }
        };
        Flow { out, volts, open, inner, used: if self.dead { 0.0 } else { total.at(volts) } }
    }

    fn step_of(&self, length: f64) -> Step {
        match self.steps.first() {
            Some(minute) if length >= MINUTE => *minute,
            _ if (length - FINE).abs() < 1e-9 => self.fine_step,
            _ => self.model.step(Seconds::new(length)),
        }
    }

    /// Current out of the posts (negative: in) and their voltage with something offered.
    fn while_charging(
        &self,
        total: &Draw,
        offered: f64,
        at: &HourOf,
        step: &Step,
        open: f64,
        inner: f64,
    ) -> (f64, f64) {
        let used = total.at(self.volts.clamp(open - 2.0, at.charge_volts.max(open)));
        let net = used - offered;
        if net > 0.0 {
            return (net, open - net * inner);
        }
        let most = self.model.most_in(self.wells, &at.warmth, step).get();
        let by_volts = if inner > 0.0 { ((at.charge_volts - open) / inner).max(0.0) } else { most };
        let taken = (-net).min(most).min(by_volts);
        let limited = taken < -net - 1e-9;
        let volts = if limited { at.charge_volts.max(open) } else { open + taken * inner };
        (-taken, volts)
    }

    /// Whether the battery cannot give this: nothing at hand, or its own protection opens.
    pub(super) fn gives_up(&self, flow: &Flow, at: &HourOf, step: &Step, length: f64) -> bool {
        if !flow.out.is_finite() || flow.volts < self.scenario.protection.max(1.0) {
            return true;
        }
        // Far from empty there is no need to ask.
        let plenty = self.wells.at_hand.get() * 0.05 > flow.out * length / 3600.0 && at.warmth.plenty(self.wells);
        !plenty && self.model.most_out(self.wells, &at.warmth, step).get() < flow.out
    }

    /// What that does to the charge.
    pub(super) fn moved(&self, flow: &Flow, at: &HourOf, step: &Step) -> Moved {
        let leak = self.model.leak(self.wells, &at.warmth);
        let efficiency = || self.model.efficiency(self.model.charge(self.wells)).get();
        let stored = if flow.out < 0.0 { -flow.out * efficiency() } else { 0.0 };
        let from_wells = Amps::new(flow.out.max(0.0) - stored) + leak;
        Moved { wells: step.after(self.wells, from_wells), stored, leak, from_wells }
    }

    /// Put it down.
    pub(super) fn book(
        &mut self,
        flow: &Flow,
        moved: Moved,
        length: f64,
        offered: f64,
        at: &HourOf,
        record: &mut Record,
    ) {
        let Moved { wells, stored, leak, from_wells } = moved;
        let hours = Hours::new(length / 3600.0);
        self.wells = wells;
        if let Some(counting) = &mut self.counting {
            counting.pass(length, self.model.charge(wells));
        }
        let amps = Amps::new(flow.out.abs()) * hours;
        let ledger = &mut record.out.ledger;
        ledger.used += Amps::new(flow.used) * hours;
        ledger.leaked += leak * hours;
        let (volts, open) = (Volts::new(flow.volts), Volts::new(flow.open));
        if flow.out >= 0.0 {
            ledger.drawn += amps;
            ledger.energy_out += volts * amps;
            ledger.energy_lost += (open - volts) * amps;
            record.today.drawn += amps;
        } else {
            let lost = amps - Amps::new(stored) * hours;
            ledger.charged += amps;
            ledger.lost += lost;
            ledger.energy_in += volts * amps;
            ledger.energy_lost += (volts - open) * amps + open * lost;
            record.today.charged += amps;
        }
        ledger.energy_lost += open * (leak * hours);
        ledger.energy_stored -= open * (from_wells * hours);
        if offered > 0.0 && !at.warmth.charges {
            record.out.refused_hours += hours;
        }
        if self.dead {
            record.out.dead_hours += hours;
        }
        (self.volts, self.current, self.used) = (flow.volts, flow.out, flow.used);
    }

    /// What flows through the cut-off at such a voltage at the posts.
    pub(super) fn through(&self, ask: &Ask, posts: f64) -> f64 {
        (ask.behind.at(posts) - ask.offered_behind).max(0.0)
    }

    /// Note how low it is with so much through the cut-off, alone and with the starts of this minute.
    pub(super) fn note(&self, (posts, through): (f64, f64), inner: f64, starts: bool, record: &mut Record) {
        let (now, lows) = (record.now(), &mut record.out.lows);
        lows.add(posts, through, f64::MAX, now);
        if starts {
            let turns = self.turns.iter().zip(&self.scenario.cycling).filter(|(turn, _)| turn.does == Does::Start);
            for rush in turns.flat_map(|(_, cycling)| &cycling.starts) {
                lows.add(posts - rush.adds * inner, through + rush.adds, rush.lasts, now);
            }
        }
    }

    /// The cut-off watches the voltage at its sensing point.
    fn watch(&mut self, ask: &Ask, flow: &Flow, length: f64, record: &mut Record) {
        let cut = self.scenario.cut;
        if self.connected {
            let through = self.through(ask, flow.volts);
            self.note((flow.volts, through), flow.inner, ask.starts, record);
            let sensed = flow.volts - through * cut.between;
            let surged = ask.surge > 0.0 && sensed - ask.surge * (flow.inner + cut.between) < cut.cut;
            self.low_for = if sensed < cut.cut { self.low_for + length } else { 0.0 };
            let counted = self.counting.is_some_and(|c| c.opens(self.model.charge(self.wells), 0.0));
            if (self.low_for > 0.0 && self.low_for >= cut.delay) || surged || counted {
                self.connected = false;
                self.low_for = 0.0;
                record.opened(self.model.charge(self.wells), flow.out + ask.surge);
            }
        } else {
            let high = match &self.counting {
                Some(counting) => flow.volts > cut.cut && counting.closes(self.model.charge(self.wells)),
                None => flow.volts >= cut.reconnect,
            };
            self.high_for = if high { self.high_for + length } else { 0.0 };
            if self.high_for > 0.0 && self.high_for >= cut.delay {
                self.connected = true;
                self.high_for = 0.0;
            }
        }
    }
}
