//! The loop: days, hours, minutes, and five seconds where something switches.

use crate::engine::physics::cell::kinetic::{Step, Wells};
use crate::engine::physics::cell::model::{BatteryModel, Warmth};
use crate::engine::physics::sun::SunDay;
use crate::engine::simulate::days::demand::{Draw, Turn};
use crate::engine::simulate::days::record::Record;
use crate::engine::simulate::days::result::Endurance;
use crate::engine::simulate::days::scenario::{Scenario, Vary};
use crate::engine::simulate::days::span::Span;
use crate::quantity::*;

const MINUTE: f64 = 60.0;
const FINE: f64 = 5.0;
/// A load that switched itself off for low voltage comes back this much higher.
/// Common practice, no source.
const OWN_RETURN: f64 = 0.5;

struct State<'a> {
    scenario: &'a Scenario<'a>,
    model: BatteryModel<'a>,
    minute_step: Step,
    fine_step: Step,
    wells: Wells,
    /// Voltage at the posts and current out of them, last step.
    volts: f64,
    current: f64,
    connected: bool,
    /// The battery gives nothing: empty, or its own protection open.
    dead: bool,
    low_for: f64,
    high_for: f64,
    turns: Vec<Turn>,
}

/// What holds for an hour.
struct HourOf {
    warmth: Warmth,
    charge_volts: f64,
    air: Celsius,
}

/// What a minute asks and offers.
#[derive(Clone, Copy)]
struct Ask {
    behind: Draw,
    before: Draw,
    offered: f64,
    /// Part of the offer that comes in behind the cut-off.
    offered_behind: f64,
    /// The largest start in it that outlasts the delay.
    surge: f64,
}

/// Step a plan through its days, varied or not.
pub(crate) fn run<'a>(scenario: &'a Scenario<'a>, span: Span, vary: &Vary, keep_points: bool) -> Endurance {
    let mut state = State::new(scenario, vary);
    let mut record = Record::new(scenario.site.loads.len(), span, keep_points);
    let start = state.model.charge(state.wells);
    record.ledger().start = state.wells.whole();
    for day in 0..span.days {
        state.day(day, span, vary, &mut record);
        let charge = state.model.charge(state.wells);
        record.midnight(scenario, charge);
    }
    record.ledger().end = state.wells.whole();
    record.finish(scenario, start, state.model.rated())
}

impl<'a> State<'a> {
    fn new(scenario: &'a Scenario<'a>, vary: &Vary) -> Self {
        let model = scenario.model(vary.health);
        let wells = model.rested(vary.from);
        let open = model.source(wells, &model.warmth(scenario.site.surroundings.mean)).open.get();
        State {
            scenario,
            minute_step: model.step(Seconds::new(MINUTE)),
            fine_step: model.step(Seconds::new(FINE)),
            wells,
            volts: open,
            current: 0.0,
            connected: true,
            dead: false,
            low_for: 0.0,
            high_for: 0.0,
            turns: scenario.cycling.iter().map(|c| Turn { owed: c.turn, ..Turn::default() }).collect(),
            model,
        }
    }

    fn day(&mut self, day: u32, span: Span, vary: &Vary, record: &mut Record) {
        let s = self.scenario;
        let of_year = f64::from((span.first_day - 1 + day) % 365 + 1);
        let weekday = day as usize % 7;
        let (drives, plugged) =
            (vary.fed && s.driving_days.contains(weekday), vary.fed && s.mains_days.contains(weekday));
        let weather = if vary.weather.is_empty() { 1.0 } else { vary.weather[day as usize % vary.weather.len()] };
        let (sun, factor) =
            if vary.fed && s.solar > 0.0 { s.sun(of_year) } else { (SunDay::new(1.0, Degrees::ZERO), 0.0) };
        let sun_factor = factor * vary.sun * weather * s.solar;
        let mut sun_now = 0.0;
        for hour in 0..24u16 {
            let at = self.hour(of_year, hour, vary);
            record.hour(at.air);
            for minute in hour * 60..hour * 60 + 60 {
                if record.now() >= vary.until {
                    return;
                }
                if sun_factor > 0.0 && minute % 10 == 0 {
                    sun_now = sun_factor * sun.clear((f64::from(minute) + 5.0) / 60.0);
                }
                let driving = if drives && s.driving.has(minute) { s.charger * vary.driving } else { 0.0 };
                let mains = if plugged && s.mains.has(minute) { s.mains_current } else { 0.0 };
                let ledger = record.ledger();
                ledger.from_driving += Amps::new(driving) * Hours::new(1.0 / 60.0);
                ledger.from_sun += Amps::new(sun_now) * Hours::new(1.0 / 60.0);
                ledger.from_mains += Amps::new(mains) * Hours::new(1.0 / 60.0);
                let mut ask = self.ask(minute, drives, vary.draw, record);
                for (amps, behind) in [(driving, s.behind.charger), (mains, s.behind.mains), (sun_now, s.behind.solar)]
                {
                    *if behind { &mut ask.offered_behind } else { &mut ask.offered } += amps;
                }
                self.minute(ask, &at, record);
                let charge = self.model.charge(self.wells);
                record.minute(charge, self.volts, self.current, at.air, !self.connected);
            }
        }
    }

