//! What do the readings make of the causes?
//!
//! Each cause in each of its sizes predicts every reading. What may be otherwise without a fault moves several
//! readings together; with the meter's error it is the covariance by which a reading counts for or against. Two faults
//! at once are thought of once one leads (`pairs`). What counts is whether a cause is at fault, alone or beside another: that is
//! mended first, and what is left is looked for then. When nothing explains the readings, that is said, with the reading
//! that speaks against it most.

use crate::engine::ask::trouble::prior::{sizes, weight};
use crate::engine::ask::trouble::symptom::{Symptom, fits, heaviest};
use crate::engine::physics::linear::{chi_square_limit, cholesky, dot, forward};
use crate::engine::physics::side_by_side::in_parts;
use crate::engine::simulate::test_sheet::result::MeterErrors;
use crate::engine::simulate::trouble::cause::{Cause, Fault, Faults, causes};
use crate::engine::simulate::trouble::predict::{Measurement, Prediction, States};
use crate::engine::simulate::trouble::state::On;
use crate::engine::simulate::trouble::wired::{Pole, Wired};
use crate::plan::point;

/// One reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// Of what.
    pub what: Measurement,
    /// What the meter showed, in the unit of the probe.
    pub shown: f64,
}

/// One or two causes in one of their sizes.
#[derive(Clone, Debug)]
pub struct Guess {
    /// What is at fault.
    pub faults: Faults,
    /// Chance, of all guesses.
    pub chance: f64,
    states: Vec<(On, States)>,
    predicted: Vec<Prediction>,
    lower: Vec<Vec<f64>>,
    z: Vec<f64>,
}

/// All guesses after the readings.
#[derive(Clone, Debug)]
pub struct Belief<'a> {
    /// The circuit.
    pub wired: &'a Wired<'a>,
    /// Errors of the meters.
    pub meter: MeterErrors,
    /// What is seen.
    pub symptom: Symptom,
    /// Of which load.
    pub load: Option<usize>,
    /// What was read.
    pub taken: Vec<Taken>,
    /// Likeliest first.
    pub guesses: Vec<Guess>,
    /// No cause, and no two of them, explain the readings; the one that speaks against most.
    pub none_fits: Option<usize>,
}

/// Causes with the chance that each is at fault, likeliest first.
pub type Ranked = Vec<(Cause, f64)>;

/// So many guesses at least are worth a part for each thread.
const PARTS: usize = 32;
/// From this share of the misfit that is too much, two faults that only resist are thought of.
const DOUBT: f64 = 0.5;
/// Two faults are thought of once one leads with this chance.
const LEADS: f64 = 0.5;
/// A cause stands out from this chance on.
pub const SURE: f64 = 0.95;
/// No reading speaks against a guess with more than this, as a logarithm.
const FURTHEST: f64 = -60.0;

impl<'a> Belief<'a> {
    /// After these readings.
    pub fn of(wired: &'a Wired<'a>, symptom: Symptom, load: Option<usize>, taken: &[Taken]) -> Self {
        let mut belief = Belief {
            wired,
            meter: wired.meter(),
            symptom,
            load,
            taken: taken.to_vec(),
            guesses: Vec::new(),
            none_fits: None,
        };
        let singles = belief.singles();
        let weighed = |belief: &Self, all: &[(Faults, f64)]| -> Vec<(Guess, f64)> {
            let all: Vec<_> = all.iter().filter(|g| g.1 > 0.0).collect();
            in_parts(all.len(), PARTS, |n| belief.guess(all[n].0, all[n].1))
        };
        let alone = weighed(&belief, &singles);
        belief.guesses = shared_out(alone.clone());
        let doubt = !taken.is_empty() && belief.misfit() > DOUBT * chi_square_limit(taken.len());
        // While many causes are alike, a second one makes no difference to what is read next.
        let leads = belief.ranked().first().is_some_and(|r| r.1 >= LEADS);
        if !taken.is_empty() && (doubt || leads) {
            let limit = chi_square_limit(taken.len());
            let pairs = belief.pairs(&singles, doubt);
            let may_be = in_parts(pairs.len(), PARTS, |n| belief.may_be(&pairs[n].0));
            let fits = pairs.into_iter().zip(may_be).filter(|(_, may_be)| *may_be);
            let fits: Vec<_> = fits.map(|(pair, _)| pair).collect();
            belief.guesses = shared_out(alone.into_iter().chain(weighed(&belief, &fits)).collect());
            if belief.misfit() > limit {
                belief.none_fits = Some(belief.odd_one());
            }
        }
        belief
    }

