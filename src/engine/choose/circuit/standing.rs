//! What is wrong with a pair of a branch, given what stands before it, and what must be beyond?

use crate::engine::choose::circuit::foresight::Foresight;
use crate::engine::choose::circuit::offer::{Asked, Offer, Pair};
use crate::engine::choose::circuit::optimum::Fronts;
use crate::engine::choose::fuse::options::{RISES, SERVICE, STOP, base_need, unbroken, weight, wrong};
use crate::engine::choose::fuse::pick::{Fitting, fit, links_before};
use crate::engine::judge::fuse::chain::is_unparted;
use crate::engine::judge::fuse::faults::{far_grade, reach_grade};
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::fault::backer::Backup;
use crate::engine::simulate::fault::backup::backup;
use crate::engine::simulate::fault::current::Prospective;
use crate::engine::simulate::fault::fuse::{Clearing, Fuse, FuseNeed};
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// The branches on the way to the one in hand, as they stand.
pub(super) struct Standing<'s, 'a, 'r> {
    pub loops: &'s mut FaultLoops<'a, 'r>,
    pub offers: &'s [Offer<'a>],
    foresight: Foresight<'s, 'a>,
    /// By branch, which device stands there, or at the nearest before it that has one.
    state: Vec<usize>,
    /// By branch, its device.
    near: Vec<Option<Fuse<'a>>>,
    /// How far from its battery each branch is, in branches.
    depth: Vec<usize>,
    /// How many devices may be put into a branch; one that is deep counts for more, since all before it is looked at.
    pub tries: usize,
    /// How many were, counted so.
    pub spent: usize,
    /// How many were.
    pub tried: usize,
}

/// What holds at a branch for whichever device it has, with all that stands before it.
#[derive(Clone, Copy, Debug)]
pub(super) struct There<'a> {
    /// The way of the least fault at the far end, hot, in the best of its cables, its own device left out.
    way: Ohms,
    prospective: Prospective,
    backup: Option<Backup<'a>>,
    need: FuseNeed,
}

/// A device so many branches from its battery counts twice.
const DEEP: usize = 8;

/// Put a branch into a cable.
pub(super) fn set(loops: &mut FaultLoops, branch: usize, link: Link) {
    let coldest = loops.site.surroundings.coldest;
    loops.links[branch] = link;
    let (cold, hot) = (loops.cold_to[branch] + link.cold(coldest), loops.hot_to[branch] + link.hot());
    let site = loops.site;
    for &child in &site.circuits.branches[branch].children {
        (loops.cold_to[child], loops.hot_to[child]) = (cold, hot);
    }
}

