//! The rows, one after the other: what a logger measured, and what had to be left out.
//!
//! Nothing is kept but one row, so that a file may be of any length. A value that jumps
//! away for a single row and comes back is no voltage of a battery.

use crate::engine::Sample;
use crate::log::cell::number;
use crate::log::clock::Clock;
use crate::log::layout::{Layout, Meaning};
use crate::quantity::*;
use std::io::BufRead;

/// Rows further apart than so many usual steps, or this long, have a gap between them, whichever is longer.
const GAP_STEPS: f64 = 10.0;
const GAP_SECONDS: f64 = 300.0;
/// A clock that jumps forward by more was set.
const YEAR: f64 = 366.0 * 86_400.0;
const DAY: f64 = 86_400.0;
/// What 12 V can show, and a shunt carry.
const VOLTS: std::ops::RangeInclusive<f64> = 0.0..=20.0;
const AMPS: f64 = 3000.0;
const AIR: std::ops::RangeInclusive<f64> = -60.0..=120.0;
/// A single row so far from both its neighbours, which agree, is a fault of the logger.
const SPIKE: f64 = 3.0;

/// What was left out, and why.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LeftOut {
    /// Rows read.
    pub rows: u64,
    /// Rows that cannot be read.
    pub unreadable: u64,
    /// Rows with an impossible value.
    pub impossible: u64,
    /// Single rows that jump away and come back.
    pub spikes: u64,
    /// Rows of the same time as the one before.
    pub repeated: u64,
    /// Times that the clock was set back, or far forward.
    pub resets: u64,
    /// Times that rows are missing.
    pub gaps: u64,
    /// How long in all.
    pub missing: Seconds,
    /// The first line of each of these kinds.
    pub first: Vec<(&'static str, u64)>,
}

impl LeftOut {
    fn note(&mut self, what: &'static str, line: u64) {
        if !self.first.iter().any(|(known, _)| *known == what) {
            self.first.push((what, line));
        }
    }

    /// A sentence for each kind.
    pub fn words(&self) -> Vec<String> {
        let kinds = [
            ("unreadable", self.unreadable, "cannot be read"),
            ("impossible", self.impossible, "with an impossible value"),
            ("spike", self.spikes, "that jump away for a single row"),
            ("repeated", self.repeated, "of the same time as the row before"),
        ];
        let line = |what| self.first.iter().find(|(known, _)| *known == what).map_or(0, |(_, line)| *line);
        let mut out: Vec<String> = kinds
            .into_iter()
            .filter(|(_, n, _)| *n > 0)
            .map(|(what, n, words)| {
                format!("{n} of {} rows {words}, the first in line {}: left out", self.rows, line(what))
            })
            .collect();
        if self.resets > 0 {
            let line = line("reset");
            out.push(format!("the clock was set {} times, first in line {line}: counted on from there", self.resets));
        }
        if self.gaps > 0 {
            let line = line("gap");
            out.push(format!("{} gaps, {} in all, the first before line {line}: left out", self.gaps, self.missing));
        }
        out
    }
}

/// The rows of a file.
pub struct Rows<'a, R> {
    reader: csv::Reader<R>,
    record: csv::ByteRecord,
    layout: &'a Layout,
    volts: Option<(usize, (f64, f64))>,
    amps: Option<(usize, (f64, f64))>,
    air: Option<(usize, (f64, f64))>,
    charging: Option<(usize, (f64, f64))>,
    last: Option<f64>,
    shift: f64,
    /// Read and not yet given: with the one after it a spike shows.
    held: Option<Sample>,
    before: Option<Sample>,
    broken: bool,
    /// What was left out so far.
    pub left_out: LeftOut,
}

