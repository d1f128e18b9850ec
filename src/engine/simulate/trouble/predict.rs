//! What does a meter show there, and how sure is that?
//!
//! The value follows from the solved circuit. What may be otherwise without being a fault (the battery's charge, the
//! alternator, what a load takes) moves many readings together, so its effect on each is kept apart: the change of
//! the value per standard error of each.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::test_sheet::meter::{BOUND, meter};
use crate::engine::simulate::test_sheet::result::MeterErrors;
use crate::engine::simulate::trouble::cause::{Cause, Faults, size_of};
use crate::engine::simulate::trouble::state::{Level, On, Setting, State};
use crate::engine::simulate::trouble::wired::{Pole, Spot, Wired};
use crate::plan::point;
use crate::quantity::*;

/// Where the meter goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Probe {
    /// Volts from one spot to another: the red probe first.
    Between(Spot, Spot),
    /// Clamp around the service battery's plus lead.
    Battery,
    /// Clamp around the plus lead of a branch.
    Lead(usize),
    /// Ohms from the dead plus lead of a branch to the body, its fuse out.
    ToBody(usize),
    /// Rating printed on a fuse-link, by its part.
    Printed(usize),
    /// Volts that the cut-off is set to.
    Setting,
    /// Volts at the cut-off's sense terminals, plus to minus.
    Sense,
    /// Volts at the charger's enable terminal.
    Enable,
    /// Volts at the panel terminals of the solar controller, in the sun.
    Panel,
    /// Whether the load that is on does what it should: 1 it works, 0.5 it is dim or slow, 0 it does nothing.
    Works,
    /// Share of the rated capacity that came out from full to the cut-off.
    Capacity,
}

/// One measurement.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measurement {
    /// What is on.
    pub on: On,
    /// Where the meter goes.
    pub probe: Probe,
}

/// What a meter will show, in the unit of the probe.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Prediction {
    /// Most likely.
    pub value: f64,
    /// Change per standard error of: the battery's rest voltage, the alternator's, what a load takes.
    pub moves: [f64; 3],
    /// Standard error of all else.
    pub error: f64,
}

/// Standard errors of what may be otherwise without being a fault: common practice, no source.
const SPREAD: [f64; 3] = [0.3, 0.15, 0.1];
/// Volts across what is not there.
const NOTHING: f64 = 0.02;
/// Volts that a meter may show from pole to pole of a lead that is dead, or on one that hangs free, twice the standard
/// error: common practice, no source.
const STRAY: f64 = 0.1;

/// The states of one set of faults with one thing on.
#[derive(Clone, Copy, Debug)]
pub struct States {
    planned: State,
    /// With each of three things moved, where it matters.
    moved: [Option<State>; 3],
}

impl States {
    /// Whether no current flows that would show a resistance on its way.
    pub fn are_still(&self) -> bool {
        self.planned.is_still()
    }
}

