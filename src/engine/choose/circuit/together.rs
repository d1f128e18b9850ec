//! Which sizes and which devices, together, so that as little as can be is wrong and the copper is least?
//!
//! A device depends on its cable, on the cables and devices before it (the fault
//! that comes through, the current it must break, the device that must be the
//! larger and the slower) and a cable's drop on its device. So both are chosen
//! from the battery outwards: every pair of a branch is tried with the pairs
//! chosen before it, and what hangs on its far end is chosen for each, one
//! branch at a time, since branches on one point do not ask for each other.
//! No answer beyond a branch can be lighter than the optimum without devices'
//! rules ([`optimum`]), so a pair that could not beat the best known is left; the
//! answer is exact. After [`MOST_TRIES`] pairs for each branch no other than the
//! most promising of each branch is followed, and the answer not called the least.
//!
//! What counts, each beyond the next: stops, cautions, a rating that rises away
//! from its battery; then copper, with a fifth of a kilogram for each step to a
//! less plain style, and small ratings.

use crate::catalogue::FuseStyle;
use crate::engine::choose::circuit::optimum::{self, Choice, Front, Node};
use crate::engine::choose::circuit::unavoidable::{Kind, Unavoidable, between};
use crate::engine::choose::fuse::options::{
    CAUTION, Device, STOP, devices, plainness, unbroken, weight, wrong, wrong_anywhere,
};
use crate::engine::choose::fuse::pick::{Fitting, fit, links_before};
use crate::engine::judge::fuse::faults::{far_grade, reach_grade};
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// Pairs tried for each branch, on average, before the search takes the best found.
const MOST_TRIES: usize = 300;

/// How often all branches are looked at again where the search was broken off.
const MENDS: usize = 3;

/// Kilograms of copper that would be given to be rid of a rating that rises away from its battery.
const RISES: f64 = 1e4;

/// One cable that a branch may have.
#[derive(Clone, Copy, Debug)]
pub struct Cable {
    /// As a conductor of fault current.
    pub link: Link,
    /// Drop at the branch's current, its device left out.
    pub drop: Volts,
    /// Its copper.
    pub mass: Kilograms,
}

/// One branch, parents before children.
#[derive(Clone, Debug, Default)]
pub struct Asked {
    /// What it may have, by growing area.
    pub cables: Vec<Cable>,
    /// Most drop from the battery to its far end that an end there allows.
    pub room: Option<Volts>,
}

/// What was found.
#[derive(Clone, Debug)]
pub struct Found<'a> {
    /// By branch, which of its cables.
    pub cable: Vec<usize>,
    /// By branch, its device; none where it has no fuse of its own or none fits.
    pub device: Vec<Option<Device<'a>>>,
    /// Stops and cautions, by their weight.
    pub faults: u64,
    /// Whether nothing is better.
    pub exact: bool,
}

/// One pair.
#[derive(Clone, Copy)]
struct Pair<'a> {
    cable: usize,
    device: Option<Device<'a>>,
    drop: f64,
    cost: f64,
    /// What is wrong with it wherever it stands, in `cost` already.
    own: f64,
    /// Which of the devices of its branch it has.
    kind: usize,
}

/// The best choice; `loops` has each branch in its chosen cable afterwards. `None` where a branch has no cable.
pub fn together<'a>(loops: &mut FaultLoops<'a, '_>, asked: &[Asked]) -> Option<Found<'a>> {
    let pairs: Vec<Vec<Pair>> = asked.iter().enumerate().map(|(b, a)| pairs(loops, b, a)).collect();
    let nodes: Vec<Node> = asked.iter().enumerate().map(|(b, a)| node(loops, b, a, &pairs[b])).collect();
    let (fronts, exact) = optimum::fronts(&nodes)?;
    let branches = asked.len();
    let mut pairs = pairs;
    let kinds: Vec<Vec<Kind>> = pairs.iter_mut().enumerate().map(|(b, p)| kinds(loops, b, p)).collect();
    let unavoidable = Unavoidable::of(loops, &kinds, RISES);
    let mut search = Search {
        loops,
        asked,
        pairs,
        fronts,
        unavoidable,
        near: vec![None; branches],
        state: vec![0; branches],
        choice: vec![0; branches],
        tries: MOST_TRIES * branches,
        exact,
    };
    let mut cost = search.all()?;
    // A relay joins both trees: what the other battery gives depends on the cables chosen there.
    if search.loops.sources.joined {
        cost = search.all()?;
    }
    if !search.exact {
        for _ in 0..MENDS {
            let less = search.mend();
            cost -= less;
            if less < RISES / 2.0 {
                break;
            }
        }
    }
    let Search { pairs, choice, exact, .. } = search;
    for (branch, asked) in asked.iter().enumerate() {
        set(loops, branch, asked.cables[pairs[branch][choice[branch]].cable].link);
    }
    let chosen = || choice.iter().zip(&pairs).map(|(c, pairs)| &pairs[*c]);
    let (cable, device) = (chosen().map(|p| p.cable).collect(), chosen().map(|p| p.device).collect());
    Some(Found { cable, device, faults: (cost / CAUTION + 1e-6).floor() as u64, exact })
}

