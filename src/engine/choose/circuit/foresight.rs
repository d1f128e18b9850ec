//! What must a branch and all beyond it cost together, copper and wrongs at once?
//!
//! The lightest copper wants small devices, the fewest wrongs want large ones
//! before small ones: each alone says little of both. So the devices and cables
//! of a branch are gone through here with what is wrong wherever they stand
//! ([`Unavoidable`]) and with what the branches beyond must cost behind them,
//! by the drop before, rounded down to steps so that an answer serves
//! for many. Never more than the truth; where it would take too long or too
//! deep, what the two say apart.

use crate::engine::choose::circuit::offer::{Asked, Offer};
use crate::engine::choose::circuit::optimum::{CLOSE, Fronts};
use crate::engine::choose::circuit::unavoidable::Unavoidable;
use crate::engine::simulate::fault::loops::FaultLoops;
use rustc_hash::FxHashMap;

/// Drops before a branch are taken as the same within so many volts.
const STEP: f64 = 0.01;
/// Branches looked ahead of the one in hand.
const DEEPEST: usize = 16;
/// Pairs gone through for each branch, on average, and in all.
const MOST_PAIRS: (usize, usize) = (2_000, 200_000);

/// What is known of the branches: what they may have, what each wants by itself.
pub(super) struct Foresight<'s, 'a> {
    offers: &'s [Offer<'a>],
    asked: &'s [Asked],
    fronts: Fronts,
    unavoidable: Unavoidable<'s>,
    /// By branch, and by the device before it and the drop before it.
    known: Vec<FxHashMap<(usize, u32), f64>>,
    /// By branch, what must be wrong beyond it with such a device before that; not a number until asked for.
    wrong: Vec<Vec<f64>>,
    /// The branches on the far end of each that more hangs on.
    deeper: Vec<Vec<usize>>,
    /// Pairs that may still be gone through.
    left: usize,
}