impl Wired<'_> {
    /// Errors of the meters.
    pub fn meter(&self) -> MeterErrors {
        meter(self.site, &self.site.catalogue.rules)
    }

    /// What is taken when nothing is said.
    pub fn usual(&self) -> Setting {
        Setting { rest: self.rest, running: self.running, takes: 1.0 }
    }

    /// Solve the circuit for predictions.
    pub fn states(&self, faults: &Faults, on: On) -> States {
        let usual = self.usual();
        let rest = Setting { rest: usual.rest - Volts::new(SPREAD[0]), ..usual };
        let running = Setting { running: usual.running - Volts::new(SPREAD[1]), ..usual };
        let takes = Setting { takes: 1.0 + SPREAD[2], ..usual };
        let moved = |matters: bool, setting| matters.then(|| self.state(faults, on, setting));
        let (engine, load) = (matches!(on, On::Engine | On::Full), matches!(on, On::Load(_)));
        States {
            planned: self.state(faults, on, usual),
            moved: [moved(true, rest), moved(engine, running), moved(load, takes)],
        }
    }

    /// What a measurement will show.
    pub fn predict(&self, faults: &Faults, states: &States, what: &Measurement, meter: &MeterErrors) -> Prediction {
        if what.probe == Probe::Works {
            return Prediction {
                value: self.works(faults, &states.planned, what.on),
                error: WORKS,
                ..Prediction::default()
            };
        }
        let (value, error) = match what.probe {
            Probe::Between(red, black) => self.between(&states.planned, what.on, [red, black], meter),
            _ => {
                let value = self.value_of(faults, &states.planned, what);
                (value, self.error(what, value, meter))
            }
        };
        let moves = states.moved.map(|state| state.map_or(0.0, |state| self.value_of(faults, &state, what) - value));
        Prediction { value, moves, error }
    }

    fn value_of(&self, faults: &Faults, state: &State, what: &Measurement) -> f64 {
        match what.probe {
            Probe::Between(red, black) => {
                let at = [red, black].map(|spot| Self::potential(state, spot, &self.before(state, spot)));
                at[0].zip(at[1]).map_or(0.0, |(red, black)| (red - black).get())
            }
            Probe::Battery => state.total.get(),
            Probe::Lead(branch) => self.current(state, branch).get(),
            Probe::ToBody(branch) if size_of(faults, Cause::Chafed(branch)).is_some() => 0.0,
            Probe::ToBody(_) => TO_BODY,
            Probe::Printed(part) => self.rating(part) * size_of(faults, Cause::WrongFuse(part)).unwrap_or(1.0),
            Probe::Setting => self.cut.get() + size_of(faults, Cause::CutOffSetting).unwrap_or(0.0),
            Probe::Sense => self.sensed(faults, state),
            Probe::Enable if size_of(faults, Cause::EnableWire).is_some() => 0.0,
            Probe::Enable => state.posts[1].get(),
            Probe::Panel if size_of(faults, Cause::PanelDead).is_some() => 0.0,
            Probe::Panel => self.site.solar.array_voltage.get() * 1.15,
            Probe::Works => self.works(faults, state, what.on),
            Probe::Capacity => size_of(faults, Cause::LostCapacity).unwrap_or(1.0),
        }
    }

    fn works(&self, faults: &Faults, state: &State, on: On) -> f64 {
        let On::Load(load) = on else { return 0.0 };
        let volts = self.volts_at(state, load).unwrap_or(0.0);
        let lowest = self.site.loads.get(load).and_then(|l| l.lowest).map_or(DEAD, |v| v.get().min(DEAD));
        if volts < lowest || size_of(faults, Cause::LoadDead(load)).is_some() {
            return 0.0;
        }
        let lost = state.posts[0].get() - volts;
        1.0 - 0.5 * ((lost - DIM.0) / (DIM.1 - DIM.0)).clamp(0.0, 1.0)
    }

    /// Volts at the end of the way to a load; none where no way leads there.
    pub fn volts_at(&self, state: &State, load: usize) -> Option<f64> {
        let end = *self.way_to(load)?.last()?;
        let at = |pole| self.potential_at(state, self.far_end(end, pole)?);
        Some(at(Pole::Plus).zip(at(Pole::Minus)).map_or(0.0, |(plus, minus)| (plus - minus).get()))
    }

    fn rating(&self, part: usize) -> f64 {
        self.parts.get(part).and_then(|p| p.rating).map_or(0.0, Amps::get)
    }

    fn sensed(&self, faults: &Faults, state: &State) -> f64 {
        // The cut-off's own contact lies behind what it senses at its input.
        let end = self.sensed_way().last().copied();
        let volts = match end {
            None => Some(state.posts[0].get()),
            Some(branch) => {
                let volts = |pole| {
                    let spot = self.far_end(branch, pole)?;
                    let own = self.site.cut_off.senses_at == point::CUT_OFF && pole == Pole::Plus;
                    self.potential_at(state, Spot { after: spot.after - usize::from(own && spot.after > 0), ..spot })
                };
                volts(Pole::Plus).zip(volts(Pole::Minus)).map(|(a, b)| (a - b).get())
            }
        };
        let turned = size_of(faults, Cause::SenseReversed).is_some();
        volts.unwrap_or(0.0) * if turned { -1.0 } else { 1.0 }
    }

    /// Standard error of what is not read between two spots.
    fn error(&self, what: &Measurement, value: f64, meter: &MeterErrors) -> f64 {
        let clamp = ((meter.clamp.get() * value / BOUND).powi(2) + (meter.clamp_zero.get() / BOUND).powi(2)).sqrt();
        match what.probe {
            Probe::Between(..) | Probe::Sense | Probe::Enable => voltmeter(value, meter).max(0.1),
            Probe::Battery | Probe::Lead(_) => {
                let standing = if what.on == On::Rest { 0.05 } else { 0.0 };
                (clamp * clamp + (value * 0.1).powi(2) + standing * standing).sqrt()
            }
            Probe::ToBody(_) => TO_BODY / 6.0,
            Probe::Printed(part) => self.rating(part) * 0.05,
            Probe::Setting => 0.05,
            Probe::Panel => self.site.solar.array_voltage.get() * 0.08,
            Probe::Works => WORKS,
            Probe::Capacity => 0.06,
        }
    }

    /// Volts from one spot to another, and the standard error of all that does not move it.
    fn between(&self, state: &State, on: On, spots: [Spot; 2], meter: &MeterErrors) -> (f64, f64) {
        let levels = spots.map(|spot| self.before(state, spot));
        let [red, black] = [0, 1].map(|n| Self::potential(state, spots[n], &levels[n]));
        let value = red.zip(black).map_or(0.0, |(red, black)| (red - black).get());
        let tolerance = tolerance(state, spots, levels);
        let loose = matches!(on, On::Engine | On::Full) && spots[0].side == Side::Service;
        let held = if loose { 0.15 } else { 0.0 };
        let dead = (spots[0].pole != spots[1].pole || red.is_none() || black.is_none()) && value.abs() < STRAY;
        let stray = if dead { STRAY / 2.0 } else { 0.0 };
        let nothing = NOTHING * NOTHING * 0.1 + stray * stray;
        (value, (voltmeter(value, meter).powi(2) + tolerance * tolerance + nothing + held * held).sqrt())
    }
}

