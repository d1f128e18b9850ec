//! What does a short stretch of a log say of the resistance?
//!
//! Within some minutes the voltage follows the current by a part at once, by parts that come later, and by the charge
//! that flows meanwhile. The later parts are taken as two members whose time is twice and eight times that between
//! two rows: what comes sooner or later than these counts to its neighbours. Each stretch gives the sums of a
//! least-squares fit of these parts, its own level and its own slope by charge already taken out; so a log of any
//! length comes to a sum of stretches, and how far they disagree tells how sure it is.

use crate::engine::ask::log::least::add;

/// Parts of the resistance: at once, and two members.
pub const PARTS: usize = 3;
/// Times of the members, in rows.
pub const LATE: [f64; PARTS - 1] = [2.0, 8.0];
/// Rows of a stretch at least and at most, and its seconds where that lies between.
const LEAST: usize = 10;
const MOST: usize = 45;
const LENGTH: f64 = 900.0;
/// Stretches that are kept; beyond that each two become one.
const KEPT: usize = 4096;

/// The sums of one stretch: the equations of a fit of volts lost to currents of each part.
#[derive(Clone, Copy, Debug, Default)]
pub struct Stretch {
    /// Its middle.
    pub at: f64,
    /// Rows that are free to disagree.
    pub free: f64,
    /// Currents by currents.
    pub whole: [[f64; PARTS]; PARTS],
    /// Currents by volts.
    pub right: [f64; PARTS],
    /// Volts by volts.
    pub square: f64,
}

impl Stretch {
    fn join(&self, next: &Stretch) -> Stretch {
        let free = self.free + next.free;
        let sum = |a: &[f64; PARTS], b: &[f64; PARTS]| std::array::from_fn(|n| a[n] + b[n]);
        Stretch {
            at: (self.at * self.free + next.at * next.free) / free.max(1.0),
            free,
            whole: std::array::from_fn(|n| sum(&self.whole[n], &next.whole[n])),
            right: sum(&self.right, &next.right),
            square: self.square + next.square,
        }
    }
}

/// One row: when, volts, amperes.
type Row = (f64, f64, f64);

/// Cuts what flows one way into stretches: currents above zero, or hardly below.
#[derive(Clone, Debug)]
pub struct Stretches {
    /// A current that changes by less than twice this says nothing of the resistance, and one that flows so little
    /// the other way still counts.
    step: f64,
    rows: Vec<Row>,
    /// Time between two rows, once known.
    interval: Option<f64>,
    /// Currents that the members have followed, and when.
    late: Option<(f64, [f64; PARTS - 1])>,
    kept: Vec<Stretch>,
    digit: f64,
}

impl Stretches {
    /// None yet.
    pub fn new(step: f64) -> Stretches {
        Stretches { step, rows: Vec::new(), interval: None, late: None, kept: Vec::new(), digit: f64::INFINITY }
    }

    /// One row more; none where volts or amperes are missing.
    pub fn push(&mut self, row: Option<Row>, after_gap: bool) {
        let whole = |rows: &[Row]| match (rows.first(), rows.last()) {
            (Some(a), Some(b)) => rows.len() >= LEAST && (rows.len() >= MOST || b.0 - a.0 >= LENGTH),
            _ => false,
        };
        let back = row.is_some_and(|r| r.2 <= -2.0 * self.step);
        let broken = after_gap || row.is_none();
        if broken || back || whole(&self.rows) {
            self.close();
        }
        if broken {
            self.late = None;
        }
        let Some(row) = row else { return };
        if back {
            if let Some(interval) = self.interval {
                self.follow(&row, interval);
            }
            return;
        }
        if let Some(last) = self.rows.last() {
            let moved = (row.1 - last.1).abs();
            self.digit = if moved > 1e-6 { self.digit.min(moved) } else { self.digit };
        }
        self.rows.push(row);
    }

    /// The stretches, and the last digit of the voltage.
    pub fn finish(mut self) -> (Vec<Stretch>, f64) {
        self.close();
        (self.kept, self.digit.min(0.1))
    }

    fn close(&mut self) {
        let rows = std::mem::take(&mut self.rows);
        if self.interval.is_none() && rows.len() >= LEAST {
            let mut apart: Vec<f64> = rows.windows(2).map(|w| w[1].0 - w[0].0).collect();
            apart.sort_by(f64::total_cmp);
            self.interval = Some(apart[apart.len() / 2].max(1e-3));
        }
        let Some(interval) = self.interval else { return };
        let parts: Vec<[f64; PARTS]> = rows.iter().map(|row| self.follow(row, interval)).collect();
        let amps = rows.iter().map(|r| r.2);
        let (low, high) = (amps.clone().fold(f64::INFINITY, f64::min), amps.fold(f64::NEG_INFINITY, f64::max));
        if rows.len() < LEAST || high - low < 2.0 * self.step {
            return;
        }
        self.kept.push(sums(&rows, &parts));
        if self.kept.len() > KEPT {
            let two = |two: &[Stretch]| two[1..].iter().fold(two[0], |a, b| a.join(b));
            self.kept = self.kept.chunks(2).map(two).collect();
        }
    }

    /// The currents of each part at a row.
    fn follow(&mut self, row: &Row, interval: f64) -> [f64; PARTS] {
        let (at, _, amps) = *row;
        let (before, mut late) = self.late.unwrap_or((at, [amps; PARTS - 1]));
        for (follows, times) in late.iter_mut().zip(LATE) {
            *follows = amps + (*follows - amps) * (-(at - before).max(0.0) / (times * interval)).exp();
        }
        self.late = Some((at, late));
        std::array::from_fn(|n| if n == 0 { amps } else { late[n - 1] })
    }
}

/// With the level and the slope by charge taken out.
fn sums(rows: &[Row], parts: &[[f64; PARTS]]) -> Stretch {
    const ALL: usize = PARTS + 2;
    let mut charge = 0.0;
    let mut before = rows.first().map_or(0.0, |r| r.0);
    let mut all: Vec<[f64; ALL]> = Vec::with_capacity(rows.len());
    for (row, parts) in rows.iter().zip(parts) {
        charge += row.2 * (row.0 - before);
        before = row.0;
        all.push(std::array::from_fn(|n| match n {
            0 => charge,
            1 => row.1,
            _ => parts[n - 2],
        }));
    }
    let count = all.len() as f64;
    for n in 0..ALL {
        let mean = all.iter().map(|r| r[n]).sum::<f64>() / count;
        all.iter_mut().for_each(|r| r[n] -= mean);
    }
    let charged: f64 = all.iter().map(|r| r[0] * r[0]).sum();
    for n in 1..ALL {
        let slope = all.iter().map(|r| r[0] * r[n]).sum::<f64>() / charged.max(1e-12);
        all.iter_mut().for_each(|r| r[n] -= slope * r[0]);
    }
    let mut stretch =
        Stretch { at: rows.get(rows.len() / 2).map_or(0.0, |r| r.0), free: count - 2.0, ..Stretch::default() };
    for [_, volts, amps @ ..] in &all {
        add(&mut stretch.whole, amps, 1.0);
        stretch.right.iter_mut().zip(amps).for_each(|(r, a)| *r -= a * volts);
        stretch.square += volts * volts;
    }
    stretch
}
