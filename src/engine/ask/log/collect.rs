//! A log of any length, kept in a space that does not grow: blocks of time, steps of the current, hours of the day.
//!
//! When the blocks are full, each two become one, twice as long. Charge is counted by the
//! trapezoid from row to row and never across a gap. Which way a positive current flows
//! shows at the end: a voltage that falls as it grows says out of the battery.

use crate::engine::ask::log::sample::Sample;
use crate::engine::ask::log::stretches::{Stretch, Stretches};
use crate::quantity::*;

/// Most blocks, and how long the first ones are.
const BLOCKS: usize = 16_384;
const SHORTEST: f64 = 60.0;
/// Most steps that are kept; those after are told as left out.
const STEPS: usize = 40_000;
/// Half the width of the counted currents about zero, and the width of one count, in amperes.
const REACH: f64 = 10.0;
const BIN: f64 = 0.02;
const BINS: usize = (2.0 * REACH / BIN) as usize;

/// What must be known of the battery before.
#[derive(Clone, Copy, Debug)]
pub struct Expected {
    /// The cut-off opens below this.
    pub cut: Volts,
    /// The highest voltage at rest.
    pub full: Volts,
    /// A change from row to row that counts as a step.
    pub step: Amps,
}

/// A stretch of time without a gap in it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Block {
    /// When it begins.
    pub at: f64,
    /// How long it is counted.
    pub seconds: f64,
    /// Charge that flowed out, in ampere-seconds, and that flowed in.
    pub out: f64,
    /// See `out`.
    pub into: f64,
    /// Rows, and the sums of their volts, amperes and degrees.
    pub rows: f64,
    /// See `rows`.
    pub volts: f64,
    /// See `rows`.
    pub air: f64,
    /// Rows that tell the temperature.
    pub aired: f64,
    /// The least and the most that flowed.
    pub amps: (f64, f64),
    /// Rows are missing before it.
    pub after_gap: bool,
}

impl Block {
    /// Mean voltage.
    pub fn mean_volts(&self) -> f64 {
        self.volts / self.rows.max(1.0)
    }

    /// Mean current, out of the battery.
    pub fn mean_amps(&self) -> f64 {
        (self.out - self.into) / self.seconds.max(1e-9)
    }

    fn join(&mut self, next: &Block) {
        self.seconds += next.seconds;
        self.out += next.out;
        self.into += next.into;
        self.rows += next.rows;
        self.volts += next.volts;
        self.air += next.air;
        self.aired += next.aired;
        self.amps = (self.amps.0.min(next.amps.0), self.amps.1.max(next.amps.1));
    }

    fn turned(self) -> Block {
        Block { out: self.into, into: self.out, amps: (-self.amps.1, -self.amps.0), ..self }
    }
}

/// The current goes from one value to another between two rows, or over a few.
#[derive(Clone, Copy, Debug, Default)]
pub struct Step {
    /// When.
    pub at: f64,
    /// Current before it.
    pub from: f64,
    /// By how much it changes.
    pub amps: f64,
    /// By how much the voltage changes.
    pub volts: f64,
}

/// What is collected of an hour of the day.
#[derive(Clone, Copy, Debug, Default)]
pub struct Hour {
    /// How long it is counted.
    pub seconds: f64,
    /// Charge in and out, in ampere-seconds.
    pub into: f64,
    /// See `into`.
    pub out: f64,
}

/// How much time the current spent near one value.
#[derive(Clone, Copy, Debug, Default)]
pub struct Level {
    /// How long.
    pub seconds: f64,
    /// Sum of the rows, and of their squares.
    pub sum: f64,
    /// See `sum`.
    pub squares: f64,
    /// Rows.
    pub rows: f64,
}

/// Where a current is counted.
pub fn level_of(amps: f64) -> usize {
    ((amps + REACH) / BIN).floor() as usize
}

/// All that a log comes to.
#[derive(Clone, Debug)]
pub struct Collected {
    /// From the first row to the last.
    pub first: f64,
    /// See `first`.
    pub last: f64,
    /// Rows.
    pub rows: usize,
    /// Time between two rows.
    pub interval: f64,
    /// By time.
    pub blocks: Vec<Block>,
    /// By time.
    pub steps: Vec<Step>,
    /// Steps that are not kept.
    pub steps_left: usize,
    /// Those in which the current changes while the battery gives.
    pub stretches: Vec<Stretch>,
    /// Last digit of the voltage.
    pub volt_digit: f64,
    /// Each hour of the day.
    pub hours: Vec<Hour>,
    /// Currents about zero from the least, while the voltage is none of charging.
    pub levels: Vec<Level>,
    /// Seconds counted.
    pub counted: f64,
    /// Lowest voltage and when.
    pub lowest: Option<(f64, f64)>,
    /// Seconds below the cut-off.
    pub below: f64,
    /// Coldest and hottest.
    pub air: Option<(f64, f64)>,
    /// Charge of the charger's own column, in ampere-seconds.
    pub charging: Option<f64>,
    /// Positive currents flow out of the battery in the file; none where nothing tells.
    pub out: Option<bool>,
    /// Whether there are currents.
    pub has_amps: bool,
}

