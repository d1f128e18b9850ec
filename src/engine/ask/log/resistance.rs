//! How much does the voltage fall for each ampere, at the log's own step, and is it growing?
//!
//! Least squares over the stretches in which the current changes (`stretches`): what shows at once, and of the
//! members what they come to until the next row. A stretch counts by how well its rows agree, and one that is far
//! from the others (a knee, gas) does not. The error is the larger of two: by the scatter of the rows, and by how far the stretches
//! disagree; with what the last digit of the meter hides where nothing shakes it. Drift: the growth of the whole by time.
//! A median of ratios would read low: noise in small steps. Rows far apart count more of the slow part.

use crate::engine::ask::log::collect::Collected;
use crate::engine::ask::log::least::{add, inverse, solve};
use crate::engine::ask::log::sample::{Estimate, TWO_SIDED};
use crate::engine::ask::log::stretches::{LATE, PARTS, Stretch};
use crate::quantity::*;

/// Fewer stretches tell nothing.
const LEAST: usize = 5;
/// A stretch whose rows scatter this many times as far as usual does not count.
const FAR: f64 = 4.0;
const ROUNDS: usize = 4;
/// How large a member usually is beside the whole, one standard deviation: common practice, no source.
const USUAL: f64 = 0.5;
/// Seconds of a year.
const YEAR: f64 = 365.25 * 86_400.0;

/// The resistance, and by how much it grows in a year.
#[derive(Clone, Copy, Debug)]
pub struct Resistance {
    /// Mean over the log.
    pub mean: Estimate<Ohms>,
    /// A year; bounds only where the log is long enough to tell.
    pub drift: Option<Estimate<Ohms>>,
}

/// What counts, and what it comes to.
struct Fit<'a> {
    stretches: &'a [Stretch],
    /// Of each stretch: one over the variance of its rows, 0 where it does not count.
    weights: Vec<f64>,
    /// Ohms of each part.
    found: [f64; PARTS],
    equations: [[f64; PARTS]; PARTS],
    /// Usual scatter of a row, in volts.
    scatter: f64,
}

/// None where the current hardly changes.
pub fn resistance(log: &Collected) -> Option<Resistance> {
    let digit = log.volt_digit;
    let fit = Fit::of(&log.stretches, digit)?;
    // Of each part, what shows until the next row.
    let shows: [f64; PARTS] = std::array::from_fn(|n| if n == 0 { 1.0 } else { 1.0 - (-1.0 / LATE[n - 1]).exp() });
    let mean = sum(&shows, &fit.found);
    let counts = fit.weights.iter().filter(|w| **w > 0.0).count();
    if counts < LEAST || !mean.is_finite() || mean <= 0.0 {
        return None;
    }
    let by: [f64; PARTS] = std::array::from_fn(|n| sum(&inverse(fit.equations, n), &shows));
    let few = counts as f64 / (counts - 1) as f64;
    let each = fit.each().map(|(s, w)| w * sum(&by, &s.left(&fit.found))).map(|off| off * off);
    let disagree = (each.sum::<f64>() * few).sqrt();
    let rows = sum(&shows, &by).max(0.0).sqrt();
    let error = disagree.max(rows).hypot(fit.hidden(digit));
    let samples = fit.each().filter(|(_, w)| *w > 0.0).map(|(s, _)| s.free).sum::<f64>() as usize;
    Some(Resistance { mean: Estimate::within(mean, error, samples), drift: fit.drift(mean) })
}

impl Stretch {
    /// What is left of the equations with these ohms.
    fn left(&self, found: &[f64; PARTS]) -> [f64; PARTS] {
        std::array::from_fn(|n| self.right[n] - sum(&self.whole[n], found))
    }

    /// Variance of its rows.
    fn variance(&self, found: &[f64; PARTS]) -> f64 {
        let by_fit: f64 = found.iter().zip(self.right).map(|(f, r)| f * r).sum();
        let by_rest: f64 = found.iter().zip(self.left(found)).map(|(f, l)| f * l).sum();
        (self.square - by_fit - by_rest).max(0.0) / self.free.max(1.0)
    }
}