impl<'a, R: BufRead> Rows<'a, R> {
    /// From the beginning of the file.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn new(mut source: R, layout: &'a Layout) -> std::io::Result<Rows<'a, R>> {
        let mut line = Vec::new();
        for _ in 0..layout.skip {
            line.clear();
            source.read_until(b'\n', &mut line)?;
        }
        let delimiter = u8::try_from(layout.delimiter).unwrap_or(b',');
        let mut builder = csv::ReaderBuilder::new();
        builder.has_headers(false).flexible(true).delimiter(delimiter);
        Ok(Rows {
            reader: builder.from_reader(source),
            record: csv::ByteRecord::new(),
            layout,
            volts: layout.column(Meaning::Volts),
            amps: layout.column(Meaning::Amps),
            air: layout.column(Meaning::Air),
            charging: layout.column(Meaning::Charging),
            last: None,
            shift: 0.0,
            held: None,
            before: None,
            broken: false,
            left_out: LeftOut::default(),
        })
    }

    /// The next row that makes sense.
    fn row(&mut self) -> Option<Sample> {
        loop {
            match self.reader.read_byte_record(&mut self.record) {
                Ok(true) => {}
                Ok(false) => return None,
                Err(_) => {
                    self.broken = true;
                    return None;
                }
            }
            let line = self.record.position().map_or(0, csv::Position::line) + self.layout.skip as u64;
            self.left_out.rows += 1;
            let time = self.layout.time(&mut |n| cell(&self.record, n));
            let Some((time, mut sample)) = time.and_then(|t| Some((t, self.values()?))) else {
                self.left_out.unreadable += 1;
                self.left_out.note("unreadable", line);
                continue;
            };
            let sound = VOLTS.contains(&sample.volts.map_or(12.0, Volts::get))
                && sample.amps.map_or(0.0, Amps::get).abs() <= AMPS
                && AIR.contains(&sample.air.map_or(20.0, Celsius::get));
            if !sound {
                self.left_out.impossible += 1;
                self.left_out.note("impossible", line);
            } else if self.place(time, line, &mut sample) {
                return Some(sample);
            }
        }
    }

    /// Its values; none where one is missing that the file has.
    fn values(&self) -> Option<Sample> {
        let comma = self.layout.comma;
        let value = |column: Option<(usize, (f64, f64))>| -> Option<f64> {
            let (at, (factor, add)) = column?;
            Some(number(cell(&self.record, at)?, comma)? * factor + add)
        };
        let (volts, amps) = (value(self.volts), value(self.amps));
        if volts.is_some() != self.volts.is_some() || amps.is_some() != self.amps.is_some() {
            return None;
        }
        Some(Sample {
            at: Seconds::ZERO,
            volts: volts.map(Volts::new),
            amps: amps.map(Amps::new),
            air: value(self.air).map(Celsius::new),
            charging: value(self.charging).map(Amps::new),
            after_gap: false,
        })
    }

    /// Put it where it belongs in time; false where it repeats the row before.
    fn place(&mut self, time: f64, line: u64, sample: &mut Sample) -> bool {
        let step = self.layout.step.get();
        let mut at = time + self.shift;
        if let Some(last) = self.last {
            if self.layout.clock == Clock::OfDay && last - at > DAY / 2.0 {
                self.shift += DAY * ((last - at) / DAY).round().max(1.0);
                at = time + self.shift;
            }
            if at == last {
                self.left_out.repeated += 1;
                self.left_out.note("repeated", line);
                return false;
            }
            if at < last || at - last > YEAR {
                self.shift += last + step - at;
                at = last + step;
                sample.after_gap = true;
                self.left_out.resets += 1;
                self.left_out.note("reset", line);
            } else if at - last > (GAP_STEPS * step).max(GAP_SECONDS) {
                sample.after_gap = true;
                self.left_out.gaps += 1;
                self.left_out.missing += Seconds::new(at - last);
                self.left_out.note("gap", line);
            }
        }
        self.last = Some(at);
        sample.at = Seconds::new(at);
        true
    }

    /// Whether the file ended before its end could be read.
    pub fn broken(&self) -> bool {
        self.broken
    }
}

fn cell(record: &csv::ByteRecord, n: usize) -> Option<&str> {
    std::str::from_utf8(record.get(n)?).ok()
}

impl<R: BufRead> Iterator for Rows<'_, R> {
    type Item = Sample;

    fn next(&mut self) -> Option<Sample> {
        loop {
            let next = self.row();
            let Some(held) = std::mem::replace(&mut self.held, next) else {
                self.held?;
                continue;
            };
            if let (Some(before), Some(after)) = (self.before, self.held)
                && spike(&before, &held, &after)
            {
                self.left_out.spikes += 1;
                self.left_out
                    .note("spike", self.record.position().map_or(0, csv::Position::line) + self.layout.skip as u64);
                continue;
            }
            self.before = Some(held);
            return Some(held);
        }
    }
}

fn spike(before: &Sample, held: &Sample, after: &Sample) -> bool {
    let volts = |s: &Sample| s.volts.map(Volts::get);
    let (Some(a), Some(b), Some(c)) = (volts(before), volts(held), volts(after)) else { return false };
    let flows = |s: &Sample| s.amps.map_or(0.0, Amps::get);
    let alone = (b - a).abs() > SPIKE && (b - c).abs() > SPIKE && (a - c).abs() < SPIKE / 3.0;
    alone && (flows(held) - flows(before)).abs() < 20.0
}