/// Takes rows, one after the other.
#[derive(Debug)]
pub struct Collector {
    expected: Expected,
    all: Collected,
    length: f64,
    before: Option<Sample>,
    /// Grows while the current goes on in the same direction.
    open: Option<Step>,
    /// Of what flows as the file counts it, and the other way.
    stretches: [Stretches; 2],
}

impl Collector {
    /// Empty.
    pub fn new(expected: Expected) -> Self {
        let all = Collected {
            first: 0.0,
            last: 0.0,
            rows: 0,
            interval: 0.0,
            blocks: Vec::new(),
            steps: Vec::new(),
            steps_left: 0,
            stretches: Vec::new(),
            volt_digit: 0.0,
            hours: vec![Hour::default(); 24],
            levels: vec![Level::default(); BINS],
            counted: 0.0,
            lowest: None,
            below: 0.0,
            air: None,
            charging: None,
            out: None,
            has_amps: false,
        };
        let stretches = [(); 2].map(|()| Stretches::new(expected.step.get()));
        Collector { expected, all, length: SHORTEST, before: None, open: None, stretches }
    }

    /// One more row.
    pub fn push(&mut self, sample: &Sample) {
        let at = sample.at.get();
        let all = &mut self.all;
        if all.rows == 0 {
            all.first = at;
        }
        all.last = at;
        all.rows += 1;
        all.has_amps |= sample.amps.is_some();
        if let Some(air) = sample.air {
            let (cold, hot) = all.air.unwrap_or((air.get(), air.get()));
            all.air = Some((cold.min(air.get()), hot.max(air.get())));
        }
        let volts = sample.volts.map(Volts::get);
        if let Some(v) = volts
            && all.lowest.is_none_or(|(least, _)| v < least)
        {
            all.lowest = Some((v, at));
        }
        let whole = self.before.filter(|_| !sample.after_gap);
        let length = whole.map_or(0.0, |b| at - b.at.get());
        self.block(sample, whole.as_ref(), length);
        for (stretches, way) in self.stretches.iter_mut().zip([1.0, -1.0]) {
            let both = volts.zip(sample.amps).map(|(volts, amps)| (at, volts, way * amps.get()));
            stretches.push(both, sample.after_gap);
        }
        if let Some(before) = whole {
            self.between(&before, sample, length);
        } else {
            self.close_step();
        }
        self.before = Some(*sample);
    }

    fn block(&mut self, sample: &Sample, before: Option<&Sample>, length: f64) {
        let at = sample.at.get();
        let blocks = &mut self.all.blocks;
        let fits = |b: &Block| before.is_some() && at - b.at < self.length.max(1.5 * length);
        if blocks.last().is_none_or(|b| !fits(b)) {
            let start = if before.is_some() { at - length } else { at };
            let none = (f64::INFINITY, f64::NEG_INFINITY);
            blocks.push(Block { at: start, after_gap: before.is_none(), amps: none, ..Block::default() });
        }
        let flows = sample.amps.map_or(0.0, Amps::get);
        if let Some(block) = blocks.last_mut() {
            block.rows += 1.0;
            block.volts += sample.volts.map_or(0.0, Volts::get);
            block.air += sample.air.map_or(0.0, Celsius::get);
            block.aired += if sample.air.is_some() { 1.0 } else { 0.0 };
            block.amps = (block.amps.0.min(flows), block.amps.1.max(flows));
            let mean = before.map_or(0.0, |b| (flows + b.amps.map_or(0.0, Amps::get)) / 2.0);
            block.seconds += length;
            block.out += mean.max(0.0) * length;
            block.into += (-mean).max(0.0) * length;
        }
        if blocks.len() > BLOCKS {
            self.length *= 2.0;
            let mut joined: Vec<Block> = Vec::with_capacity(BLOCKS);
            for block in blocks.iter() {
                match joined.last_mut() {
                    Some(last) if !block.after_gap && block.at + block.seconds - last.at <= self.length * 1.01 => {
                        last.join(block)
                    }
                    _ => joined.push(*block),
                }
            }
            // A log of nothing but gaps: what is oldest goes.
            if joined.len() > BLOCKS / 2 + BLOCKS / 4 {
                joined.drain(..BLOCKS / 4);
            }
            *blocks = joined;
        }
    }

