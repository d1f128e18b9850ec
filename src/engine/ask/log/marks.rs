//! When does a log tell the state of charge? At the end of a rest, and when a charge is done.
//!
//! A rest: hardly any current for hours. The voltage still moves then; it is carried on as an
//! exponential through its last three quarters, and half of what that adds counts as error.
//! A charge is done when hardly any current flows in at the voltage of its last stage.

use crate::catalogue::Chemistry;
use crate::engine::ask::log::collect::{Block, Collected};
use crate::quantity::*;

/// Hours of a rest at least, and of one piece of a longer one at most.
const LEAST: f64 = 1.5;
const MOST: f64 = 12.0;
/// So far below the voltage of its last stage a charge may still be done: losses, and air warmer than 25 °C.
const BELOW: f64 = 0.25;
/// What a charge has reached when its current has fallen to twice that at which it ends (common practice, no source).
const DONE: f64 = 0.98;
/// Most marks that are kept; more tell no more.
const KEPT: usize = 400;

/// What is known at one moment.
#[derive(Clone, Copy, Debug)]
pub struct Mark {
    /// Hours since the counting began: at the last full charge or gap.
    pub hours: f64,
    /// Ampere-hours out since then, in each block by what flowed on the whole.
    pub out: f64,
    /// Ampere-hours in.
    pub into: f64,
    /// Counted from the same moment as the mark before it.
    pub goes_on: bool,
    /// What it tells.
    pub tells: Tells,
}

/// How the charge shows.
#[derive(Clone, Copy, Debug)]
pub enum Tells {
    /// By the voltage at rest, with its error, at this air; after a charge or after a discharge.
    Rest {
        /// Where the voltage goes.
        volts: f64,
        /// Its error, one standard deviation.
        error: f64,
        /// At this temperature, where it is logged.
        air: Option<f64>,
        /// It was charged before.
        charged: bool,
    },
    /// It is so full: nearly so when a charge shows as done, wholly when that ends.
    Full(f64),
}

/// All of them, by time.
pub fn marks(log: &Collected, chemistry: &Chemistry, capacity: AmpHours, quiet: Amps) -> Vec<Mark> {
    let mut walk = Walk { out: Vec::new(), hours: 0.0, drawn: 0.0, put: 0.0, goes_on: false };
    let tail = 2.0 * chemistry.charge.tail_c * capacity.get();
    let at_last_stage = chemistry.charge.absorption.get() - BELOW;
    let done = |b: &Block| {
        let (volts, amps) = (b.mean_volts(), b.mean_amps());
        volts >= at_last_stage && amps > -tail && amps < quiet.get()
    };
    let mut rest: Vec<Block> = Vec::new();
    let (mut charged, mut was_full) = (false, false);
    for (n, block) in log.blocks.iter().enumerate() {
        let resting = block.mean_amps().abs() <= quiet.get() && block.amps.1 - block.amps.0 <= 3.0 * quiet.get();
        let long = rest.iter().map(|b| b.seconds).sum::<f64>() > MOST * 3600.0;
        if block.after_gap || !resting || long {
            walk.rest(&rest, charged);
            rest.clear();
        }
        if block.after_gap {
            walk.begin();
        }
        walk.count(block);
        // Full when it is done first; counted anew when that ends, since what goes in meanwhile is not stored.
        let full = done(block) && !block.after_gap;
        if full && !was_full {
            walk.mark(Tells::Full(DONE));
        }
        if full && log.blocks.get(n + 1).is_none_or(|next| next.after_gap || !done(next)) {
            walk.begin();
            walk.mark(Tells::Full(1.0));
        }
        was_full = full;
        if resting && !full {
            rest.push(*block);
        } else if block.seconds > 0.0 {
            charged = block.mean_amps() < 0.0;
        }
    }
    walk.rest(&rest, charged);
    let every = walk.out.len().div_ceil(KEPT).max(1);
    // Neighbours stay neighbours.
    walk.out.chunks(8).enumerate().filter(|(n, _)| n % every == 0).flat_map(|(_, c)| c.iter().copied()).collect()
}

struct Walk {
    out: Vec<Mark>,
    hours: f64,
    drawn: f64,
    put: f64,
    goes_on: bool,
}

impl Walk {
    fn begin(&mut self) {
        (self.hours, self.drawn, self.put, self.goes_on) = (0.0, 0.0, 0.0, false);
    }

    fn count(&mut self, block: &Block) {
        let net = (block.out - block.into) / 3600.0;
        self.hours += block.seconds / 3600.0;
        self.drawn += net.max(0.0);
        self.put += (-net).max(0.0);
    }

    fn mark(&mut self, tells: Tells) {
        let goes_on = std::mem::replace(&mut self.goes_on, true);
        self.out.push(Mark { hours: self.hours, out: self.drawn, into: self.put, goes_on, tells });
    }

    /// The end of a rest, if it was long enough.
    fn rest(&mut self, blocks: &[Block], charged: bool) {
        let seconds: f64 = blocks.iter().map(|b| b.seconds).sum();
        if blocks.len() < 4 || seconds < LEAST * 3600.0 {
            return;
        }
        let mean = |part: &[Block]| {
            let rows: f64 = part.iter().map(|b| b.rows).sum();
            part.iter().map(|b| b.volts).sum::<f64>() / rows.max(1.0)
        };
        let quarter = blocks.len() / 4;
        let end = blocks.len();
        let third = mean(&blocks[end - 2 * quarter..end - quarter]);
        let (second, last) = (mean(&blocks[end - 3 * quarter..end - 2 * quarter]), mean(&blocks[end - quarter..]));
        let moved = last - third;
        let ratio = if (third - second).abs() > 1e-6 { (moved / (third - second)).clamp(0.0, 0.8) } else { 0.0 };
        let more = moved * ratio / (1.0 - ratio);
        let aired: f64 = blocks.iter().map(|b| b.aired).sum();
        let air = (aired > 0.0).then(|| blocks.iter().map(|b| b.air).sum::<f64>() / aired);
        let error = (more.abs() / 2.0).max(moved.abs() / 2.0);
        self.mark(Tells::Rest { volts: last + more, error, air, charged });
    }
}