fn voltmeter(value: f64, meter: &MeterErrors) -> f64 {
    (meter.volt_variance() + (meter.reading.get() * value / BOUND).powi(2)).sqrt()
}

/// Volts that the tolerance of sound parts, and the steps in which a bad one is tried, make between two spots.
fn tolerance(state: &State, [red, black]: [Spot; 2], [a, b]: [Level; 2]) -> f64 {
    let sign = if red.pole == black.pole { -1.0 } else { 1.0 };
    let step = if state.resist_both() { STEPS } else { STEP };
    let (sound, bad) = ((a.sound + sign * b.sound).abs(), (a.bad + sign * b.bad).abs() * step);
    // What is left over an open part with its load on is nearly all of the voltage: no step there.
    let bad = if bad > step * 0.97 * state.posts[0].get() { 0.0 } else { bad };
    (sound * SOUND * SOUND + bad * bad).sqrt()
}

/// Standard error of what somebody says of a load: common practice, no source.
const WORKS: f64 = 0.2;
/// A load does nothing below this, where it does not itself need more (volts).
pub const DEAD: f64 = 8.0;
/// From so many volts lost on the way somebody may see it, and at so many everybody does.
const DIM: (f64, f64) = (0.8, 1.5);
/// Ohms that stand for no connection.
const TO_BODY: f64 = 1000.0;
/// Standard error of a sound part: common practice, no source.
const SOUND: f64 = 0.25;
/// Standard error of a bad part's ohms by the steps in which they are tried, and where two are tried at once.
const STEP: f64 = 0.06;
const STEPS: f64 = 0.18;
