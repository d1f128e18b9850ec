//! Which two faults may there be at once?
//!
//! Where one fault keeps every current away, what a meter shows of the others is silence: so whatever interrupts is thought
//! of beside everything else. Two that only resist, each seen beside the other, are tried when
//! nothing else explains the readings.

use crate::engine::ask::trouble::belief::{Belief, Guess, PARTS, TOGETHER};
use crate::engine::ask::trouble::evidence::{Evidence, Taken};
use crate::engine::ask::trouble::prior::{sizes, weight};
use crate::engine::ask::trouble::symptom::fits;
use crate::engine::physics::side_by_side::in_parts;
use crate::engine::simulate::trouble::cause::{Cause, Fault, OPEN};
use crate::engine::simulate::trouble::shows::{Mark, only_resists};
use std::sync::Arc;

/// Of all faults, two at once have about half this share: common practice, no source.
const TWO: f64 = 0.3;
/// Sizes of each of two that only resist.
const SIZES: usize = 10;
/// Sizes of what stands beside something that interrupts.
const BESIDE: usize = 3;
/// A cause that in no size makes what is seen with this chance is not thought of beside another.
const MAKES: f64 = 0.01;
/// A pair that misses a reading by more than this squared is not looked at further.
const FAR: f64 = 60.0;

/// Whether a fault keeps the current away, wherever else it would flow.
fn interrupts(fault: &Fault) -> bool {
    match fault.cause {
        Cause::Part(_) => fault.size >= OPEN / 2.0,
        Cause::LoadDead(_) | Cause::ChargerOff | Cause::EnableWire | Cause::ProtectionOpen => true,
        Cause::WrongFuse(_) | Cause::Chafed(_) | Cause::SenseReversed => true,
        _ => false,
    }
}

/// One of the faults that a pair is made of.
struct Half {
    fault: Fault,
    /// Before any reading.
    weight: f64,
    /// How well it makes what is seen.
    makes: f64,
}

/// Faults that no reading taken so far tells apart, whatever is beside them.
struct Alike {
    halves: Vec<Half>,
    /// By reading: how they show, and whether alone they let no current flow.
    marks: Vec<Mark>,
    stills: Vec<bool>,
    interrupts: bool,
    resists: bool,
    /// What each of them alone foretells.
    alone: Arc<Evidence>,
}

/// Pairs with the logarithms of their weights, and the least chi-square of any that was thought of.
type Pairs = (Vec<(Guess, f64)>, f64);