/// Every pair of a branch, the cheapest first.
fn pairs<'a>(loops: &FaultLoops<'a, '_>, branch: usize, asked: &Asked) -> Vec<Pair<'a>> {
    let current = loops.design(branch).map_or(Amps::ZERO, |d| d.current);
    let own = loops.run(branch).is_some_and(|r| r.own_fuse);
    let mut all = Vec::new();
    for (index, cable) in asked.cables.iter().enumerate() {
        let pair = |device: Option<Device<'a>>| {
            let warm = device.map_or(Ohms::ZERO, |(style, rating)| style.warm_resistance(rating));
            let plain = device.map_or(0.0, plainness);
            let own = device.map_or(0.0, |device| wrong_anywhere(loops, branch, device));
            let cost = cable.mass.get() + plain + own;
            Pair { cable: index, device, drop: (cable.drop + current * warm).get(), cost, own, kind: 0 }
        };
        if own {
            all.extend(devices(loops, branch, cable.link.ampacity).into_iter().map(|d| pair(Some(d))));
        } else {
            all.push(pair(None));
        }
    }
    if all.is_empty() {
        // No device fits any of them: the finding says so.
        let bare = |(index, cable): (usize, &Cable)| Pair {
            cable: index,
            device: None,
            drop: cable.drop.get(),
            cost: cable.mass.get(),
            own: 0.0,
            kind: 0,
        };
        all.extend(asked.cables.iter().enumerate().map(bare));
    }
    all.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    all
}

/// The branch as the optimum without the devices' rules sees it.
fn node(loops: &FaultLoops, branch: usize, asked: &Asked, pairs: &[Pair]) -> Node {
    let copper = |pair: &Pair| pair.cost - pair.own;
    let mut by_copper: Vec<&Pair> = pairs.iter().collect();
    by_copper.sort_by(|a, b| copper(a).total_cmp(&copper(b)));
    // Dearer with no less drop is never part of it.
    let mut least = f64::INFINITY;
    let mut options = Vec::new();
    for pair in by_copper {
        if pair.drop < least {
            least = pair.drop;
            options.push(Choice { drop: Volts::new(pair.drop), mass: Kilograms::new(copper(pair)) });
        }
    }
    Node { parent: loops.branch(branch).and_then(|b| b.parent), room: asked.room, options }
}

/// The devices that the pairs of a branch have; none for a branch without a fuse of its own.
fn kinds<'a>(loops: &FaultLoops<'a, '_>, branch: usize, pairs: &mut [Pair<'a>]) -> Vec<Kind<'a>> {
    let mut kinds: Vec<Kind<'a>> = Vec::new();
    if !loops.run(branch).is_some_and(|r| r.own_fuse) {
        return kinds;
    }
    for pair in pairs {
        let is = |kind: &Kind| match (kind.0, pair.device) {
            (Some((a, x)), Some((b, y))) => std::ptr::eq(a, b) && x == y,
            (a, b) => a.is_none() && b.is_none(),
        };
        pair.kind = kinds.iter().position(is).unwrap_or(kinds.len());
        if pair.kind == kinds.len() {
            kinds.push((pair.device, pair.own));
        }
    }
    kinds
}

/// Put a branch into a cable.
fn set(loops: &mut FaultLoops, branch: usize, link: Link) {
    let coldest = loops.site.surroundings.coldest;
    loops.links[branch] = link;
    let beyond = loops.cold_to[branch] + link.cold(coldest);
    let site = loops.site;
    for &child in &site.circuits.branches[branch].children {
        loops.cold_to[child] = beyond;
    }
}

struct Search<'s, 'a, 'r> {
    loops: &'s mut FaultLoops<'a, 'r>,
    asked: &'s [Asked],
    pairs: Vec<Vec<Pair<'a>>>,
    fronts: Vec<Front>,
    unavoidable: Unavoidable,
    /// By branch on the way to the one in hand, which device stands there, or at the nearest before it that has one.
    state: Vec<usize>,
    /// Devices of the branches on the way to the one in hand.
    near: Vec<Option<Fuse<'a>>>,
    choice: Vec<usize>,
    /// How many more may be tried.
    tries: usize,
    exact: bool,
}