fn sum(a: &[f64; PARTS], b: &[f64; PARTS]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Fit<'_> {
    fn of(stretches: &[Stretch], digit: f64) -> Option<Fit<'_>> {
        if stretches.len() < LEAST {
            return None;
        }
        let mut fit = Fit {
            stretches,
            weights: vec![1e4; stretches.len()],
            found: [0.0; PARTS],
            equations: [[0.0; PARTS]; PARTS],
            scatter: 0.0,
        };
        let all = stretches.iter().fold((0.0, 0.0), |(r, w), s| (r + s.right[0], w + s.whole[0][0]));
        let mut usual = all.0 / all.1;
        for _ in 0..=ROUNDS {
            (fit.equations, fit.found) = fit.solved((USUAL * usual).abs().max(1e-6));
            usual = fit.found.iter().sum();
            let variances: Vec<f64> = stretches.iter().map(|s| s.variance(&fit.found)).collect();
            let mut sorted = variances.clone();
            sorted.sort_by(f64::total_cmp);
            let middle = sorted[sorted.len() / 2];
            fit.scatter = middle.sqrt();
            let least = middle.max(digit * digit / 12.0).max(1e-12);
            let weight = |v: &f64| if *v > FAR * FAR * least { 0.0 } else { 1.0 / v.max(least) };
            fit.weights = variances.iter().map(weight).collect();
            fit.even_out();
        }
        Some(fit)
    }

    /// Where the resistance itself moves, by charge or warmth, no stretch counts for more than that lets it: by the
    /// variance between the stretches (DerSimonian and Laird, 'Meta-analysis in clinical trials', Controlled Clinical
    /// Trials 7, 1986; from memory).
    fn even_out(&mut self) {
        let all = |f: &dyn Fn(f64, f64) -> f64| -> f64 {
            self.each()
                .map(|(s, w)| (self.weight(s, w), self.above(s, w)))
                .filter(|a| a.0 > 0.0)
                .map(|a| f(a.0, a.1))
                .sum()
        };
        let (count, weight, squares) = (all(&|_, _| 1.0), all(&|w, _| w), all(&|w, _| w * w));
        let mean = all(&|_, above| above) / weight.max(1e-12);
        let apart = all(&|w, above| (above - w * mean).powi(2) / w);
        let between = (apart - (count - 1.0)).max(0.0) / (weight - squares / weight.max(1e-12)).max(1e-12);
        self.weights = self.each().map(|(s, w)| w / (1.0 + self.weight(s, w) * between)).collect();
    }

    /// What a stretch says of the whole resistance, as a share of it: one over the variance, and times that by how much
    /// it stands above the others.
    fn weight(&self, stretch: &Stretch, by: f64) -> f64 {
        by * sum(&stretch.whole.map(|row| sum(&row, &self.found)), &self.found)
    }

    /// See `weight`.
    fn above(&self, stretch: &Stretch, by: f64) -> f64 {
        by * sum(&stretch.left(&self.found), &self.found)
    }

    fn each(&self) -> impl Iterator<Item = (&Stretch, f64)> {
        self.stretches.iter().zip(self.weights.iter().copied())
    }

    /// The equations of all, and their ohms; each member is about so large.
    fn solved(&self, member: f64) -> ([[f64; PARTS]; PARTS], [f64; PARTS]) {
        let (mut whole, mut right) = ([[0.0; PARTS]; PARTS], [0.0; PARTS]);
        for (stretch, weight) in self.each() {
            for n in 0..PARTS {
                right[n] += weight * stretch.right[n];
                (0..PARTS).for_each(|m| whole[n][m] += weight * stretch.whole[n][m]);
            }
        }
        whole[0][0] += 1e-9;
        (1..PARTS).for_each(|n| whole[n][n] += member.powi(-2));
        (whole, solve(whole, right))
    }

    /// What the last digit hides of a usual change: all of it where the voltage always shows the same, little once it
    /// wanders by half a digit (its mean is then off by the first term of a saw-tooth's series).
    fn hidden(&self, digit: f64) -> f64 {
        let wanders = (self.scatter.powi(2) / (digit * digit) - 1.0 / 12.0).max(0.0);
        let off = digit / std::f64::consts::PI * (-2.0 * std::f64::consts::PI.powi(2) * wanders).exp();
        let (squares, rows) = self.stretches.iter().fold((0.0, 0.0), |(q, r), s| (q + s.whole[0][0], r + s.free));
        // A current that is on half the time changes by twice its deviation.
        off / (2.0 * (squares / rows.max(1.0)).sqrt()).max(1e-9)
    }

    /// The growth, from the middle of the log.
    fn drift(&self, mean: f64) -> Option<Estimate<Ohms>> {
        let all: f64 = self.each().map(|(s, w)| self.weight(s, w)).sum();
        let middle = self.each().map(|(s, w)| self.weight(s, w) * s.at).sum::<f64>() / all.max(1e-12);
        let line = |s: &Stretch| [1.0, (s.at - middle) / YEAR];
        let (mut whole, mut right) = ([[0.0; 2]; 2], [0.0; 2]);
        for (s, w) in self.each() {
            add(&mut whole, &line(s), self.weight(s, w));
            (0..2).for_each(|n| right[n] += line(s)[n] * self.above(s, w));
        }
        whole[1][1] += 1e-12;
        let (found, by) = (solve(whole, right), inverse(whole, 1));
        let off = |s: &Stretch, w: f64| {
            let line = line(s);
            let left = self.above(s, w) - self.weight(s, w) * (found[0] * line[0] + found[1] * line[1]);
            (by[0] * line[0] + by[1] * line[1]) * left
        };
        let disagree: f64 = self.each().map(|(s, w)| off(s, w).powi(2)).sum();
        let error = disagree.sqrt().max(by[1].max(0.0).sqrt());
        // Where not even a doubling in a year could be told, nothing is said.
        let tells = TWO_SIDED * error < 2.0 && found[1].is_finite();
        tells.then(|| Estimate::within(found[1] * mean, error * mean, self.stretches.len()))
    }
}