impl<'s, 'a, 'r> Standing<'s, 'a, 'r> {
    /// Nothing stands yet. `fronts`: the optimum without the devices' rules; `tries`: how many devices may be put into
    /// a branch.
    pub fn new(
        loops: &'s mut FaultLoops<'a, 'r>,
        asked: &'s [Asked],
        offers: &'s [Offer<'a>],
        fronts: Fronts,
        tries: usize,
    ) -> Self {
        let foresight = Foresight::new(loops, offers, asked, fronts);
        let (near, state) = (vec![None; asked.len()], vec![0; asked.len()]);
        let mut depth: Vec<usize> = Vec::with_capacity(asked.len());
        for branch in 0..asked.len() {
            depth.push(loops.branch(branch).and_then(|b| b.parent).map_or(0, |parent| depth[parent] + 1));
        }
        Standing { loops, offers, foresight, state, near, depth, tries, spent: 0, tried: 0 }
    }

    /// How far from its battery the farthest branch is, in branches.
    pub fn deepest(&self) -> usize {
        self.depth.iter().copied().max().unwrap_or(0)
    }

    /// Whether as many devices were tried as may be.
    pub fn is_spent(&self) -> bool {
        self.spent >= self.tries
    }

    /// Whether an end at the far end of a branch loses too much with such a drop to it.
    pub fn is_beyond_room(&self, branch: usize, at: f64) -> bool {
        self.foresight.is_beyond_room(branch, at)
    }

    /// What no answer at and beyond a branch can be under, with so much drop and the device chosen before it.
    pub fn least(&mut self, branch: usize, at: f64) -> f64 {
        let before = self.loops.branch(branch).and_then(|b| b.parent);
        let state = before.map_or(0, |b| self.state[b]);
        self.foresight.least(self.loops, branch, at, state)
    }

    /// What no answer beyond a pair can be under; infinite where the drop leaves none.
    pub fn least_beyond(&mut self, branch: usize, pair: Pair, before: f64) -> f64 {
        let at = before + self.offers[branch].drop(pair);
        if self.is_beyond_room(branch, at) {
            return f64::INFINITY;
        }
        self.stand(branch, pair);
        self.foresight.least_beyond(self.loops, branch, at, self.state[branch])
    }

    /// The same whichever cable the device of a pair has.
    pub fn least_behind(&mut self, branch: usize, pair: Pair, before: f64) -> f64 {
        self.stand(branch, pair);
        let at = before + self.offers[branch].least_drop(pair.device);
        self.foresight.least_beyond(self.loops, branch, at, self.state[branch])
    }

    /// The same whichever pair of the branch it is.
    pub fn floor_beyond(&self, branch: usize, children: &[usize], before: f64) -> f64 {
        self.foresight.floor_beyond(branch, children, before)
    }

    /// What must be wrong with a device, and what must be beyond it, wherever all stand: known without placing it.
    /// `None` where all comes to `most`.
    pub fn wherever(&mut self, branch: usize, device: usize, before: f64, most: f64) -> Option<(f64, f64)> {
        let up = self.loops.branch(branch).and_then(|b| b.parent).map_or(0, |b| self.state[b]);
        self.foresight.wherever(self.loops, branch, before, (up, device), most)
    }

    /// What holds at a branch whichever device it has; `None` where it has none.
    pub fn there(&self, branch: usize) -> Option<There<'a>> {
        let need = base_need(self.loops, branch).filter(|_| self.offers[branch].fused)?;
        let before = links_before(self.loops, branch, false, &self.near);
        let prospective = self.loops.prospective(branch, before.least);
        let backup = backup(self.loops, branch, &self.near, &prospective, need.circuit);
        let backed = backup.map(|b| b.remaining);
        Some(There {
            way: self.loops.hot_to[branch] + self.offers[branch].best.hot() + before.warm,
            prospective,
            backup,
            need: FuseNeed { prospective: prospective.amps, likely: prospective.likely, backed, ..need },
        })
    }

    /// What must be wrong with a device of a branch, and between it and the one before it: known without placing it.
    pub fn parted(&mut self, branch: usize, device: usize, there: &There) -> f64 {
        let offered = self.offers[branch].devices[device];
        let Some((style, rating)) = offered.device else { return 0.0 };
        let There { way, prospective, backup, need } = *there;
        let far = self.loops.far_fault_over(branch, way + style.warm_resistance(rating));
        let up = self.loops.upstream(branch, &self.near).and_then(Fuse::fitted);
        let between =
            self.foresight.unavoidable().between(self.loops, branch, up, offered.device, Some((far, prospective.amps)));
        let alone = breaking(style, need.circuit) >= prospective.amps;
        let fuse = Fuse {
            branch,
            far_end: false,
            need: if alone { FuseNeed { backed: None, ..need } } else { need },
            prospective,
            backup: backup.filter(|_| !alone),
            style: Some(style),
            rating: Some(rating),
            pinned: self.loops.run(branch).is_some_and(|r| r.fuse.is_some()),
            ruling: "",
            clearing: Clearing::default(),
        };
        self.foresight.own(self.loops, branch, device).max(offered.own + unbroken(self.loops, &fuse)) - offered.own
            + between
    }

    /// What is wrong with a device of a branch in any of its cables, at the least.
    pub fn least_wrong(&mut self, branch: usize, device: usize) -> f64 {
        let offer = &self.offers[branch];
        let pair = Pair { cable: 0, device };
        let (found, fuse) = self.stood(branch, pair, offer.best);
        let up = self.loops.upstream(branch, &self.near);
        let (Some(fuse), Some(up)) = (fuse, up) else { return found };
        if !is_unparted(self.loops, &fuse, up) {
            return found;
        }
        // In a thinner cable a smaller fault may part them.
        let near = Some((fuse.clearing.far, fuse.prospective.amps));
        let (above, below) = (up.fitted(), fuse.fitted());
        found - SERVICE + self.foresight.unavoidable().between(self.loops, branch, above, below, near) - rise(&fuse, up)
    }

    /// The cheapest pair of a branch that nothing hangs beyond, where nothing is wrong with it: then there is none
    /// better.
    pub fn cheapest_is_right(&mut self, branch: usize, before: f64) -> Option<Pair> {
        let pair = self.offers[branch].cheapest(self.foresight.drop_left(branch, before))?;
        (self.place(branch, pair) <= 0.0).then_some(pair)
    }

    /// Note which device a pair puts into a branch.
    fn stand(&mut self, branch: usize, pair: Pair) {
        let before = self.loops.branch(branch).and_then(|b| b.parent).map_or(0, |b| self.state[b]);
        self.state[branch] = if self.offers[branch].fused { pair.device } else { before };
    }

    /// Put a pair into a branch, and what is wrong with it there.
    pub fn place(&mut self, branch: usize, pair: Pair) -> f64 {
        self.stand(branch, pair);
        let (wrong, fuse) = self.stood(branch, pair, self.offers[branch].cable(pair).link);
        self.near[branch] = fuse;
        wrong
    }

    /// What is wrong with the device of a pair in such a cable, and the device there.
    fn stood(&mut self, branch: usize, pair: Pair, link: Link) -> (f64, Option<Fuse<'a>>) {
        self.tried += 1;
        self.spent += 1 + self.depth[branch] / DEEP;
        set(self.loops, branch, link);
        self.near[branch] = None;
        let offer = &self.offers[branch];
        if !offer.fused {
            return (self.without(branch), None);
        }
        let offered = &offer.devices[pair.device];
        let before = links_before(self.loops, branch, false, &self.near);
        let place = Fitting { branch, ends: &[branch], thinnest: (link.ampacity, branch), before };
        let fuse = offered.device.and_then(|device| fit(self.loops, &place, Some(device), &self.near));
        let Some(fuse) = fuse else { return (STOP, None) };
        let up = self.loops.upstream(branch, &self.near);
        let wrong = wrong(self.loops, &fuse, up) - offered.own;
        (wrong + up.map_or(0.0, |up| rise(&fuse, up)), Some(fuse))
    }

    /// What is wrong with a branch without a device of its own.
    fn without(&self, branch: usize) -> f64 {
        let Some(up) = self.loops.upstream(branch, &self.near) else { return STOP };
        let Some((style, rating)) = up.fitted() else { return 0.0 };
        let clearing = self.loops.clearing(
            up.branch,
            &[branch],
            false,
            style,
            rating,
            up.prospective.amps,
            up.clearing.links_before,
        );
        let there = Fuse { clearing, ..*up };
        let reach = reach_grade(self.loops, up, branch);
        reach.into_iter().chain(far_grade(self.loops, &there)).map(weight).sum()
    }
}

/// What a rating counts that is larger than the one before it.
fn rise(fuse: &Fuse, up: &Fuse) -> f64 {
    if up.rating.is_some_and(|up| fuse.rating.is_some_and(|r| r > up)) { RISES } else { 0.0 }
}