    fn hour(&mut self, of_year: f64, hour: u16, vary: &Vary) -> HourOf {
        let s = self.scenario;
        let air = s.climate.air(of_year, f64::from(hour) + 0.5) + vary.warmer;
        let mut warmth = self.model.warmth(air);
        warmth.charges |= s.site.service_battery.heated && air.get() < s.chemistry.limits.charge_max.get();
        for (turn, cycling) in self.turns.iter_mut().zip(&s.cycling) {
            turn.share = cycling.share(air);
        }
        HourOf { warmth, charge_volts: s.charge_volts(air), air }
    }

    /// What the loads want in this minute; those that cannot have it are noted.
    fn ask(&mut self, minute: u16, drives: bool, times: f64, record: &mut Record) -> Ask {
        let s = self.scenario;
        let mut ask =
            Ask { behind: Draw::default(), before: Draw::default(), offered: 0.0, offered_behind: 0.0, surge: 0.0 };
        if let Some(steady) = s.steady.get(usize::from(minute)) {
            ask.behind.add(&steady.behind, times);
            ask.before.add(&steady.before, times);
        }
        if let Some(steady) = s.steady_driving.get(usize::from(minute)).filter(|_| drives) {
            ask.behind.add(&steady.behind, times);
            ask.before.add(&steady.before, times);
        }
        let one = Hours::new(1.0 / 60.0);
        for (turn, cycling) in self.turns.iter_mut().zip(&s.cycling) {
            if !cycling.allowed.has(minute) || (cycling.only_driving && !drives) {
                continue;
            }
            let Some(hours) = record.out.loads.get_mut(cycling.load) else { continue };
            hours.wanted += one * turn.share;
            if cycling.own_cut > 0.0 {
                turn.tripped = self.volts < cycling.own_cut + if turn.tripped { OWN_RETURN } else { 0.0 };
            }
            let powered = !self.dead && (self.connected || cycling.before) && !turn.tripped;
            if !powered {
                hours.unserved += one * turn.share;
                turn.on = false;
                continue;
            }
            turn.owed += turn.share;
            let starts = !turn.on && turn.owed >= cycling.turn;
            turn.on |= starts;
            if turn.on {
                turn.owed -= 1.0;
                let side = if cycling.before { &mut ask.before } else { &mut ask.behind };
                side.add(&cycling.draw, times);
                if starts && cycling.start_s > s.cut.delay {
                    ask.surge = ask.surge.max(cycling.start);
                }
                turn.on = turn.owed > 1e-9;
            }
        }
        let cut = !self.connected || self.dead;
        for steady in s.steady_loads.iter().filter(|l| l.allowed.has(minute) && (drives || !l.only_driving)) {
            if let Some(hours) = record.out.loads.get_mut(steady.load) {
                hours.wanted += one;
                if cut && (self.dead || !steady.before) {
                    hours.unserved += one;
                }
            }
        }
        ask
    }

    fn minute(&mut self, ask: Ask, at: &HourOf, record: &mut Record) {
        let mut left = MINUTE;
        while left > 0.5 {
            let switching = self.low_for > 0.0 || self.high_for > 0.0;
            let length = if switching { FINE.min(left) } else { left };
            self.advance(&ask, at, length, record);
            left -= length;
        }
    }

