//! How much does the voltage fall for each ampere, at the log's own step, and is it growing?
//!
//! Least squares of the voltage's change on the current's and on the current after it, which takes
//! charge out until the next row, over the steps on the discharging side; those that lie far off are left out and it is fitted again
//! (a median of the ratios would read low: noise in small steps). Drift: the same with a
//! slope by time. Rows far apart count more of the slow part of the resistance.

use crate::engine::ask::log::collect::{Collected, Step};
use crate::engine::ask::log::least::{add, inverse, solve};
use crate::engine::ask::log::sample::{Estimate, TWO_SIDED};
use crate::quantity::*;

/// Fewer steps tell nothing.
const LEAST: usize = 5;
/// A step this many usual deviations off the line is left out.
const FAR: f64 = 4.0;
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

/// None where too few steps are there.
pub fn resistance(log: &Collected, quiet: Amps) -> Option<Resistance> {
    let side = |s: &&Step| s.from > -quiet.get() && s.from + s.amps > -quiet.get();
    let mut steps: Vec<Step> = log.steps.iter().filter(side).copied().collect();
    let mut line = fit::<2>(&steps, 0)?;
    // The last digit of the voltmeter: off by up to it no step is.
    let digit = steps.iter().map(|s| s.volts.abs()).filter(|v| *v > 1e-6).fold(f64::INFINITY, f64::min).min(0.1);
    for _ in 0..4 {
        let off = |s: &Step| (s.volts + line.2[0] * s.amps + line.2[1] * (s.from + s.amps)).abs();
        let mut all: Vec<f64> = steps.iter().map(off).collect();
        all.sort_by(f64::total_cmp);
        // 1.4826 times the median of what is off is the deviation of a normal distribution.
        let usual = 1.4826 * all.get(all.len() / 2).copied().unwrap_or(0.0);
        let before = steps.len();
        // Scatter grows with the step itself: charge and warmth move the resistance.
        steps.retain(|s| off(s) <= FAR * usual.max(digit / 2.0).max(0.05 * line.0 * s.amps.abs()));
        line = fit::<2>(&steps, 0)?;
        if steps.len() == before {
            break;
        }
    }
    if line.0 <= 0.0 {
        return None;
    }
    // A tenth of the last digit stays the same over all steps of a size.
    let usual = (steps.iter().map(|s| s.amps * s.amps).sum::<f64>() / steps.len() as f64).sqrt();
    let error = line.1.hypot(0.1 * digit / usual);
    Some(Resistance { mean: Estimate::within(line.0, error, steps.len()), drift: drift(&steps, line.0) })
}

/// What a step is made of: its current, the charge that its new current takes meanwhile, its current by time.
fn parts(step: &Step, middle: f64) -> [f64; 3] {
    [step.amps, step.from + step.amps, step.amps * (step.at - middle) / YEAR]
}

/// -dV = R dI + g I + D t dI by its first `N` parts; the one asked for, and its standard error by the scatter that
/// there is at each step, whatever its size.
fn fit<const N: usize>(steps: &[Step], which: usize) -> Option<(f64, f64, [f64; N])> {
    if steps.len() < LEAST.max(2 * N) {
        return None;
    }
    let middle = steps.iter().map(|s| s.at).sum::<f64>() / steps.len() as f64;
    let row = |s: &Step| -> [f64; N] { std::array::from_fn(|n| parts(s, middle)[n]) };
    let (mut whole, mut right) = ([[0.0; N]; N], [0.0; N]);
    for s in steps {
        let x = row(s);
        right.iter_mut().zip(x).for_each(|(r, x)| *r -= x * s.volts);
        add(&mut whole, &x, 1.0);
    }
    whole.iter_mut().enumerate().for_each(|(n, row)| row[n] *= 1.0 + 1e-9);
    let (found, weight) = (solve(whole, right), inverse(whole, which));
    let sum = |x: [f64; N], y: &[f64; N]| -> f64 { x.iter().zip(y).map(|(a, b)| a * b).sum() };
    let scatter: f64 = steps.iter().map(|s| (sum(row(s), &weight) * (s.volts + sum(row(s), &found))).powi(2)).sum();
    let few = steps.len() as f64 / (steps.len() - N) as f64;
    let error = (scatter * few).sqrt();
    (found[which].is_finite() && error.is_finite()).then_some((found[which], error, found))
}

/// The growth, from the middle of the log.
fn drift(steps: &[Step], mean: f64) -> Option<Estimate<Ohms>> {
    let (slope, error, _) = fit::<3>(steps, 2)?;
    // Where not even a doubling in a year could be told, nothing is said.
    (TWO_SIDED * error < 2.0 * mean).then(|| Estimate::within(slope, error, steps.len()))
}
