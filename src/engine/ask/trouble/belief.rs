//! What do the readings make of the causes?
//!
//! Each cause in each of its sizes predicts every reading, which counts for or against it (`evidence`). Two faults
//! at once are thought of once one leads (`pairs`). What counts is whether a cause is at fault, alone or beside another: that is
//! mended first, and what is left is looked for then. When nothing explains the readings, that is said, with the reading
//! that speaks against it most.

use crate::engine::ask::trouble::evidence::{Evidence, Taken};
use crate::engine::ask::trouble::prior::{sizes, weight};
use crate::engine::ask::trouble::symptom::{Symptom, fits, heaviest};
use crate::engine::physics::linear::chi_square_limit;
use crate::engine::physics::side_by_side::in_parts;
use crate::engine::simulate::test_sheet::result::MeterErrors;
use crate::engine::simulate::trouble::cause::{Cause, Fault, Faults, OPEN, added, causes, size_of};
use crate::engine::simulate::trouble::predict::{Measurement, Prediction, Probe, States};
use crate::engine::simulate::trouble::state::On;
use crate::engine::simulate::trouble::wired::{Pole, Wired};
use std::collections::HashMap;
use std::sync::Arc;

/// One or two causes in one of their sizes.
#[derive(Clone, Debug)]
pub struct Guess {
    /// What is at fault.
    pub faults: Faults,
    /// Chance, of all guesses.
    pub chance: f64,
    /// What the readings make of it; many guesses that foretell the same share it.
    pub evidence: Arc<Evidence>,
    states: Vec<(On, States)>,
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
pub const PARTS: usize = 32;
/// From this share of the misfit that is too much, two faults that only resist are thought of.
const DOUBT: f64 = 0.5;
/// Two faults are thought of once one leads with this chance.
const LEADS: f64 = 0.5;
/// A cause stands out from this chance on.
const SURE: f64 = 0.95;
/// A size is known when none with this share of the likeliest one's chance is further from another by this factor.
const MAY_BE: f64 = 0.1;
const ALIKE: f64 = 2.0;
/// A reading that is off by more than this squared, in standard errors, shows that something is amiss.
const SEEN: f64 = 9.0;
/// Guesses that together have less than this chance are left out.
pub const TOGETHER: f64 = 1e-3;

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
        let alone = in_parts(singles.len(), PARTS, |n| belief.weigh(singles[n].0, singles[n].1));
        let misfit = alone.iter().map(|g| g.0.evidence.off()).fold(f64::INFINITY, f64::min);
        belief.guesses = shared_out(alone.clone());
        let limit = chi_square_limit(taken.len());
        let doubt = misfit > DOUBT * limit;
        // While many causes are alike, a second one makes no difference to what is read next.
        let leads = belief.ranked().first().is_some_and(|r| r.1 >= LEADS);
        if !taken.is_empty() && (doubt || leads) {
            let (pairs, of_pairs) = belief.pairs(&alone, doubt);
            belief.guesses = shared_out(alone.into_iter().chain(pairs).collect());
            if misfit.min(of_pairs) > limit {
                belief.none_fits = Some(belief.odd_one());
            }
        }
        belief
    }

    /// The reading without which the best guess would fit best.
    fn odd_one(&self) -> usize {
        let best = self.guesses.first();
        let off = |n: &usize| best.map_or(0.0, |g| g.evidence.z.get(*n).copied().unwrap_or(0.0).abs());
        (0..self.taken.len()).max_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(0)
    }

    /// Single faults with their weights before any reading.
    pub fn singles(&self) -> Vec<(Fault, f64)> {
        let mut all = Vec::new();
        for cause in causes(self.wired) {
            if !self.concerns(cause) {
                continue;
            }
            let amps = self.amps(cause);
            for (size, share) in sizes(self.wired, cause, amps) {
                let fault = Fault { cause, size };
                let chance = weight(self.wired, cause) * share * fits(self.wired, self.symptom, self.load, fault);
                if chance > 0.0 {
                    all.push((fault, chance));
                }
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
        let charging =
            || [self.wired.feed_way(), self.wired.charge_way()].into_iter().flatten().any(|w| w.contains(&branch));
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

    /// A single fault, and the logarithm of its weight.
    pub fn weigh(&self, fault: Fault, prior: f64) -> (Guess, f64) {
        let mut guess = Guess::of([Some(fault), None], Arc::default());
        let predicted = self.taken.iter().map(|taken| guess.predict(self, &taken.what)).collect();
        let evidence = Evidence::of(&self.taken, predicted);
        // Only what is looked at further is solved again for the next reading.
        guess.states = Vec::new();
        let log = prior.ln() + evidence.log;
        guess.evidence = Arc::new(evidence);
        (guess, log)
    }

    /// Whether one cause stands out. Of a part in the way the meter has shown that something is amiss: what nobody has
    /// seen yet may as well be a fault that hides behind another.
    pub fn is_sure(&self) -> bool {
        let by_meter = |taken: &Taken| taken.what.probe != Probe::Works;
        let leads = self.ranked().first().copied().filter(|r| r.1 >= SURE && self.none_fits.is_none());
        let Some((cause, _)) = leads.filter(|_| self.taken.iter().any(by_meter)) else { return false };
        let shows = cause == Cause::WeakAlternator || added(self.wired, &Fault { cause, size: OPEN }).is_some();
        !shows || self.is_seen()
    }

    /// Whether a reading shows what no sound circuit does.
    fn is_seen(&self) -> bool {
        let mut sound = Guess::of([None, None], Arc::default());
        self.taken.iter().filter(|taken| taken.what.probe != Probe::Works).any(|taken| {
            let shows = sound.predict(self, &taken.what);
            let moves: f64 = shows.moves.iter().map(|m| m * m).sum();
            (taken.shown - shows.value).powi(2) > SEEN * (shows.error * shows.error + moves)
        })
    }

    /// The size of a cause; `None` while it may well be another, further off than a factor.
    pub fn known_size(&self, cause: Cause) -> Option<f64> {
        let sizes = || self.guesses.iter().filter_map(|g| Some((size_of(&g.faults, cause)?, g.chance)));
        let (likeliest, chance) = sizes().next()?;
        let may_be = sizes().filter(|s| s.1 >= MAY_BE * chance).map(|s| s.0);
        let (low, high) = may_be.fold((likeliest, likeliest), |(low, high), s| (low.min(s), high.max(s)));
        (likeliest >= OPEN / 2.0 || high <= ALIKE * low).then_some(likeliest)
    }

    /// What a measurement will show if a guess holds that is solved, after what was read: value and standard error.
    pub fn foresee(&self, guess: &Guess, what: &Measurement) -> (f64, f64) {
        guess.evidence.foresee(&self.taken, what, &guess.foretell(self, what))
    }

    /// Causes by how likely they are at fault, alone or beside another.
    pub fn ranked(&self) -> Ranked {
        let mut ranked: Ranked = Vec::new();
        let mut places: HashMap<Cause, usize> = HashMap::new();
        for guess in &self.guesses {
            for fault in guess.faults.iter().flatten() {
                let place = *places.entry(fault.cause).or_insert(ranked.len());
                match ranked.get_mut(place) {
                    Some(known) => known.1 += guess.chance,
                    None => ranked.push((fault.cause, guess.chance)),
                }
            }
        }
        ranked.sort_by(|a, b| b.1.total_cmp(&a.1));
        ranked
    }
}

/// Chances by the logarithms of the weights, likeliest first.
fn shared_out(mut all: Vec<(Guess, f64)>) -> Vec<Guess> {
    let most = all.iter().map(|g| g.1).fold(f64::NEG_INFINITY, f64::max);
    let least = most + (TOGETHER / all.len().max(1) as f64).ln();
    all.retain(|g| g.1 >= least);
    let sum: f64 = all.iter().map(|g| (g.1 - most).exp()).sum();
    for (guess, log) in &mut all {
        guess.chance = (*log - most).exp() / sum.max(1e-300);
    }
    let mut guesses: Vec<Guess> = all.into_iter().map(|g| g.0).collect();
    guesses.sort_by(|a, b| b.chance.total_cmp(&a.chance));
    guesses
}

impl Guess {
    /// With what the readings make of it, its chance still to come.
    pub fn of(faults: Faults, evidence: Arc<Evidence>) -> Self {
        Guess { faults, chance: 0.0, evidence, states: Vec::new() }
    }

    /// Solve the circuit with this on, once.
    pub fn solve(&mut self, wired: &Wired<'_>, on: On) {
        if !self.states.iter().any(|s| s.0 == on) {
            self.states.push((on, wired.states(&self.faults, on)));
        }
    }

    /// What a measurement will show, where the circuit was solved with that on.
    pub fn foretell(&self, belief: &Belief<'_>, what: &Measurement) -> Prediction {
        let states = self.states.iter().find(|s| s.0 == what.on);
        states.map(|s| belief.wired.predict(&self.faults, &s.1, what, &belief.meter)).unwrap_or_default()
    }

    /// What a measurement will show; each state is solved once.
    pub fn predict(&mut self, belief: &Belief<'_>, what: &Measurement) -> Prediction {
        self.solve(belief.wired, what.on);
        self.foretell(belief, what)
    }
}