    /// One step of the battery, then what the cut-off makes of its voltage.
    fn advance(&mut self, ask: &Ask, at: &HourOf, length: f64, record: &mut Record) {
        let step = if length >= MINUTE { self.minute_step } else { self.step_of(length) };
        let hours = Hours::new(length / 3600.0);
        let offered = ask.offered + if self.connected { ask.offered_behind } else { 0.0 };
        if self.dead && offered > 0.0 {
            self.dead = false;
        }
        let mut total = Draw::default();
        if !self.dead {
            total = ask.before;
            if self.connected {
                total.add(&ask.behind, 1.0);
            }
        }
        let source = self.model.source(self.wells, &at.warmth);
        let (open, inner) = (source.open.get(), source.inner.get());
        let (mut out, mut volts) = if offered > 0.0 {
            self.while_charging(&total, offered, at, &step, open, inner)
        } else {
            match total.settle(open, inner) {
                Some(volts) => (total.at(volts), volts),
                None => (f64::INFINITY, 0.0),
            }
        };
        if out > 0.0 && self.gives_up(out, volts, at, &step, length) {
            self.dead = true;
            (out, volts) = (0.0, open);
        }
        let used = if self.dead { 0.0 } else { total.at(volts) };
        self.book(out, volts, open, used, at, hours, &step, record);
        if offered > 0.0 && !at.warmth.charges {
            record.out.refused_hours += hours;
        }
        if self.dead {
            record.out.dead_hours += hours;
        }
        self.watch(ask, volts, inner, length, record);
        (self.volts, self.current) = (volts, out);
    }

    fn step_of(&self, length: f64) -> Step {
        if (length - FINE).abs() < 1e-9 { self.fine_step } else { self.model.step(Seconds::new(length)) }
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
    fn gives_up(&self, out: f64, volts: f64, at: &HourOf, step: &Step, length: f64) -> bool {
        if !out.is_finite() || volts < self.scenario.protection.max(1.0) {
            return true;
        }
        // Far from empty there is no need to ask.
        let plenty = self.wells.at_hand.get() * 0.05 > out * length / 3600.0 && at.warmth.plenty(self.wells);
        !plenty && self.model.most_out(self.wells, &at.warmth, step).get() < out
    }

    #[allow(clippy::too_many_arguments)]
    fn book(
        &mut self,
        out: f64,
        volts: f64,
        open: f64,
        used: f64,
        at: &HourOf,
        hours: Hours,
        step: &Step,
        record: &mut Record,
    ) {
        let leak = self.model.leak(self.wells, &at.warmth);
        let charge = self.model.charge(self.wells);
        let stored = if out < 0.0 { -out * self.model.efficiency(charge).get() } else { 0.0 };
        let from_wells = Amps::new(out.max(0.0) - stored) + leak;
        self.wells = step.after(self.wells, from_wells);
        let amps = Amps::new(out.abs()) * hours;
        let ledger = &mut record.out.ledger;
        ledger.used += Amps::new(used) * hours;
        ledger.leaked += leak * hours;
        let (volts, open) = (Volts::new(volts), Volts::new(open));
        if out >= 0.0 {
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
    }

    /// The cut-off watches the voltage at its sensing point.
    fn watch(&mut self, ask: &Ask, volts: f64, inner: f64, length: f64, record: &mut Record) {
        let cut = self.scenario.cut;
        if self.connected {
            let through = (ask.behind.at(volts) - ask.offered_behind).max(0.0);
            let sensed = volts - through * cut.between;
            let surge = sensed - ask.surge * (inner + cut.between);
            let surged = ask.surge > 0.0 && surge < cut.cut;
            record.sensed(surge);
            self.low_for = if sensed < cut.cut { self.low_for + length } else { 0.0 };
            if (self.low_for > 0.0 && self.low_for >= cut.delay) || surged {
                self.connected = false;
                self.low_for = 0.0;
                record.opened();
            }
        } else {
            self.high_for = if volts >= cut.reconnect { self.high_for + length } else { 0.0 };
            if self.high_for > 0.0 && self.high_for >= cut.delay {
                self.connected = true;
                self.high_for = 0.0;
            }
        }
    }
}