    /// Chi-square of the guess that explains the readings best.
    fn misfit(&self) -> f64 {
        self.guesses.iter().map(Guess::off).fold(f64::INFINITY, f64::min)
    }

    /// The reading without which the best guess would fit best.
    fn odd_one(&self) -> usize {
        let best = self.guesses.first();
        let off = |n: &usize| best.map_or(0.0, |g| g.z.get(*n).copied().unwrap_or(0.0).abs());
        (0..self.taken.len()).max_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(0)
    }

    fn singles(&self) -> Vec<(Faults, f64)> {
        let mut all = Vec::new();
        for cause in causes(self.wired) {
            if !self.concerns(cause) {
                continue;
            }
            let amps = self.amps(cause);
            for (size, share) in sizes(self.wired, cause, amps) {
                let fault = Fault { cause, size };
                let chance = weight(self.wired, cause) * share * fits(self.wired, self.symptom, self.load, fault);
                all.push(([Some(fault), None], chance));
            }
        }
        all
    }

    /// Whether a cause can have to do with it: what lies on no way that is asked about is left out.
    fn concerns(&self, cause: Cause) -> bool {
        let part = match cause {
            Cause::Part(part) | Cause::WrongFuse(part) => part,
            Cause::Chafed(branch) => match self.wired.chain(branch, Pole::Plus).first() {
                Some(part) => *part,
                None => return false,
            },
            Cause::LoadDead(load) => return self.load == Some(load),
            Cause::NeverStops(_) => return !matches!(self.symptom, Symptom::Dark | Symptom::Weak),
            _ => return true,
        };
        let branch = self.wired.parts[part].branch;
        let circuits = &self.wired.site.circuits;
        let charging = || {
            let feed = circuits.feed_path().unwrap_or_default();
            feed.contains(&branch) || circuits.path_to(point::CHARGER).is_some_and(|way| way.contains(&branch))
        };
        let loads = self.load.and_then(|l| self.wired.way_to(l)).map(|way| way.contains(&branch));
        match self.symptom {
            Symptom::Dark | Symptom::Weak => loads.unwrap_or(true),
            Symptom::FuseGone | Symptom::Warm => loads.unwrap_or(true),
            Symptom::CutEarly => loads.unwrap_or(false) || charging(),
            Symptom::Flat | Symptom::NoCharge | Symptom::Starter => charging(),
        }
    }

    /// What flows in a part in the test that shows it.
    pub fn amps(&self, cause: Cause) -> f64 {
        let Cause::Part(part) = cause else { return 1.0 };
        let branch = self.wired.parts[part].branch;
        let load = self.load.filter(|l| self.wired.way_to(*l).is_some_and(|way| way.contains(&branch)));
        let by_load = load.or_else(|| heaviest(self.wired, branch));
        let charge = self.wired.charger.current.map_or(1.0, |i| i.get());
        by_load.and_then(|l| self.wired.site.loads.get(l)).map_or(charge, |l| l.running().get())
    }

