//! How far do the readings speak for a guess?
//!
//! What may be otherwise without a fault moves several readings together; with the meter's error it is the covariance
//! by which a reading counts for or against.

use crate::engine::physics::linear::{cholesky, dot, forward};
use crate::engine::simulate::trouble::predict::{Measurement, Prediction};

/// One reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// Of what.
    pub what: Measurement,
    /// What the meter showed, in the unit of the probe.
    pub shown: f64,
}

/// What a guess foretells of the readings, and what came of it.
#[derive(Clone, Debug, Default)]
pub struct Evidence {
    /// Of each reading.
    pub predicted: Vec<Prediction>,
    /// Cholesky factor of the covariance.
    lower: Vec<Vec<f64>>,
    /// By how many standard errors each reading is off, those before it known.
    pub z: Vec<f64>,
    /// Logarithm of the likelihood.
    pub log: f64,
}

/// No reading speaks against a guess with more than this, as a logarithm.
const FURTHEST: f64 = -60.0;

impl Evidence {
    /// Of readings for which this is foretold.
    pub fn of(taken: &[Taken], predicted: Vec<Prediction>) -> Self {
        let n = taken.len();
        let of_both = |i: usize, j: usize| {
            let (a, b) = (&predicted[i], &predicted[j]);
            let own = if i == j { a.error * a.error } else { 0.0 };
            together(a, b, taken[i].what.on == taken[j].what.on) + own
        };
        let covariance: Vec<Vec<f64>> = (0..n).map(|i| (0..n).map(|j| of_both(i, j)).collect()).collect();
        let off: Vec<f64> = taken.iter().zip(&predicted).map(|(t, p)| t.shown - p.value).collect();
        let lower = cholesky(&covariance).unwrap_or_default();
        let z = forward(&lower, &off);
        let spread: f64 = lower.iter().enumerate().map(|(i, row)| row[i].ln()).sum();
        // However far off: a reading can be wrong by itself.
        let log = (-0.5 * dot(&z, &z)).max(FURTHEST * n as f64) - spread;
        Evidence { predicted, lower, z, log }
    }

    /// Chi-square of the readings.
    pub fn off(&self) -> f64 {
        dot(&self.z, &self.z)
    }

    /// What one more reading will show after those taken, of which this is foretold by itself: value and standard error.
    pub fn foresee(&self, taken: &[Taken], what: &Measurement, own: &Prediction) -> (f64, f64) {
        let read = taken.iter().zip(&self.predicted);
        let with: Vec<f64> = read.map(|(taken, p)| together(own, p, taken.what.on == what.on)).collect();
        let known = forward(&self.lower, &with);
        let variance = together(own, own, true) + own.error * own.error - dot(&known, &known);
        (own.value + dot(&known, &self.z), variance.max(own.error * own.error).sqrt())
    }
}

/// Covariance of two readings by what moves both.
fn together(a: &Prediction, b: &Prediction, same_load: bool) -> f64 {
    let load = if same_load { a.moves[2] * b.moves[2] } else { 0.0 };
    a.moves[0] * b.moves[0] + a.moves[1] * b.moves[1] + load
}
