//! Which two faults may there be at once?
//!
//! Where one fault keeps every current away, what a meter shows of the others is silence: so whatever interrupts is thought
//! of beside everything else. Two that only resist, each seen beside the other, are tried when
//! nothing else explains the readings.

use crate::engine::ask::trouble::belief::Belief;
use crate::engine::ask::trouble::prior::{sizes, weight};
use crate::engine::ask::trouble::symptom::fits;
use crate::engine::simulate::trouble::cause::{Cause, Fault, Faults, OPEN};

/// Of all faults, two at once have about half this share: common practice, no source.
const TWO: f64 = 0.3;
/// Causes of which pairs are made that only resist, and sizes of each.
const PAIRED: usize = 12;
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

/// A fault with its weight and how well it makes what is seen.
type Weighed = (Fault, f64, f64);

impl Belief<'_> {
    /// Pairs with their weights before any reading; `all` where single faults explain nothing.
    pub fn pairs(&self, singles: &[(Faults, f64)], all: bool) -> Vec<(Faults, f64)> {
        let mut causes: Vec<Cause> = singles.iter().filter_map(|(faults, _)| faults[0].map(|f| f.cause)).collect();
        causes.dedup();
        let whole: f64 = causes.iter().map(|c| weight(self.wired, *c)).sum();
        let rarer = TWO / whole.max(1e-9);
        let mut pairs = self.two_of(&causes, BESIDE, rarer, &|a, b| interrupts(a) || interrupts(b));
        if all {
            pairs.extend(self.two_of(&self.near(), SIZES, rarer, &|a, b| !interrupts(a) && !interrupts(b)));
        }
        pairs
    }

    fn two_of(
        &self,
        causes: &[Cause],
        count: usize,
        rarer: f64,
        wanted: &dyn Fn(&Fault, &Fault) -> bool,
    ) -> Vec<(Faults, f64)> {
        let each = causes.iter().map(|c| self.weighed(*c, count));
        let each: Vec<Vec<Weighed>> = each.filter(|sizes| sizes.iter().any(|s| s.2 >= MAKES)).collect();
        let mut pairs = Vec::new();
        for (n, (one, weight, fits)) in each.iter().enumerate().flat_map(|(n, all)| all.iter().map(move |f| (n, f))) {
            for (other, weighs, makes) in each[n + 1..].iter().flatten().filter(|o| wanted(one, &o.0)) {
                // Where one keeps the current away, that is what is seen.
                let seen = match (interrupts(one), interrupts(other)) {
                    (true, false) => *fits,
                    (false, true) => *makes,
                    _ => fits.max(*makes),
                };
                pairs.push(([Some(*one), Some(*other)], rarer * weight * weighs * seen));
            }
        }
        pairs
    }

    /// Some of the sizes of a cause with the shares of all, an open part by itself.
    fn weighed(&self, cause: Cause, count: usize) -> Vec<Weighed> {
        let all = sizes(self.wired, cause, self.amps(cause));
        let (open, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|s| s.0 >= OPEN / 2.0);
        let each = rest.len().div_ceil(count).max(1);
        let stretch = |s: &[(f64, f64)]| (s[s.len() / 2].0, s.iter().map(|s| s.1).sum());
        let few = open.into_iter().chain(rest.chunks(each).map(stretch));
        few.map(|(size, share): (f64, f64)| {
            let fault = Fault { cause, size };
            let makes = fits(self.wired, self.symptom, self.load, fault);
            (fault, weight(self.wired, cause) * share, makes)
        })
        .collect()
    }

    /// The causes that come nearest, each in the best of its sizes.
    fn near(&self) -> Vec<Cause> {
        let mut near: Vec<(Cause, f64)> = Vec::new();
        for guess in &self.guesses {
            let Some(fault) = guess.faults[0] else { continue };
            let off = guess.off();
            match near.iter_mut().find(|n| n.0 == fault.cause) {
                Some(known) => known.1 = known.1.min(off),
                None => near.push((fault.cause, off)),
            }
        }
        near.sort_by(|a, b| a.1.total_cmp(&b.1));
        near.into_iter().take(PAIRED).map(|n| n.0).collect()
    }

    /// Whether no reading by itself speaks against it: the whole misfit is never less than that of one reading.
    pub fn may_be(&self, faults: &Faults) -> bool {
        let mut on = Vec::new();
        self.taken.iter().all(|taken| {
            let what = &taken.what;
            if !on.iter().any(|(with, _)| *with == what.on) {
                on.push((what.on, self.wired.states(faults, what.on)));
            }
            let Some((_, states)) = on.iter().find(|(with, _)| *with == what.on) else { return true };
            let shows = self.wired.predict(faults, states, what, &self.meter);
            let moves: f64 = shows.moves.iter().map(|m| m * m).sum();
            (taken.shown - shows.value).powi(2) <= FAR * (shows.error * shows.error + moves)
        })
    }
}