    /// What counts by the time between two rows.
    fn between(&mut self, before: &Sample, sample: &Sample, length: f64) {
        let all = &mut self.all;
        all.counted += length;
        let flows = sample.amps.map_or(0.0, Amps::get);
        let had = before.amps.map_or(0.0, Amps::get);
        let mean = (flows + had) / 2.0;
        let hour = (sample.at.get().rem_euclid(86_400.0) / 3600.0) as usize;
        if let Some(hour) = all.hours.get_mut(hour) {
            hour.seconds += length;
            hour.out += mean.max(0.0) * length;
            hour.into += (-mean).max(0.0) * length;
        }
        if let Some(given) = sample.charging {
            all.charging = Some(all.charging.unwrap_or(0.0) + given.get().max(0.0) * length);
        }
        let volts = sample.volts.map(Volts::get);
        all.below += if volts.is_some_and(|v| v < self.expected.cut.get()) { length } else { 0.0 };
        if volts.is_none_or(|v| v <= self.expected.full.get() + 0.1)
            && sample.amps.is_some()
            && let Some(level) = all.levels.get_mut(level_of(flows))
            && flows > -REACH
        {
            level.seconds += length;
            level.sum += flows;
            level.squares += flows * flows;
            level.rows += 1.0;
        }
        let change = flows - had;
        let sags = volts.unwrap_or(0.0) - before.volts.map_or(0.0, Volts::get);
        let least = self.expected.step.get();
        match &mut self.open {
            Some(step) if change.abs() > least && change * step.amps > 0.0 => {
                step.amps += change;
                step.volts += sags;
            }
            _ => {
                self.close_step();
                if change.abs() > least {
                    self.open = Some(Step { at: sample.at.get(), from: had, amps: change, volts: sags });
                }
            }
        }
    }

    fn close_step(&mut self) {
        let Some(step) = self.open.take() else { return };
        if self.all.steps.len() < STEPS {
            self.all.steps.push(step);
        } else {
            self.all.steps_left += 1;
        }
    }

    /// All of it, currents turned so that out of the battery is positive; as said, or as the voltage answers.
    pub fn finish(mut self, out: Option<bool>) -> Collected {
        self.close_step();
        let mut all = self.all;
        all.interval = all.counted / (all.rows.max(2) - 1) as f64;
        all.out = out.or_else(|| flows_out(&all));
        let [as_written, turned] = self.stretches;
        (all.stretches, all.volt_digit) = if all.out == Some(false) { turned } else { as_written }.finish();
        if all.out == Some(false) {
            all.blocks.iter_mut().for_each(|b| *b = b.turned());
            for step in &mut all.steps {
                (step.from, step.amps) = (-step.from, -step.amps);
            }
            for hour in &mut all.hours {
                (hour.into, hour.out) = (hour.out, hour.into);
            }
            all.levels.reverse();
            all.levels.iter_mut().for_each(|l| l.sum = -l.sum);
        }
        all
    }
}

/// Whether the voltage falls as the current grows: by the steps, or else by how both go over the blocks.
fn flows_out(all: &Collected) -> Option<bool> {
    let agree = |falls: bool| all.steps.iter().filter(|s| s.volts != 0.0 && (s.amps * s.volts < 0.0) == falls).count();
    let (falls, rises) = (agree(true), agree(false));
    if falls + rises >= 5 && falls.max(rises) >= 2 * falls.min(rises) {
        return Some(falls > rises);
    }
    let count = all.blocks.len() as f64;
    let mean = |f: &dyn Fn(&Block) -> f64| all.blocks.iter().map(f).sum::<f64>() / count.max(1.0);
    let (volts, amps) = (mean(&Block::mean_volts), mean(&Block::mean_amps));
    let both = mean(&|b| (b.mean_volts() - volts) * (b.mean_amps() - amps));
    let spread = mean(&|b| (b.mean_volts() - volts).powi(2)) * mean(&|b| (b.mean_amps() - amps).powi(2));
    (spread > 0.0 && both.abs() > 0.3 * spread.sqrt()).then_some(both < 0.0)
}
