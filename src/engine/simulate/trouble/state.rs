//! Which current flows where, with this fault and that thing on?
//!
//! The network solution of the circuit's runs with the fault's resistance in them. A load that asks for a constant
//! power or current does so down to the lowest voltage it works at, or 10 V, and below that is a resistance: what it
//! takes there is known to no sheet. Where the body lies beside the minus cable of the feed, they share the current.

use crate::engine::installation::circuits::Side;
use crate::engine::installation::load::efficiency;
use crate::engine::physics::network;
use crate::engine::physics::network::circuit::{Branch, Network, Point, Source};
use crate::engine::physics::network::warming::Warming;
use crate::engine::simulate::trouble::cause::{Cause, Faults, OPEN, added, size_of};
use crate::engine::simulate::trouble::wired::{Pole, Spot, Wired};
use crate::plan::{Alternator, point};
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

/// Voltages and currents with one thing on.
#[derive(Clone, Debug, Default)]
pub struct State {
    /// Posts of the service battery and of the starter battery.
    pub posts: [Volts; 2],
    /// By branch, away from its battery.
    pub currents: Vec<Amps>,
    /// Ohms added to each part.
    pub added: Vec<f64>,
    /// Share of the feed's return that flows in its own minus cable.
    pub by_cable: f64,
    /// Out of the service battery.
    pub total: Amps,
    /// Of every spot of every branch, where `Wired::begins` says.
    pub levels: Vec<Level>,
}

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
        let count = self.site.circuits.branches.len();
        let mut state = State {
            posts: [setting.rest, setting.rest.max(Volts::new(12.5))],
            currents: vec![Amps::ZERO; count],
            added: vec![0.0; self.parts.len()],
            by_cable: 1.0,
            total: Amps::ZERO,
            levels: Vec::new(),
        };
        for (part, ohms) in faults.iter().flatten().filter_map(|f| added(self, f)) {
            state.added[part] += ohms;
        }
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
        self.level(&mut state);
        state
    }

    fn rest(&self, state: &mut State, faults: &Faults) {
        let site = self.site;
        state.total = site.charger.standing_draw + site.cut_off.standing_draw;
        for fault in faults.iter().flatten() {
            let Cause::NeverStops(load) = fault.cause else { continue };
            let Some(stuck) = site.loads.get(load) else { continue };
            state.total += stuck.running();
            for branch in self.way_to(load).unwrap_or_default() {
                state.currents[branch] = stuck.running();
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
            network::load::Load::Power(power) => network::load::Load::Power((power + idle) * setting.takes),
            network::load::Load::Current(current) => network::load::Load::Current(current * setting.takes),
            network::load::Load::Resistance { rated, nominal } => {
                network::load::Load::Resistance { rated: rated * setting.takes, nominal }
            }
        };
        let lowest = fed.lowest.unwrap_or(STILL_WORKS);
        let source = Source { voltage: setting.rest, internal: self.internal };
        let Some((posts, current)) = self.feed(state, &way, source, law, lowest) else { return };
        state.posts[0] = posts;
        state.total = current;
        way.iter().for_each(|b| state.currents[*b] = current);
    }

    /// Posts and current of a source with one consumer at the end of a way.
    fn feed(
        &self,
        state: &State,
        way: &[usize],
        source: Source,
        law: network::load::Load,
        lowest: Volts,
    ) -> Option<(Volts, Amps)> {
        let solve = |law| {
            let runs = way.iter().enumerate().map(|(n, b)| Branch {
                from: n.checked_sub(1).map_or(Point::Terminals, Point::End),
                copper: Ohms::ZERO,
                fixed: Ohms::new([Pole::Plus, Pole::Minus].map(|pole| self.ohms(state, *b, pole)).iter().sum()),
                warming: Warming::Held(Celsius::new(20.0)),
                loads: if n + 1 == way.len() { vec![law] } else { Vec::new() },
            });
            let branches: Vec<Branch> = runs.collect();
            let loads = if branches.is_empty() { vec![law] } else { Vec::new() };
            let solved = Network { source, loads, branches }.solve().ok()?;
            let end = solved.branches.last().map_or(solved.terminals, |b| b.voltage);
            Some((solved.terminals, solved.current, end))
        };
        let insists = !matches!(law, network::load::Load::Resistance { .. });
        let first = solve(law).filter(|(_, _, end)| !insists || *end >= lowest);
        let (posts, current, _) = first.or_else(|| {
            let rated = law.current(lowest) * lowest;
            solve(network::load::Load::Resistance { rated, nominal: lowest })
        })?;
        Some((posts, current))
    }

    /// Of a branch on one side, the share of the body counted.
    fn ohms(&self, state: &State, branch: usize, pole: Pole) -> f64 {
        let each = self.chain(branch, pole).iter().map(|p| self.parts[*p].resistance.get() + state.added[*p]);
        let share = if pole == Pole::Minus && self.is_feed(branch) { state.by_cable } else { 1.0 };
        each.sum::<f64>() * share
    }

    fn is_feed(&self, branch: usize) -> bool {
        self.site.circuits.branches.get(branch).is_some_and(|b| b.side == Side::Feed)
    }

    fn charging(&self, state: &mut State, faults: &Faults, on: On, setting: Setting) {
        let weak = size_of(faults, Cause::WeakAlternator).unwrap_or(0.0);
        state.posts[1] = setting.running - Volts::new(weak);
        let (Some(way), Some(rated)) = (self.site.circuits.feed_path(), self.charger.current) else { return };
        let cable: f64 = way.iter().map(|b| self.ohms(state, *b, Pole::Minus)).sum();
        state.by_cable = self.body.map_or(1.0, |body| body.get() / (body.get() + cable).max(1e-9));
        let signal = size_of(faults, Cause::EnableWire).is_none();
        if size_of(faults, Cause::ChargerOff).is_some() || !signal {
            return;
        }
        let output = self.output() - Volts::new(size_of(faults, Cause::Profile).unwrap_or(0.0));
        let current = if on == On::Full { rated * 0.1 } else { rated };
        let asked = network::load::Load::Power(output * current / self.site.charger.efficiency.get().clamp(0.05, 1.0));
        let source = Source { voltage: state.posts[1], internal: Ohms::ZERO };
        let Some((_, drawn)) = self.feed(state, &way, source, asked, self.charger.lowest_input) else { return };
        let lost: f64 = way
            .iter()
            .map(|b| drawn.get() * (self.ohms(state, *b, Pole::Plus) + self.ohms(state, *b, Pole::Minus)))
            .sum();
        let input = state.posts[1] - Volts::new(lost);
        way.iter().for_each(|b| state.currents[*b] = drawn);
        // A smart alternator's voltage may be lower than a charger without wire starts at; that is its design.
        let starts = self.site.charger.enable_signal
            || self.site.vehicle.alternator == Alternator::Variable
            || input >= self.site.charger.releases_at;
        if input < self.charger.lowest_input * 0.8 || !starts {
            way.iter().for_each(|b| state.currents[*b] = Amps::ZERO);
            return;
        }
        let Some(out) = self.site.circuits.path_to(point::CHARGER) else { return };
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
        out.iter().for_each(|b| state.currents[*b] = -given);
    }

    /// Voltage at which the charger stops.
    fn output(&self) -> Volts {
        if self.charger.output > Volts::ZERO { self.charger.output } else { self.running }
    }

    /// What lies before each spot, from the batteries outwards.
    fn level(&self, state: &mut State) {
        let spots = self.begins.iter().zip(&self.chains).map(|(b, c)| b[1] + c[1].len() + 1).max().unwrap_or(0);
        state.levels = vec![Level::default(); spots];
        for (index, branch) in self.site.circuits.branches.iter().enumerate() {
            let current = state.currents[index].get();
            for pole in [Pole::Plus, Pole::Minus] {
                let share = if pole == Pole::Minus && branch.side == Side::Feed { state.by_cable } else { 1.0 };
                let from = branch.parent.map(|p| state.levels[self.place(p, pole, self.chain(p, pole).len())]);
                let mut level = from.unwrap_or(Level { lost: Some(0.0), ..Level::default() });
                let mut at = self.place(index, pole, 0);
                state.levels[at] = level;
                for part in self.chain(index, pole) {
                    let (sound, bad) =
                        (current * share * self.parts[*part].resistance.get(), current * share * state.added[*part]);
                    let loose = state.added[*part] >= OPEN / 2.0 && current == 0.0;
                    level.lost = level.lost.filter(|_| !loose).map(|lost| lost + sound + bad);
                    level.sound += sound * sound;
                    level.bad += bad;
                    at += 1;
                    state.levels[at] = level;
                }
            }
        }
    }

    fn place(&self, branch: usize, pole: Pole, after: usize) -> usize {
        self.begins[branch][usize::from(pole == Pole::Minus)] + after
    }

    /// What lies between the post of its battery and a spot.
    pub fn before(&self, state: &State, spot: Spot) -> Level {
        let own = Level { lost: Some(0.0), ..Level::default() };
        spot.branch.and_then(|b| state.levels.get(self.place(b, spot.pole, spot.after)).copied()).unwrap_or(own)
    }

    /// Voltage of a spot against the minus post of its battery; `None` where nothing holds it.
    pub fn potential(&self, state: &State, spot: Spot) -> Option<Volts> {
        let post = state.posts[usize::from(spot.side == Side::Feed)];
        let lost = Volts::new(self.before(state, spot).lost?);
        Some(if spot.pole == Pole::Plus { post - lost } else { lost })
    }
}
