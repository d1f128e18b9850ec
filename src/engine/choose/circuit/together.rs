//! Which sizes and which devices, together, so that as little as can be is wrong and the copper is least?
//!
//! A device depends on its cable, on the cables and devices before it (the fault
//! that comes through, the current it must break, the device that must be the
//! larger and the slower) and a cable's drop on its device. So both are chosen
//! from the battery outwards: every pair of a branch is tried with the pairs
//! chosen before it, and what hangs on its far end is chosen for each, one
//! branch at a time, since branches on one point do not ask for each other.
//! No answer beyond a branch can be lighter than the optimum without devices'
//! rules ([`optimum`]), nor less wrong than what is unavoidable, so pairs are
//! tried by the least that they may come to ([`Queue`]) and those that could not
//! beat the best known are left; the answer is exact. After [`MOST_TRIES`] for
//! each branch no other than the most promising of each branch is followed,
//! and the answer not called the least.
//!
//! What counts, each beyond the next: stops, a rating that rises away from its
//! battery, cautions; then copper, with half a kilogram for a caution of mere
//! service (a fault may open the device upstream too) and a fifth of one for
//! each step to a less plain style, and small ratings.

use crate::engine::choose::circuit::offer::{Asked, Offer, Pair};
use crate::engine::choose::circuit::optimum::{self, Node};
use crate::engine::choose::circuit::queue::{Entry, Queue};
use crate::engine::choose::circuit::standing::{Standing, set};
use crate::engine::choose::fuse::options::{Device, SERVICE};
use crate::engine::physics::side_by_side::{in_parts, with_room};
use crate::engine::simulate::fault::loops::FaultLoops;

/// Devices put into a branch, on average, before the search takes the best found; and in all, where there are few
/// branches and for each of them: a van with 300 leads asks for 14 a branch.
const MOST_TRIES: (usize, usize, usize) = (4000, 10_000, 40);

/// How often all branches are looked at again where the search was broken off,
const MENDS: usize = 3;
/// until so many times the devices are tried that the search may try: on a chain of a hundred fuses each change is
/// felt by all beyond it.
const MENDS_TRY: usize = 2;

/// What was found.
#[derive(Clone, Debug)]
pub struct Found<'a> {
    /// By branch, which of its cables.
    pub cable: Vec<usize>,
    /// By branch, its device; none where it has no fuse of its own or none fits.
    pub device: Vec<Option<Device<'a>>>,
    /// All that is wrong, by its weight.
    pub wrong: f64,
    /// Whether nothing is better.
    pub exact: bool,
    /// How many devices were put into a branch.
    pub tried: usize,
}

/// The best choice; `loops` has each branch in its chosen cable afterwards. `None` where a branch has no cable.
pub fn together<'a>(loops: &mut FaultLoops<'a, '_>, asked: &[Asked]) -> Option<Found<'a>> {
    let there = &*loops;
    let offered = |branch: usize| {
        let offer = Offer::of(there, branch, &asked[branch])?;
        let node = offer.node(there.branch(branch).and_then(|b| b.parent), asked[branch].room);
        Some((offer, node))
    };
    let offered: Option<Vec<(Offer, Node)>> = in_parts(asked.len(), 24, offered).into_iter().collect();
    let (offers, nodes): (Vec<Offer>, Vec<Node>) = offered?.into_iter().unzip();
    let fronts = optimum::fronts(&nodes)?;
    let branches = asked.len();
    let tries = (MOST_TRIES.0 * branches).min(MOST_TRIES.1 + MOST_TRIES.2 * branches);
    let mut search = Search {
        standing: Standing::new(loops, asked, &offers, fronts, tries),
        choice: vec![Pair::default(); branches],
        over: vec![0.0; branches],
        at: vec![0.0; branches],
    };
    let (cost, exact) = with_room(search.standing.deepest(), || search.through())?;
    let Search { choice, standing, .. } = search;
    let chosen = || choice.iter().zip(&offers);
    for (branch, (pair, offer)) in chosen().enumerate() {
        set(standing.loops, branch, offer.cable(*pair).link);
    }
    let cable = chosen().map(|(pair, offer)| offer.index(*pair)).collect();
    let device = chosen().map(|(pair, offer)| offer.devices[pair.device].device).collect();
    let wrong = cost - chosen().map(|(pair, offer)| offer.right(*pair)).sum::<f64>();
    Some(Found { cable, device, wrong, exact, tried: standing.tried })
}

struct Search<'s, 'a, 'r> {
    standing: Standing<'s, 'a, 'r>,
    choice: Vec<Pair>,
    /// By how much each branch and all beyond last came to more than they must.
    over: Vec<f64>,
    /// While branches are changed one at a time, the drop from the battery to the far end of each.
    at: Vec<f64>,
}