impl<'a> Search<'_, 'a, '_> {
    /// Both trees, from every branch at a battery.
    fn all(&mut self) -> Option<f64> {
        let roots = (0..self.asked.len()).filter(|&b| self.loops.branch(b).is_none_or(|b| b.parent.is_none()));
        let roots: Vec<usize> = roots.collect();
        roots.into_iter().map(|root| self.solve(root, 0.0, f64::INFINITY)).sum()
    }

    /// The least cost of a branch and all beyond it, with so much drop before it; `None` where it is not under
    /// `most`. The choice is kept.
    fn solve(&mut self, branch: usize, before: f64, most: f64) -> Option<f64> {
        let site = self.loops.site;
        let children = &site.circuits.branches[branch].children;
        let mut best = most;
        let mut kept: Option<Vec<(usize, usize)>> = None;
        for (least, index, beyond) in self.candidates(branch, children, before, most) {
            if least >= best || (self.tries == 0 && kept.is_some()) {
                break;
            }
            let Pair { drop, cost, .. } = self.pairs[branch][index];
            let own = cost + self.place(branch, index);
            if own + beyond >= best {
                continue;
            }
            if children.is_empty() {
                (best, kept) = (own, Some(vec![(branch, index)]));
            } else if let Some(sum) = self.beyond(children, before + drop, own, best) {
                let mut choice = vec![(branch, index)];
                choice.extend(site.circuits.beyond(branch).into_iter().skip(1).map(|b| (b, self.choice[b])));
                (best, kept) = (sum, Some(choice));
            }
        }
        for (b, index) in kept? {
            self.choice[b] = index;
        }
        Some(best)
    }

    /// The pairs of a branch by the least that they and all beyond them may cost, where that is under `most`: that
    /// least, which pair, and what of it is beyond.
    fn candidates(&mut self, branch: usize, children: &[usize], before: f64, most: f64) -> Vec<(f64, usize, f64)> {
        let up = self.loops.upstream(branch, &self.near).and_then(|up| Some((up.branch, up.fitted()?)));
        let others = up.is_some_and(|(b, _)| self.loops.cuts_off(b, branch));
        let styles = self.styles_here(branch);
        let mut found = Vec::new();
        for index in 0..self.pairs[branch].len() {
            let Pair { drop, cost, device, .. } = self.pairs[branch][index];
            if cost >= most {
                break;
            }
            self.stand(branch, index);
            let beyond = self.least_beyond(children, branch, before + drop);
            let breaking = device.and_then(|(style, _)| styles.iter().find(|s| std::ptr::eq(s.0, style)));
            let row = between(self.loops, up.map(|u| u.1), device, others, RISES);
            let least = cost + breaking.map_or(0.0, |s| s.1) + row + beyond;
            if least < most {
                found.push((least, index, beyond));
            }
        }
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
        found
    }

    /// Where the search was broken off: change one branch at a time, all others as chosen, wherever something is wrong
    /// with it or next to it. How much less all cost then.
    fn mend(&mut self) -> f64 {
        let site = self.loops.site;
        let mut wrong: Vec<f64> = (0..self.choice.len()).map(|b| self.place(b, self.choice[b])).collect();
        let mut less = 0.0;
        for branch in 0..self.choice.len() {
            let children = &site.circuits.branches[branch].children;
            if !children.iter().chain([&branch]).any(|&b| wrong[b] >= RISES) {
                continue;
            }
            let all = site.circuits.beyond(branch);
            let before = self.drop_before(branch);
            let kept = self.choice[branch];
            let now: f64 = all.iter().map(|&b| wrong[b]).sum::<f64>() + self.pairs[branch][kept].cost;
            let (mut best, mut found) = (now, kept);
            for index in 0..self.pairs[branch].len() {
                self.choice[branch] = index;
                if let Some(cost) = self.cost_of(&all, before, best) {
                    (best, found) = (cost, index);
                }
            }
            self.choice[branch] = found;
            for &b in &all {
                wrong[b] = self.place(b, self.choice[b]);
            }
            less += now - best;
        }
        less
    }

    /// Drop from the battery to the near end of a branch, as chosen.
    fn drop_before(&self, branch: usize) -> f64 {
        self.loops.upward(branch).skip(1).map(|b| self.pairs[b][self.choice[b]].drop).sum()
    }

