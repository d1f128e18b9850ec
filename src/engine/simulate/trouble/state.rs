//! Which current flows where, with this fault and that thing on?
//!
//! One consumer at the end of its way, with the fault's resistance in it: a network of one load, solved in closed form. A load that asks for a constant
//! power or current does so down to the lowest voltage it works at, or 10 V, and below that is a resistance: what it
//! takes there is known to no sheet. Where the body lies beside the minus cable of the feed, they share the current.

use crate::engine::installation::circuits::Side;
use crate::engine::installation::load::efficiency;
use crate::engine::physics::network::load::Load;
use crate::engine::physics::network::single::single;
use crate::engine::simulate::trouble::cause::{Cause, Fault, Faults, OPEN, added, size_of};
use crate::engine::simulate::trouble::wired::{Pole, Spot, Wired};
use crate::plan::Alternator;
use crate::quantity::*;

/// What is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum On {
    /// Nothing, engine off.
    Rest,
    /// One load, by its index; engine off.
    Load(usize),
    /// The engine runs, the battery is not full, no load is on.
    Engine,
    /// The engine has run until the charger's current has fallen.
    Full,
}

/// Below this a load of constant power is taken as a resistance, where its sheet names no voltage.
const STILL_WORKS: Volts = Volts::new(10.0);
/// How far the charge current lifts the posts of a battery that is not full.
const LIFT: Volts = Volts::new(0.6);
/// Less than this is no current.
const STILL: Amps = Amps::new(1e-6);
/// What the posts show when its own protection has opened.
const PARTED: Volts = Volts::new(0.3);

/// What may differ from the plan without being a fault.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Rest voltage of the service battery.
    pub rest: Volts,
    /// Posts of the starter battery with the engine running.
    pub running: Volts,
    /// What loads take, over what the plan says.
    pub takes: f64,
}

/// A way that a current takes.
#[derive(Clone, Copy, Debug)]
enum Way {
    Load(usize),
    Feed,
    Charge,
}

/// Voltages and currents with one thing on.
#[derive(Clone, Copy, Debug, Default)]
pub struct State {
    /// Posts of the service battery and of the starter battery.
    pub posts: [Volts; 2],
    /// What flows along which way, away from its battery.
    flows: [Option<(Way, Amps)>; 2],
    /// What the faults add.
    added: [Option<Added>; 2],
    /// Share of the feed's return that flows in its own minus cable.
    pub by_cable: f64,
    /// Out of the service battery.
    pub total: Amps,
}

/// Ohms that a fault adds to a part.
#[derive(Clone, Copy, Debug)]
struct Added {
    branch: usize,
    pole: Pole,
    /// Of its chain, from the battery outwards.
    place: usize,
    ohms: f64,
}

impl State {
    /// Two parts have too much resistance, and neither is open.
    pub fn resist_both(&self) -> bool {
        self.added.iter().flatten().filter(|a| a.ohms < OPEN / 2.0).count() == 2
    }

    /// Whether no current flows that would show a resistance on its way.
    pub fn is_still(&self) -> bool {
        self.flows.iter().flatten().all(|(_, amps)| amps.abs() < STILL)
    }

    fn added(&self) -> impl Iterator<Item = &Added> {
        self.added.iter().flatten()
    }

    fn flows(&mut self, way: Way, amps: Amps) {
        if let Some(free) = self.flows.iter_mut().find(|f| f.is_none()) {
            *free = Some((way, amps));
        }
    }
}

/// Rest voltage of a starter battery that is full: common practice, no source.
const STARTER: Volts = Volts::new(12.7);

/// What lies between the battery's post and a spot.
#[derive(Clone, Copy, Debug, Default)]
pub struct Level {
    /// Volts lost; `None` where an open part leaves the spot to itself.
    pub lost: Option<f64>,
    /// Sum of the squared losses of the sound parts.
    pub sound: f64,
    /// Volts lost in what is added.
    pub bad: f64,
}