impl Belief<'_> {
    /// Pairs after the readings; `all` where single faults explain nothing.
    pub fn pairs(&self, alone: &[(Guess, f64)], all: bool) -> Pairs {
        let mut causes: Vec<Cause> = alone.iter().filter_map(|(g, _)| g.faults[0].map(|f| f.cause)).collect();
        causes.dedup();
        let whole: f64 = causes.iter().map(|c| weight(self.wired, *c)).sum();
        let rarer = TWO / whole.max(1e-9);
        let best = alone.iter().map(|g| g.1).fold(f64::NEG_INFINITY, f64::max);
        let some = self.alike(&causes, BESIDE, alone);
        let (mut pairs, mut misfit) = self.two_of(&some, (rarer, best), &|a, b| a.interrupts || b.interrupts);
        if all {
            let more = self.alike(&causes, SIZES, alone);
            let (resist, of) = self.two_of(&more, (rarer, best), &|a, b| !a.interrupts && !b.interrupts);
            pairs.extend(resist);
            misfit = misfit.min(of);
        }
        (pairs, misfit)
    }

    fn two_of(&self, each: &[Alike], (rarer, best): (f64, f64), wanted: &dyn Fn(&Alike, &Alike) -> bool) -> Pairs {
        let with = |n: usize| (n..each.len()).map(move |m| (n, m));
        let two: Vec<_> = (0..each.len()).flat_map(with).filter(|(n, m)| wanted(&each[*n], &each[*m])).collect();
        let weighed = in_parts(two.len(), PARTS, |n| self.weigh_both(&each[two[n].0], &each[two[n].1]));
        let count: usize = each.iter().map(|a| a.halves.len()).sum();
        let least = best + (TOGETHER / (count * count).max(1) as f64).ln();
        let mut pairs = Vec::new();
        let mut misfit = f64::INFINITY;
        for ((n, m), evidence) in two.into_iter().zip(weighed).filter_map(|(two, e)| Some((two, e?))) {
            misfit = misfit.min(evidence.off());
            for (i, one) in each[n].halves.iter().enumerate() {
                let others = if n == m { &each[m].halves[i + 1..] } else { &each[m].halves };
                for other in others.iter().filter(|o| o.fault.cause != one.fault.cause) {
                    // Where one keeps the current away, that is what is seen.
                    let seen = match (interrupts(&one.fault), interrupts(&other.fault)) {
                        (true, false) => one.makes,
                        (false, true) => other.makes,
                        _ => one.makes.max(other.makes),
                    };
                    let log = (rarer * one.weight * other.weight * seen).ln() + evidence.log;
                    if log >= least {
                        let faults = [Some(one.fault), Some(other.fault)];
                        pairs.push((Guess::of(faults, evidence.clone()), log));
                    }
                }
            }
        }
        (pairs, misfit)
    }

    /// Some sizes of the causes, put together where no reading tells them apart.
    fn alike(&self, causes: &[Cause], count: usize, alone: &[(Guess, f64)]) -> Vec<Alike> {
        let mut all: Vec<Alike> = Vec::new();
        for cause in causes {
            let halves = self.halves(*cause, count);
            if !halves.iter().any(|h| h.makes >= MAKES) {
                continue;
            }
            for half in halves {
                let marks: Vec<Mark> = self.taken.iter().map(|t| self.wired.mark(&half.fault, &t.what)).collect();
                let (interrupts, resists) = (interrupts(&half.fault), only_resists(&half.fault));
                let same = |a: &&mut Alike| a.interrupts == interrupts && a.resists == resists && a.marks == marks;
                if let Some(known) = all.iter_mut().find(same) {
                    known.halves.push(half);
                } else if let Some(guess) = alone.iter().find(|g| g.0.faults[0] == Some(half.fault)) {
                    let still = |t: &Taken| self.wired.states(&guess.0.faults, t.what.on).are_still();
                    let stills = self.taken.iter().map(|t| interrupts && still(t)).collect();
                    let alone = guess.0.evidence.clone();
                    all.push(Alike { halves: vec![half], marks, stills, interrupts, resists, alone });
                }
            }
        }
        all
    }

    /// Some of the sizes of a cause with the shares of all, an open part by itself.
    fn halves(&self, cause: Cause, count: usize) -> Vec<Half> {
        let all = sizes(self.wired, cause, self.amps(cause));
        let (open, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|s| s.0 >= OPEN / 2.0);
        let each = rest.len().div_ceil(count).max(1);
        let stretch = |s: &[(f64, f64)]| (s[s.len() / 2].0, s.iter().map(|s| s.1).sum());
        let few = open.into_iter().chain(rest.chunks(each).map(stretch));
        few.map(|(size, share): (f64, f64)| {
            let fault = Fault { cause, size };
            let makes = fits(self.wired, self.symptom, self.load, fault);
            Half { fault, weight: weight(self.wired, cause) * share, makes }
        })
        .collect()
    }

    /// Two at once after the readings; `None` when one of these speaks against them by itself: the whole misfit is
    /// never less than that of one reading.
    fn weigh_both(&self, one: &Alike, other: &Alike) -> Option<Arc<Evidence>> {
        let first = one.halves.first()?.fault;
        let second = other.halves.iter().map(|h| h.fault).find(|f| f.cause != first.cause)?;
        let mut both = Guess::of([Some(first), Some(second)], Arc::default());
        let two = [one, other];
        let mut of = [0, 0];
        let mut predicted = Vec::with_capacity(self.taken.len());
        for (n, taken) in self.taken.iter().enumerate() {
            let shows = match shown_by(one, other, n) {
                Some(half) => {
                    of[half] += 1;
                    two[half].alone.predicted[n]
                }
                None => both.predict(self, &taken.what),
            };
            let moves: f64 = shows.moves.iter().map(|m| m * m).sum();
            if (taken.shown - shows.value).powi(2) > FAR * (shows.error * shows.error + moves) {
                return None;
            }
            predicted.push(shows);
        }
        let whole = of.iter().position(|count| *count == self.taken.len());
        Some(whole.map_or_else(|| Arc::new(Evidence::of(&self.taken, predicted)), |half| two[half].alone.clone()))
    }
}

