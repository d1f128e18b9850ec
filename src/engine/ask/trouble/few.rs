//! Which guesses stand for all of them when the next reading is chosen?
//!
//! Readings are weighed with each cause in many sizes. To foresee what a measurement would tell, a few of them do: the
//! sizes of a cause in stretches, of each the likeliest with the chance of all.

use crate::engine::ask::trouble::belief::{Belief, Guess};
use crate::engine::simulate::trouble::cause::{Cause, OPEN};

/// Guesses below this chance are not looked at for the next reading.
const FAINT: f64 = 1e-5;
/// Sizes of a cause that are looked at, besides an open part.
const SIZES: usize = 5;

/// Pairs that are looked at, the likeliest.
const PAIRS: usize = 30;

/// A guess that stands for its neighbours.
#[derive(Clone, Debug)]
pub struct Few {
    /// The likeliest of them, with the chance of all.
    pub guess: Guess,
    /// Which of the causes, numbered.
    pub group: usize,
    /// The one before it is of the same cause, in the next smaller sizes.
    pub follows: bool,
}

impl Belief<'_> {
    /// The guesses that still count, thinned.
    pub fn few(&self) -> Vec<Few> {
        let mut known: Vec<([Option<Cause>; 2], Vec<&Guess>)> = Vec::new();
        for guess in self.guesses.iter().filter(|g| g.chance > FAINT) {
            let causes = guess.faults.map(|f| f.map(|f| f.cause));
            match known.iter_mut().find(|k| k.0 == causes) {
                Some(of) => of.1.push(guess),
                None => known.push((causes, vec![guess])),
            }
        }
        let mut pairs = 0;
        known.retain(|k| {
            pairs += usize::from(k.0[1].is_some());
            k.0[1].is_none() || pairs <= PAIRS
        });
        known.into_iter().enumerate().flat_map(|(group, (_, guesses))| thinned(group, guesses)).collect()
    }
}

/// Some sizes of a cause.
fn thinned(group: usize, mut guesses: Vec<&Guess>) -> Vec<Few> {
    let single = guesses.iter().all(|g| g.faults[1].is_none());
    let sizes = |g: &Guess| g.faults.map(|f| f.map_or(0.0, |f| f.size));
    guesses.sort_by(|a, b| sizes(a).partial_cmp(&sizes(b)).unwrap_or(std::cmp::Ordering::Equal));
    let open = guesses.iter().position(|g| sizes(g).iter().any(|s| *s >= OPEN / 2.0)).unwrap_or(guesses.len());
    let whole: Vec<&Guess> = guesses.split_off(open);
    let each = guesses.len().div_ceil(SIZES).max(1);
    let stretches = guesses.chunks(each).chain(whole.chunks(1));
    let mut few = Vec::new();
    for (n, stretch) in stretches.enumerate() {
        let Some(likeliest) = stretch.iter().max_by(|a, b| a.chance.total_cmp(&b.chance)) else { continue };
        let chance = stretch.iter().map(|g| g.chance).sum();
        let follows = single && n > 0 && n * each < guesses.len();
        let mut guess = (*likeliest).clone();
        guess.chance = chance;
        few.push(Few { guess, group, follows });
    }
    few
}