    /// A guess, and the logarithm of its weight.
    fn guess(&self, faults: Faults, prior: f64) -> (Guess, f64) {
        let mut guess =
            Guess { faults, chance: 0.0, states: Vec::new(), predicted: Vec::new(), lower: Vec::new(), z: Vec::new() };
        for taken in &self.taken {
            let predicted = guess.predict(self, &taken.what);
            guess.predicted.push(predicted);
        }
        let n = self.taken.len();
        let covariance: Vec<Vec<f64>> =
            (0..n).map(|i| (0..n).map(|j| self.covariance(&guess, i, j)).collect()).collect();
        let off: Vec<f64> = self.taken.iter().zip(&guess.predicted).map(|(t, p)| t.shown - p.value).collect();
        guess.lower = cholesky(&covariance).unwrap_or_default();
        guess.z = forward(&guess.lower, &off);
        let spread: f64 = guess.lower.iter().enumerate().map(|(i, row)| row[i].ln()).sum();
        let log = -0.5 * dot(&guess.z, &guess.z) - spread;
        // Only what is looked at further is solved again for the next reading.
        guess.states.clear();
        // However far off: a reading can be wrong by itself.
        (guess, prior.ln() + log.max(FURTHEST * n as f64 - spread))
    }

    fn covariance(&self, guess: &Guess, i: usize, j: usize) -> f64 {
        let (a, b) = (&guess.predicted[i], &guess.predicted[j]);
        together(a, b, self.same_load(i, j)) + if i == j { a.error * a.error } else { 0.0 }
    }

    fn same_load(&self, i: usize, j: usize) -> bool {
        self.taken[i].what.on == self.taken[j].what.on
    }

    /// Causes by how likely they are at fault, alone or beside another.
    pub fn ranked(&self) -> Ranked {
        let mut ranked: Ranked = Vec::new();
        for guess in &self.guesses {
            for fault in guess.faults.iter().flatten() {
                match ranked.iter_mut().find(|r| r.0 == fault.cause) {
                    Some(known) => known.1 += guess.chance,
                    None => ranked.push((fault.cause, guess.chance)),
                }
            }
        }
        ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
        ranked
    }

    /// What a measurement will show if a guess holds, after what was read: value and standard error.
    pub fn foresee(&self, guess: &mut Guess, what: &Measurement) -> (f64, f64) {
        let own = guess.predict(self, what);
        let with: Vec<f64> = self
            .taken
            .iter()
            .zip(&guess.predicted)
            .map(|(taken, p)| together(&own, p, taken.what.on == what.on))
            .collect();
        let known = forward(&guess.lower, &with);
        let variance = together(&own, &own, true) + own.error * own.error - dot(&known, &known);
        (own.value + dot(&known, &guess.z), variance.max(own.error * own.error).sqrt())
    }
}

/// Chances by the logarithms of the weights, likeliest first.
fn shared_out(mut all: Vec<(Guess, f64)>) -> Vec<Guess> {
    let most = all.iter().map(|g| g.1).fold(f64::NEG_INFINITY, f64::max);
    let sum: f64 = all.iter().map(|g| (g.1 - most).exp()).sum();
    for (guess, log) in &mut all {
        guess.chance = (*log - most).exp() / sum.max(1e-300);
    }
    let mut guesses: Vec<Guess> = all.into_iter().map(|g| g.0).collect();
    guesses.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    guesses
}

impl Guess {
    /// Chi-square of the readings.
    pub fn off(&self) -> f64 {
        dot(&self.z, &self.z)
    }

    fn predict(&mut self, belief: &Belief<'_>, what: &Measurement) -> Prediction {
        if !self.states.iter().any(|s| s.0 == what.on) {
            self.states.push((what.on, belief.wired.states(&self.faults, what.on)));
        }
        let states = self.states.iter().find(|s| s.0 == what.on);
        states.map(|s| belief.wired.predict(&self.faults, &s.1, what, &belief.meter)).unwrap_or_default()
    }
}

/// Covariance of two readings by what moves both.
fn together(a: &Prediction, b: &Prediction, same_load: bool) -> f64 {
    let load = if same_load { a.moves[2] * b.moves[2] } else { 0.0 };
    a.moves[0] * b.moves[0] + a.moves[1] * b.moves[1] + load
}