    /// What is wrong with a branch, the first of `all`, and those beyond it as chosen, and the branch itself; `None`
    /// where that is not under `most` or an end loses too much.
    fn cost_of(&mut self, all: &[usize], before: f64, most: f64) -> Option<f64> {
        let first = *all.first()?;
        let mut sum = self.pairs[first][self.choice[first]].cost;
        for &b in all {
            let at = if b == first { before } else { self.drop_before(b) } + self.pairs[b][self.choice[b]].drop;
            if self.asked[b].room.is_some_and(|room| at > room.get() + optimum::CLOSE) {
                return None;
            }
            sum += self.place(b, self.choice[b]);
            if sum >= most {
                return None;
            }
        }
        Some(sum)
    }

    /// What is wrong with each style at the near end of a branch for the fault there, which is the same whatever the
    /// branch itself is.
    fn styles_here(&self, branch: usize) -> Vec<(&'a FuseStyle, f64)> {
        let mut styles: Vec<(&FuseStyle, f64)> = Vec::new();
        let before = links_before(self.loops, branch, false, &self.near);
        for pair in &self.pairs[branch] {
            let Some(device) = pair.device.filter(|d| !styles.iter().any(|g| std::ptr::eq(g.0, d.0))) else { continue };
            let link = self.asked[branch].cables[pair.cable].link;
            let place = Fitting { branch, ends: &[], thinnest: (link.ampacity, branch), before };
            let fuse = fit(self.loops, &place, Some(device), &self.near);
            styles.push((device.0, fuse.map_or(0.0, |fuse| unbroken(self.loops, &fuse))));
        }
        styles
    }

    /// What a choice and all beyond it cost, if that is under `most`.
    fn beyond(&mut self, children: &[usize], at: f64, own: f64, most: f64) -> Option<f64> {
        let least = |search: &Self, child: usize| search.fronts[child].least(at) + search.least_wrong(child);
        let mut rest: f64 = children.iter().map(|&c| least(self, c)).sum();
        let mut sum = own;
        for &child in children {
            rest -= least(self, child);
            sum += self.solve(child, at, most - sum - rest)?;
        }
        (sum < most).then_some(sum)
    }

    /// What no answer beyond a branch can be under; infinite where the drop leaves none.
    fn least_beyond(&self, children: &[usize], branch: usize, at: f64) -> f64 {
        if self.asked[branch].room.is_some_and(|room| at > room.get() + optimum::CLOSE) {
            return f64::INFINITY;
        }
        children.iter().map(|&c| self.fronts[c].least(at) + self.least_wrong(c)).sum()
    }

    /// What must be wrong with a branch and beyond it, with the device that stands before it.
    fn least_wrong(&self, branch: usize) -> f64 {
        let before = self.loops.branch(branch).and_then(|b| b.parent);
        self.unavoidable.least(branch, before.map_or(0, |b| self.state[b]))
    }

    /// Note which device a pair puts into a branch.
    fn stand(&mut self, branch: usize, index: usize) {
        let before = self.loops.branch(branch).and_then(|b| b.parent).map_or(0, |b| self.state[b]);
        let own = self.loops.run(branch).is_some_and(|r| r.own_fuse);
        self.state[branch] = if own { self.pairs[branch][index].kind } else { before };
    }

    /// Put a pair into a branch, and what is wrong with it there.
    fn place(&mut self, branch: usize, index: usize) -> f64 {
        match self.tries.checked_sub(1) {
            Some(left) => self.tries = left,
            None => self.exact = false,
        }
        self.stand(branch, index);
        let pair = &self.pairs[branch][index];
        let link = self.asked[branch].cables[pair.cable].link;
        set(self.loops, branch, link);
        self.near[branch] = None;
        let own = self.loops.run(branch).is_some_and(|r| r.own_fuse);
        if !own {
            return self.without(branch);
        }
        let Some(device) = pair.device else { return STOP };
        let before = links_before(self.loops, branch, false, &self.near);
        let place = Fitting { branch, ends: &[branch], thinnest: (link.ampacity, branch), before };
        let Some(fuse) = fit(self.loops, &place, Some(device), &self.near) else { return STOP };
        let up = self.loops.upstream(branch, &self.near);
        let rises = up.and_then(|u| u.rating).is_some_and(|u| device.1 > u);
        let wrong = wrong(self.loops, &fuse, up) - pair.own;
        self.near[branch] = Some(fuse);
        wrong + if rises { RISES } else { 0.0 }
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