impl Wired<'_> {
    /// Solve it.
    pub fn state(&self, faults: &Faults, on: On, setting: Setting) -> State {
        let mut state = State {
            posts: [setting.rest, STARTER],
            added: faults.map(|f| f.and_then(|f| self.placed(&f))),
            by_cable: 1.0,
            ..State::default()
        };
        if size_of(faults, Cause::ProtectionOpen).is_some() {
            state.posts[0] = PARTED;
            if matches!(on, On::Engine | On::Full) {
                state.posts[1] = setting.running - Volts::new(size_of(faults, Cause::WeakAlternator).unwrap_or(0.0));
            }
        } else {
            match on {
                On::Rest => self.rest(&mut state, faults),
                On::Load(load) => self.one_load(&mut state, faults, load, setting),
                On::Engine | On::Full => self.charging(&mut state, faults, on, setting),
            }
        }
        state
    }

    /// What flows in a branch, away from its battery.
    pub fn current(&self, state: &State, branch: usize) -> Amps {
        let through = |flow: &&(Way, Amps)| self.way(flow.0).is_some_and(|way| way.contains(&branch));
        state.flows.iter().flatten().filter(through).map(|(_, amps)| *amps).sum()
    }

    fn way(&self, way: Way) -> Option<&[usize]> {
        match way {
            Way::Load(load) => self.way_to(load),
            Way::Feed => self.feed_way(),
            Way::Charge => self.charge_way(),
        }
    }

    fn placed(&self, fault: &Fault) -> Option<Added> {
        let (part, ohms) = added(self, fault)?;
        let of = self.parts.get(part)?;
        let place = self.chain(of.branch, of.pole).iter().position(|p| *p == part)?;
        Some(Added { branch: of.branch, pole: of.pole, place, ohms })
    }

    fn rest(&self, state: &mut State, faults: &Faults) {
        let site = self.site;
        state.total = site.charger.standing_draw + site.cut_off.standing_draw;
        for fault in faults.iter().flatten() {
            let Cause::NeverStops(load) = fault.cause else { continue };
            let Some(stuck) = site.loads.get(load) else { continue };
            let open = |a: &Added| a.ohms >= OPEN / 2.0 && self.way_to(load).is_some_and(|way| way.contains(&a.branch));
            if !state.added().any(open) {
                state.total += stuck.running();
                state.flows(Way::Load(load), stuck.running());
            }
        }
    }

    fn one_load(&self, state: &mut State, faults: &Faults, load: usize, setting: Setting) {
        let (Some(fed), Some(way)) = (self.site.loads.get(load), self.way_to(load)) else { return };
        if size_of(faults, Cause::LoadDead(load)).is_some() {
            return;
        }
        let idle = if fed.inverter {
            self.site.inverter.idle_draw / efficiency(&self.site.inverter).get()
        } else {
            Watts::ZERO
        };
        let law = match fed.law {
            Load::Power(power) => Load::Power((power + idle) * setting.takes),
            Load::Current(current) => Load::Current(current * setting.takes),
            Load::Resistance { rated, nominal } => Load::Resistance { rated: rated * setting.takes, nominal },
        };
        let lowest = fed.lowest.unwrap_or(STILL_WORKS);
        let Some((posts, current)) = self.feed(state, way, (setting.rest, self.internal), law, lowest) else { return };
        state.posts[0] = posts;
        state.total = current;
        state.flows(Way::Load(load), current);
    }

    /// Posts and current of a source with one consumer at the end of a way; `None` where it flows nowhere, as with two
    /// open parts, between which nothing holds the way either.
    fn feed(
        &self,
        state: &State,
        way: &[usize],
        (voltage, internal): (Volts, Ohms),
        law: Load,
        lowest: Volts,
    ) -> Option<(Volts, Amps)> {
        let ohms = |b: &usize| self.ohms(state, *b, Pole::Plus) + self.ohms(state, *b, Pole::Minus);
        let whole = internal + Ohms::new(way.iter().map(ohms).sum());
        if whole.get() >= 1.5 * OPEN {
            return None;
        }
        let insists = !matches!(law, Load::Resistance { .. });
        let (_, current) = single(voltage, whole, law).filter(|(end, _)| !insists || *end >= lowest).or_else(|| {
            let rated = law.current(lowest) * lowest;
            single(voltage, whole, Load::Resistance { rated, nominal: lowest })
        })?;
        Some((voltage - internal * current, current))
    }

    /// Of a branch on one side, the share of the body counted.
    fn ohms(&self, state: &State, branch: usize, pole: Pole) -> f64 {
        let sound = self.sums(Spot { side: Side::Service, pole, branch: Some(branch), after: usize::MAX }).ohms;
        let added: f64 = state.added().filter(|a| a.branch == branch && a.pole == pole).map(|a| a.ohms).sum();
        (sound + added) * self.share(state, branch, pole)
    }

    /// Of what flows on a side of a branch, the share in its own conductor.
    fn share(&self, state: &State, branch: usize, pole: Pole) -> f64 {
        if pole == Pole::Minus && self.is_feed(branch) { state.by_cable } else { 1.0 }
    }

    /// Whether the body lies beside this side of a branch.
    fn bodied(&self, branch: usize, pole: Pole) -> bool {
        pole == Pole::Minus && self.body.is_some() && self.is_feed(branch)
    }

    fn is_feed(&self, branch: usize) -> bool {
        self.site.circuits.branches.get(branch).is_some_and(|b| b.side == Side::Feed)
    }

    fn charging(&self, state: &mut State, faults: &Faults, on: On, setting: Setting) {
        let weak = size_of(faults, Cause::WeakAlternator).unwrap_or(0.0);
        state.posts[1] = setting.running - Volts::new(weak);
        let (Some(way), Some(rated)) = (self.feed_way(), self.charger.current) else { return };
        let cable: f64 = way.iter().map(|b| self.ohms(state, *b, Pole::Minus)).sum();
        state.by_cable = self.body.map_or(1.0, |body| body.get() / (body.get() + cable).max(1e-9));
        let signal = size_of(faults, Cause::EnableWire).is_none();
        if size_of(faults, Cause::ChargerOff).is_some() || !signal {
            return;
        }
        let output = self.output() - Volts::new(size_of(faults, Cause::Profile).unwrap_or(0.0));
        let current = if on == On::Full { rated * 0.1 } else { rated };
        let asked = Load::Power(output * current / self.site.charger.efficiency.get().clamp(0.05, 1.0));
        let source = (state.posts[1], Ohms::ZERO);
        let Some((_, drawn)) = self.feed(state, way, source, asked, self.charger.lowest_input) else { return };
        let lost: f64 = way
            .iter()
            .map(|b| drawn.get() * (self.ohms(state, *b, Pole::Plus) + self.ohms(state, *b, Pole::Minus)))
            .sum();
        let input = state.posts[1] - Volts::new(lost);
        // A smart alternator's voltage may be lower than a charger without wire starts at; that is its design.
        let starts = self.site.charger.enable_signal
            || self.site.vehicle.alternator == Alternator::Variable
            || input >= self.site.charger.releases_at;
        if input < self.charger.lowest_input * 0.8 || !starts {
            return;
        }
        state.flows(Way::Feed, drawn);
        let Some(out) = self.charge_way() else { return };
        let loop_: f64 = out.iter().map(|b| self.ohms(state, *b, Pole::Plus) + self.ohms(state, *b, Pole::Minus)).sum();
        let given = (input * drawn * self.site.charger.efficiency.get()) / output;
        let lifted = if on == On::Full { output } else { (setting.rest + LIFT).min(output) };
        // It cannot push more than its own voltage does through what lies on the way.
        let most = if loop_ > OPEN / 2.0 {
            Amps::ZERO
        } else {
            (output - lifted + Volts::new(0.3)) / Ohms::new(loop_.max(1e-6))
        };
        let given = given.min(most.max(Amps::ZERO));
        state.posts[0] = if given > Amps::new(0.05) { lifted } else { setting.rest };
        state.total = -given;
        state.flows(Way::Charge, -given);
    }

    /// Voltage at which the charger stops.
    fn output(&self) -> Volts {
        if self.charger.output > Volts::ZERO { self.charger.output } else { self.running }
    }

    /// What lies between the post of its battery and a spot.
    pub fn before(&self, state: &State, spot: Spot) -> Level {
        let mut level = Level { lost: Some(0.0), ..Level::default() };
        let mut at = spot;
        while let Some(branch) = at.branch {
            let current = self.current(state, branch).get() * self.share(state, branch, at.pole);
            let sums = self.sums(at);
            let here = |a: &&Added| a.branch == branch && a.pole == at.pole && a.place < at.after;
            let (mut bad, mut loose) = (0.0, false);
            for added in state.added().filter(here) {
                bad += current * added.ohms;
                loose |= added.ohms >= OPEN / 2.0 && current == 0.0 && !self.bodied(branch, at.pole);
            }
            level.lost = level.lost.filter(|_| !loose).map(|lost| lost + current * sums.ohms + bad);
            level.sound += current * current * sums.squares;
            level.bad += bad;
            let parent = self.site.circuits.branches.get(branch).and_then(|b| b.parent);
            at = Spot { branch: parent, after: usize::MAX, ..at };
        }
        level
    }

    /// Voltage of a spot against the minus post of its battery; `None` where nothing holds it.
    pub fn potential_at(&self, state: &State, spot: Spot) -> Option<Volts> {
        Self::potential(state, spot, &self.before(state, spot))
    }

    /// The same, where it is known what lies before the spot.
    pub fn potential(state: &State, spot: Spot, before: &Level) -> Option<Volts> {
        let post = state.posts[usize::from(spot.side == Side::Feed)];
        let lost = Volts::new(before.lost?);
        Some(if spot.pole == Pole::Plus { post - lost } else { lost })
    }
}