impl<'s, 'a> Foresight<'s, 'a> {
    /// `fronts`: the optimum without the devices' rules.
    pub fn new(loops: &FaultLoops, offers: &'s [Offer<'a>], asked: &'s [Asked], fronts: Fronts) -> Self {
        let children = |b: usize| loops.branch(b).map_or(&[][..], |b| &b.children);
        let goes_on = |b: &usize| !children(*b).is_empty();
        let deeper = |b| children(b).iter().copied().filter(goes_on).collect();
        Foresight {
            offers,
            asked,
            fronts,
            unavoidable: Unavoidable::of(loops, offers),
            known: vec![FxHashMap::default(); offers.len()],
            wrong: vec![Vec::new(); offers.len()],
            deeper: (0..offers.len()).map(deeper).collect(),
            left: (MOST_PAIRS.0 * offers.len()).min(MOST_PAIRS.1),
        }
    }

    /// What is wrong wherever things stand.
    pub fn unavoidable(&self) -> &Unavoidable<'s> {
        &self.unavoidable
    }

    /// What is wrong with a device of a branch wherever it stands.
    pub fn own(&mut self, loops: &FaultLoops, branch: usize, device: usize) -> f64 {
        self.unavoidable.own(loops, branch, device)
    }

    /// Whether an end at the far end of a branch loses too much with such a drop to it.
    pub fn is_beyond_room(&self, branch: usize, at: f64) -> bool {
        self.asked[branch].room.is_some_and(|room| at > room.get() + CLOSE)
    }

    /// How much a branch may lose for its own end, with so much drop before it.
    pub fn drop_left(&self, branch: usize, before: f64) -> f64 {
        self.asked[branch].room.map_or(f64::INFINITY, |room| room.get() + CLOSE - before)
    }

    /// Beyond a branch whatever it has, with so much drop before it.
    pub fn floor_beyond(&self, branch: usize, children: &[usize], before: f64) -> f64 {
        let wrong: f64 = children.iter().map(|&c| self.unavoidable.floor(c)).sum();
        self.fronts.beyond[branch].least(before) + wrong
    }

    /// What no answer at and beyond a branch can be under, with so much drop and such a device before it.
    pub fn least(&mut self, loops: &FaultLoops, branch: usize, at: f64, state: usize) -> f64 {
        let apart = self.apart(loops, branch, at, state);
        // With nothing beyond it the two say nearly all.
        let ends = loops.branch(branch).is_none_or(|b| b.children.is_empty());
        if ends { apart } else { apart + self.more(loops, branch, at, state, DEEPEST) }
    }

    fn apart(&mut self, loops: &FaultLoops, branch: usize, at: f64, state: usize) -> f64 {
        self.fronts.within[branch].least(at) + self.unavoidable.least(loops, branch, state)
    }

    /// What no answer beyond a branch can be under, with so much drop to its far end and such a device before that.
    pub fn least_beyond(&mut self, loops: &FaultLoops, branch: usize, far: f64, state: usize) -> f64 {
        let wrong = self.wrong_beyond(loops, branch, state);
        self.behind(loops, branch, far, state, wrong, (DEEPEST, f64::INFINITY))
    }

    /// What is wrong with a device of a branch behind another, and what must be beyond them with so much drop to the far
    /// end; `None` where all comes to `most`.
    pub fn wherever(
        &mut self,
        loops: &FaultLoops,
        branch: usize,
        before: f64,
        (state, device): (usize, usize),
        most: f64,
    ) -> Option<(f64, f64)> {
        let own = self.offers[branch].devices[device].own;
        // Both count what is wrong with the device itself.
        let bound = self.bound(loops, branch, before, (state, device), most)?;
        Some((bound.wrong - own, bound.least))
    }

    /// What must be wrong beyond a branch; summed once for each device before it.
    fn wrong_beyond(&mut self, loops: &FaultLoops, branch: usize, state: usize) -> f64 {
        if let Some(known) = self.wrong[branch].get(state).copied().filter(|known| !known.is_nan()) {
            return known;
        }
        let children = loops.branch(branch).map_or(&[][..], |b| &b.children);
        let found = children.iter().map(|&c| self.unavoidable.least(loops, c, state)).sum();
        let known = &mut self.wrong[branch];
        if known.len() <= state {
            known.resize(self.offers[branch].devices.len().max(state + 1), f64::NAN);
        }
        known[state] = found;
        found
    }

    /// The same with what must be wrong there; no further than to `most`.
    fn behind(
        &mut self,
        loops: &FaultLoops,
        branch: usize,
        far: f64,
        state: usize,
        wrong: f64,
        (deep, most): (usize, f64),
    ) -> f64 {
        let mut sum = self.fronts.beyond[branch].least(far) + wrong;
        for child in 0..self.deeper[branch].len() {
            if sum < most {
                let child = self.deeper[branch][child];
                sum += self.more(loops, child, far, state, deep);
            }
        }
        sum
    }

    /// By how much the two together are more than the two apart.
    fn more(&mut self, loops: &FaultLoops, branch: usize, at: f64, state: usize, deep: usize) -> f64 {
        if deep == 0 || self.left == 0 {
            return 0.0;
        }
        let apart = self.apart(loops, branch, at, state);
        if !apart.is_finite() {
            return 0.0;
        }
        let step = (at / STEP).max(0.0) as u32;
        let together = match self.known[branch].get(&(state, step)) {
            Some(known) => *known,
            None => {
                let found = self.together(loops, branch, f64::from(step) * STEP, state, deep);
                self.known[branch].insert((state, step), found);
                found
            }
        };
        (together - apart).max(0.0)
    }

    /// The least of all devices and cables of the branch.
    fn together(&mut self, loops: &FaultLoops, branch: usize, at: f64, state: usize, deep: usize) -> f64 {
        let offers = self.offers;
        let floor = self.floor_beyond(branch, loops.branch(branch).map_or(&[][..], |b| &b.children), at);
        // The one that promises most first: it leaves little to look at of the others.
        let mut first = (0, f64::INFINITY);
        for (device, offered) in offers[branch].devices.iter().enumerate() {
            if offered.least + floor >= first.1 {
                break;
            }
            if let Some(bound) = self.bound(loops, branch, at, (state, device), first.1) {
                first = (device, bound.own + bound.least);
            }
        }
        let mut best = self.with(loops, branch, at, (state, first.0), (f64::INFINITY, deep));
        for (device, offered) in offers[branch].devices.iter().enumerate() {
            if offered.least + floor >= best {
                break;
            }
            if device != first.0 {
                best = self.with(loops, branch, at, (state, device), (best, deep));
            }
        }
        // Cut short, it knows nothing.
        if self.left == 0 { 0.0 } else { best }
    }

    /// What no cable with one of the devices of a branch, behind another, can be under; `None` where that is not under
    /// `most`.
    fn bound(
        &mut self,
        loops: &FaultLoops,
        branch: usize,
        at: f64,
        (state, device): (usize, usize),
        most: f64,
    ) -> Option<Bound> {
        let offer = &self.offers[branch];
        let right = offer.devices[device].least - offer.devices[device].own;
        // No cable of it leaves more to those beyond.
        let least = self.fronts.beyond[branch].least(at + offer.least_drop(device));
        if right + least >= most {
            return None;
        }
        let wrong = self.unavoidable.here(loops, branch, state, device);
        if right + wrong + least >= most {
            return None;
        }
        let after = self.wrong_beyond(loops, branch, if offer.fused { device } else { state });
        let bound = Bound { own: right + wrong, wrong, after, least: least + after };
        (bound.own + bound.least < most).then_some(bound)
    }

    /// The least of all cables with a device of the branch behind another, or `best` where none is less.
    fn with(
        &mut self,
        loops: &FaultLoops,
        branch: usize,
        at: f64,
        (state, device): (usize, usize),
        (mut best, deep): (f64, usize),
    ) -> f64 {
        let Some(bound) = self.bound(loops, branch, at, (state, device), best) else { return best };
        let offer = &self.offers[branch];
        let beyond = if offer.fused { device } else { state };
        for pair in offer.with(device) {
            let own = offer.right(pair) + bound.wrong;
            if own + bound.least >= best || self.left == 0 {
                break;
            }
            self.left -= 1;
            let far = at + offer.drop(pair);
            let behind = self.behind(loops, branch, far, beyond, bound.after, (deep - 1, best - own));
            best = best.min(own + behind);
        }
        best
    }
}

/// What a device of a branch and all beyond it cost at the least.
struct Bound {
    /// The device with its lightest cable, and what is wrong with it.
    own: f64,
    /// What of that is wrong.
    wrong: f64,
    /// What is wrong beyond.
    after: f64,
    /// All that is beyond.
    least: f64,
}