impl Search<'_, '_, '_> {
    /// The whole search: what its answer costs, and whether none is better.
    fn through(&mut self) -> Option<(f64, bool)> {
        let mut cost = self.all()?;
        // A relay joins both trees: what the other battery gives depends on the cables chosen there.
        if self.standing.loops.sources.joined && !self.standing.is_spent() {
            cost = self.all()?;
        }
        let exact = !self.standing.is_spent();
        if !exact {
            let until = MENDS_TRY * self.standing.tries;
            for _ in 0..MENDS {
                let less = self.mend(until);
                cost -= less;
                if less < SERVICE / 2.0 {
                    break;
                }
            }
        }
        Some((cost, exact))
    }

    /// Both trees, from every branch at a battery.
    fn all(&mut self) -> Option<f64> {
        let roots =
            (0..self.choice.len()).filter(|&b| self.standing.loops.branch(b).is_none_or(|b| b.parent.is_none()));
        let roots: Vec<usize> = roots.collect();
        roots.into_iter().map(|root| self.solve(root, 0.0, f64::INFINITY)).sum()
    }

    /// The least cost of a branch and all beyond it, with so much drop before it; `None` where it is not under
    /// `most`. The choice is kept.
    fn solve(&mut self, branch: usize, before: f64, most: f64) -> Option<f64> {
        let (site, offers) = (self.standing.loops.site, self.standing.offers);
        let children = &site.circuits.branches[branch].children;
        if children.is_empty()
            && let Some(pair) = self.standing.cheapest_is_right(branch, before)
        {
            self.choice[branch] = pair;
            return Some(offers[branch].cost(pair)).filter(|cost| *cost < most);
        }
        let mut best = most;
        let mut kept: Option<Vec<(usize, Pair)>> = None;
        let mut queue = Queue::new(branch, children, before);
        // Once all tries are spent an answer is enough, found here or before this branch: looking on for a better one
        // might never end.
        while !(self.standing.is_spent() && best.is_finite()) {
            let Some(Entry { pair, beyond, .. }) = queue.next(&mut self.standing, best) else { break };
            let own = offers[branch].cost(pair) + self.standing.place(branch, pair);
            if own + beyond >= best {
                continue;
            }
            if children.is_empty() {
                (best, kept) = (own, Some(vec![(branch, pair)]));
            } else if let Some(sum) = self.beyond(children, before + offers[branch].drop(pair), own, best) {
                let mut choice = vec![(branch, pair)];
                choice.extend(site.circuits.beyond(branch).into_iter().skip(1).map(|b| (b, self.choice[b])));
                (best, kept) = (sum, Some(choice));
            }
        }
        for (b, pair) in kept? {
            self.choice[b] = pair;
        }
        Some(best)
    }

    /// What a choice and all beyond it cost, if that is under `most`.
    fn beyond(&mut self, children: &[usize], at: f64, own: f64, most: f64) -> Option<f64> {
        let mut least: Vec<(usize, f64)> = children.iter().map(|&c| (c, self.standing.least(c, at))).collect();
        let mut rest: f64 = least.iter().map(|l| l.1).sum();
        // The one first that came to more than it must: it most likely rules the choice out.
        least.sort_by(|a, b| self.over[b.0].total_cmp(&self.over[a.0]));
        let mut sum = own;
        for (child, least) in least {
            rest -= least;
            let most = most - sum - rest;
            let found = self.solve(child, at, most);
            self.over[child] = found.unwrap_or(most) - least;
            sum += found?;
        }
        (sum < most).then_some(sum)
    }
}

/// The search was broken off: branches are changed one at a time.
impl Search<'_, '_, '_> {
    /// Change one branch at a time, all others as chosen, wherever something is wrong with it or next to it, until so
    /// many devices are tried. How much less all cost then.
    fn mend(&mut self, until: usize) -> f64 {
        let (site, offers) = (self.standing.loops.site, self.standing.offers);
        let mut wrong: Vec<f64> = (0..self.choice.len()).map(|b| self.standing.place(b, self.choice[b])).collect();
        let mut less = 0.0;
        for (branch, offer) in offers.iter().enumerate() {
            let children = &site.circuits.branches[branch].children;
            let fine = !children.iter().chain([&branch]).any(|&b| wrong[b] >= SERVICE);
            if fine || self.standing.spent >= until {
                continue;
            }
            let all = site.circuits.beyond(branch);
            let before = self.drop_before(branch);
            let kept = self.choice[branch];
            let now: f64 = all.iter().map(|&b| wrong[b]).sum::<f64>() + offer.cost(kept);
            let (mut best, mut found) = (now, kept);
            for device in 0..offer.devices.len() {
                if self.standing.spent >= until || self.standing.least_wrong(branch, device) >= best {
                    continue;
                }
                for pair in offer.with(device) {
                    self.choice[branch] = pair;
                    if let Some(cost) = self.cost_of(&all, before, best) {
                        (best, found) = (cost, pair);
                    }
                }
            }
            self.choice[branch] = found;
            for &b in &all {
                wrong[b] = self.standing.place(b, self.choice[b]);
            }
            less += now - best;
        }
        less
    }

    fn chosen_drop(&self, branch: usize) -> f64 {
        self.standing.offers[branch].drop(self.choice[branch])
    }

    /// Drop from the battery to the near end of a branch, as chosen.
    fn drop_before(&self, branch: usize) -> f64 {
        self.standing.loops.upward(branch).skip(1).map(|b| self.chosen_drop(b)).sum()
    }

    /// What is wrong with a branch, the first of `all`, and those beyond it as chosen, and the branch itself; `None`
    /// where that is not under `most` or an end loses too much.
    fn cost_of(&mut self, all: &[usize], before: f64, most: f64) -> Option<f64> {
        let first = *all.first()?;
        let mut sum = self.standing.offers[first].cost(self.choice[first]);
        for &b in all {
            let parent = self.standing.loops.branch(b).and_then(|b| b.parent).filter(|_| b != first);
            let at = parent.map_or(before, |p| self.at[p]) + self.chosen_drop(b);
            self.at[b] = at;
            if self.standing.is_beyond_room(b, at) {
                return None;
            }
            sum += self.standing.place(b, self.choice[b]);
            if sum >= most {
                return None;
            }
        }
        Some(sum)
    }
}