/// Which of two faults alone shows what a reading shows of both; `None` where both together have to be solved.
fn shown_by(one: &Alike, other: &Alike, reading: usize) -> Option<usize> {
    match [one, other].map(|a| a.marks[reading] != Mark::Silent) {
        [false, false] => Some(0),
        // Two that resist are tried in larger steps, which is counted in what they show.
        _ if one.resists && other.resists => None,
        [true, false] => Some(0),
        [false, true] => Some(1),
        _ if one.stills[reading] && other.resists => Some(0),
        _ if other.stills[reading] && one.resists => Some(1),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;
    use crate::engine::ask::trouble::offer::offers;
    use crate::engine::ask::trouble::symptom::Symptom;
    use crate::engine::design::design;
    use crate::plan::{default_example, read};

    /// Where a reading of two faults is taken from one of them alone, both together solved show the same.
    #[test]
    fn one_of_two_stands_for_both_only_where_both_show_the_same() {
        let catalogue = Catalogue::embedded().unwrap();
        let plan = read(default_example().text, &catalogue).plan;
        let design = design(&plan, &catalogue);
        let wired = design.wired();
        let (mut short, mut solved) = (0, 0);
        for (symptom, load) in [(Symptom::Dark, Some(0)), (Symptom::Flat, None), (Symptom::CutEarly, Some(1))] {
            let offers = offers(&wired, symptom, load);
            let taken: Vec<Taken> = offers.iter().step_by(7).map(|o| Taken { what: o.what, shown: 0.0 }).collect();
            let belief = Belief::of(&wired, symptom, load, &[]);
            let belief = Belief { taken, ..belief };
            let singles = belief.singles();
            let alone: Vec<_> = singles.iter().map(|(fault, prior)| belief.weigh(*fault, *prior)).collect();
            let mut causes: Vec<Cause> = singles.iter().map(|s| s.0.cause).collect();
            causes.dedup();
            let alike = belief.alike(&causes, BESIDE, &alone);
            let two = (0..alike.len()).flat_map(|n| (n..alike.len()).map(move |m| (n, m)));
            for (n, m) in two.step_by(3) {
                let (one, other) = (&alike[n], &alike[m]);
                // The last of each, where the first stand for all.
                let Some(last) = other.halves.iter().rev().find(|h| h.fault.cause != one.halves[0].fault.cause) else {
                    continue;
                };
                let faults = [Some(one.halves[0].fault), Some(last.fault)];
                let mut both = Guess::of(faults, Arc::default());
                let first = other.halves.iter().find(|h| h.fault.cause != one.halves[0].fault.cause).unwrap();
                let mut stand = Guess::of([faults[0], Some(first.fault)], Arc::default());
                for (n, taken) in belief.taken.iter().enumerate() {
                    let by = match shown_by(one, other, n) {
                        Some(half) => [one, other][half].alone.predicted[n],
                        None => stand.predict(&belief, &taken.what),
                    };
                    short += usize::from(shown_by(one, other, n).is_some());
                    solved += usize::from(shown_by(one, other, n).is_none());
                    let two = both.predict(&belief, &taken.what);
                    let near = |a: f64, b: f64| (a - b).abs() < 1e-3;
                    let moves = by.moves.iter().zip(two.moves).all(|(a, b)| near(*a, b));
                    let same = near(by.value, two.value) && moves && near(by.error, two.error);
                    assert!(same, "{faults:?} {:?}: {by:?}, solved {two:?}", taken.what);
                }
            }
        }
        assert!(short > 1000 && solved > 100, "{short} short, {solved} solved");
    }
}
