//! Which measurement tells most for its trouble?
//!
//! For each measurement the chances of the causes are spread over what the meter would show; the entropy that is left
//! on average within what it can tell apart, taken from the entropy now, over the trouble of getting there.

use crate::engine::ask::trouble::belief::Belief;
use crate::engine::ask::trouble::few::Few;
use crate::engine::ask::trouble::offer::{Offer, offers};
use crate::engine::physics::side_by_side::in_parts;
use crate::engine::simulate::trouble::cause::{Cause, size_of};
use crate::engine::simulate::trouble::predict::Measurement;

/// A measurement worth taking.
#[derive(Clone, Debug)]
pub struct Next {
    /// What, and its trouble.
    pub offer: Offer,
    /// Bits it tells on average.
    pub bits: f64,
    /// Between what the meter will show for the likeliest causes, in the sizes they may have: twice the standard error
    /// counted.
    pub shows: Vec<(Cause, f64, f64)>,
}

/// So many offers at least are worth a part for each thread.
const OFFERS: usize = 16;
/// What tells less than this is not worth it.
const WORTH: f64 = 0.1;
/// Causes of which it is told what the measurement will show.
const NAMED: usize = 24;
/// What has less than this share of the likeliest cause's chance is not told of.
const TOLD: f64 = 0.05;
/// Nor is a size with less than this share of the chance of the likeliest size.
const SIZED: f64 = 0.5;

/// The next measurement; `None` when none tells the remaining causes apart. What cannot be reached is left out.
pub fn next(belief: &Belief<'_>, unreachable: &[Measurement]) -> Option<Next> {
    let mut few = belief.few();
    let groups = few.iter().map(|f| f.group + 1).max().unwrap_or(0);
    let mut by_group = vec![0.0; groups];
    few.iter().for_each(|f| by_group[f.group] += f.guess.chance);
    let now = entropy(&by_group);
    let taken = |what: &Measurement| belief.taken.iter().any(|t| t.what == *what) || unreachable.contains(what);
    let offers = offers(belief.wired, belief.symptom, belief.load).into_iter().filter(|o| !taken(&o.what));
    let offers: Vec<Offer> = offers.collect();
    for on in offers.iter().map(|o| o.what.on) {
        few.iter_mut().for_each(|f| f.guess.solve(belief.wired, on));
    }
    let bits = in_parts(offers.len(), OFFERS, |n| {
        let foresee = |of: &Few| {
            let (value, error) = belief.foresee(&of.guess, &offers[n].what);
            Foreseen { value, error, chance: of.guess.chance, group: of.group }
        };
        let mut foreseen: Vec<Foreseen> = few.iter().map(foresee).collect();
        widen(&mut foreseen, &few);
        now - left(&foreseen, groups)
    });
    let mut best: Option<(Offer, f64)> = None;
    for (offer, bits) in offers.into_iter().zip(bits) {
        if bits >= WORTH && best.as_ref().is_none_or(|(o, b)| worth(bits, &offer) > worth(*b, o)) {
            best = Some((offer, bits));
        }
    }
    let (offer, bits) = best?;
    let ranked = belief.ranked();
    let least = ranked.first().map_or(0.0, |first| first.1 * TOLD);
    let told = ranked.into_iter().take(NAMED).filter(|r| r.1 >= least);
    let shows = told.filter_map(|(cause, _)| within(belief, &few, cause, &offer.what)).collect();
    Some(Next { offer, bits, shows })
}

/// Between what a cause makes the meter show, in all sizes that it may well have.
fn within(belief: &Belief<'_>, few: &[Few], cause: Cause, what: &Measurement) -> Option<(Cause, f64, f64)> {
    let of = || few.iter().filter(|f| size_of(&f.guess.faults, cause).is_some());
    let most = of().map(|f| f.guess.chance).fold(0.0, f64::max);
    let each = of().filter(|f| f.guess.chance >= most * SIZED).map(|f| belief.foresee(&f.guess, what));
    // What has no reason to be below zero is not told to be.
    let low = |value: f64, error: f64| (value - 2.0 * error).max(if value >= 0.0 { 0.0 } else { f64::NEG_INFINITY });
    let ends = each.map(|(value, error)| (low(value, error), value + 2.0 * error));
    let (low, high) = ends.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
    Some((cause, low, high))
}

/// What a meter will show if a guess holds, that guess's chance and its group.
#[derive(Clone, Copy, Debug, Default)]
struct Foreseen {
    value: f64,
    error: f64,
    chance: f64,
    group: usize,
}

/// A guess stands for all sizes up to halfway to its neighbours: what they show belongs to its error.
fn widen(foreseen: &mut [Foreseen], few: &[Few]) {
    for n in 1..foreseen.len() {
        if few[n].follows {
            let apart = ((foreseen[n].value - foreseen[n - 1].value) / 2.0).powi(2) / 3.0;
            for side in [n - 1, n] {
                foreseen[side].error = foreseen[side].error.hypot(apart.sqrt());
            }
        }
    }
}

/// Bits over trouble; its root, since each reading also costs the time of understanding it.
fn worth(bits: f64, offer: &Offer) -> f64 {
    bits / offer.trouble.sqrt()
}

/// Entropy of chances that need not sum to one, in bits.
fn entropy(chances: &[f64]) -> f64 {
    let sum: f64 = chances.iter().sum();
    let each = chances.iter().filter(|p| **p > 0.0).map(|p| -p / sum * (p / sum).log2());
    each.sum()
}

/// Bins in which what a meter shows is told apart.
const BINS: usize = 96;

/// Entropy that is left on average.
fn left(foreseen: &[Foreseen], groups: usize) -> f64 {
    let low = foreseen.iter().map(|f| f.value).fold(f64::INFINITY, f64::min);
    let high = foreseen.iter().map(|f| f.value).fold(f64::NEG_INFINITY, f64::max);
    let least = foreseen.iter().map(|f| f.error).fold(f64::INFINITY, f64::min);
    let width = ((high - low) / (BINS as f64 - 8.0)).max(least);
    if !width.is_finite() || width <= 0.0 {
        return f64::INFINITY;
    }
    let mut bins = vec![0.0; BINS * groups];
    let mut weights = Vec::new();
    for f in foreseen {
        // Its bell over the bins, wider where the error is.
        let spread = (f.error / width).clamp(0.3, 20.0);
        let middle = (f.value - low) / width + 4.0;
        let reach = (2.5 * spread).ceil() as i64;
        let centre = middle.floor() as i64;
        weights.clear();
        weights.extend((centre - reach..=centre + reach).map(|bin| {
            (bin.clamp(0, BINS as i64 - 1) as usize, (-0.5 * ((bin as f64 + 0.5 - middle) / spread).powi(2)).exp())
        }));
        let sum: f64 = weights.iter().map(|w| w.1).sum();
        for (bin, weight) in &weights {
            bins[bin * groups + f.group] += f.chance * weight / sum.max(1e-300);
        }
    }
    let all: f64 = bins.iter().sum();
    bins.chunks(groups)
        .map(|bin| bin.iter().sum::<f64>() / all * if bin.iter().any(|p| *p > 0.0) { entropy(bin) } else { 0.0 })
        .sum()
}
