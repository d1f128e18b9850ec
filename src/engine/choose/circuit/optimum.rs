//! Which size for each run, so that every load keeps its drop with the least copper?
//!
//! Each run's drop for a size does not depend on the other runs (see
//! [`super::demand`]), so the question is exact on the tree: each branch,
//! from the leaves to the battery, gets its front of (drop still tolerated in
//! front of it, least mass beyond), a step function of which no point is both
//! tighter and heavier. Walking out from the battery then reads off the sizes.
//! Points that cannot be part of an answer (more drop than the path before
//! could leave, or more mass than a known answer) are dropped, which loses
//! nothing. Fronts over [`MOST_POINTS`] are thinned; the answer then still
//! keeps every rule but may not be the lightest, and says so.

use crate::quantity::{Kilograms, Volts};

/// Longest front that is kept whole.
pub const MOST_POINTS: usize = 4096;
/// Longest front that is only a bound.
const MOST_OF_BOUND: usize = 64;

/// One branch, parents before children.
#[derive(Clone, Debug, Default)]
pub struct Node {
    /// Branch that feeds it.
    pub parent: Option<usize>,
    /// Most drop from the battery to its far end that an end there allows; infinite when none hangs there.
    pub room: Option<Volts>,
    /// What can be chosen.
    pub options: Vec<Choice>,
}

/// One size for a branch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Choice {
    /// Drop of the branch with it.
    pub drop: Volts,
    /// Its copper.
    pub mass: Kilograms,
}

/// The lightest answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// Option of each branch.
    pub choice: Vec<usize>,
    /// Copper of all.
    pub mass: Kilograms,
    /// Whether it is proven to be the lightest.
    pub exact: bool,
}

#[derive(Clone, Copy, Debug)]
struct Step {
    /// Largest drop in front of the branch that this tolerates.
    slack: f64,
    /// Least mass of the branch and all beyond.
    mass: f64,
    option: usize,
}

/// Rounding allowed when drops are summed in another order.
pub const CLOSE: f64 = 1e-12;

/// What a branch and all beyond it cost at the least, by the drop in front of it.
#[derive(Clone, Debug, Default)]
pub struct Front(Vec<Step>);

impl Front {
    /// With so much drop before it; infinite where no choice keeps every limit then.
    pub fn least(&self, before: f64) -> f64 {
        cheapest(&self.0, before - CLOSE).map_or(f64::INFINITY, |step| step.mass)
    }
}

/// The fronts of all branches.
#[derive(Clone, Debug, Default)]
pub struct Fronts {
    /// Of each branch and all beyond it, by the drop before it.
    pub within: Vec<Front>,
    /// Of all beyond each branch, by the drop to its far end; infinite where an end there would lose too much.
    pub beyond: Vec<Front>,
}

/// The fronts of all branches; `None` when no choice keeps every limit. Long ones are thinned to bounds: nothing costs
/// less than they say.
pub fn fronts(nodes: &[Node]) -> Option<Fronts> {
    let grown = grown(nodes, &Bounds::of(nodes, None)?, bound)?;
    let step = |(slack, mass): (f64, f64)| Step { slack, mass, option: 0 };
    let beyond = grown.beyond.into_iter().map(|points| Front(points.into_iter().map(step).collect()));
    Some(Fronts { within: grown.fronts.into_iter().map(Front).collect(), beyond: beyond.collect() })
}

/// What no choice that keeps every limit can be under, by fronts thinned to bounds.
pub fn no_less(nodes: &[Node]) -> Option<Kilograms> {
    let fronts = fronts(nodes)?;
    let roots = nodes.iter().zip(&fronts.within).filter(|(node, _)| node.parent.is_none());
    Some(Kilograms::new(roots.map(|(_, front)| front.least(0.0)).sum()))
}

/// The sizes with the least copper, or `None` when no choice keeps every limit.
///
/// `known` is the mass of any answer already known, to prune by.
pub fn lightest(nodes: &[Node], known: Option<Kilograms>) -> Option<Answer> {
    let Grown { fronts, exact, .. } = grown(nodes, &Bounds::of(nodes, known)?, thin)?;
    let mut choice = vec![0; nodes.len()];
    let mut at = vec![0.0; nodes.len()];
    let mut mass = Kilograms::ZERO;
    for (index, node) in nodes.iter().enumerate() {
        let before: f64 = node.parent.map_or(0.0, |p| at[p]);
        let step = cheapest(&fronts[index], before - CLOSE)?;
        choice[index] = step.option;
        at[index] = before + node.options[step.option].drop.get();
        mass += node.options[step.option].mass;
    }
    Some(Answer { choice, mass, exact })
}

struct Grown {
    fronts: Vec<Vec<Step>>,
    /// Of all beyond each branch: drop to its far end that they tolerate, mass.
    beyond: Vec<Vec<(f64, f64)>>,
    /// Whether none had to be thinned.
    exact: bool,
}

/// The front of each branch from the leaves to the battery.
fn grown(nodes: &[Node], bounds: &Bounds, thinned: fn(&mut Vec<Step>) -> bool) -> Option<Grown> {
    let mut all_beyond: Vec<Vec<(f64, f64)>> = vec![Vec::new(); nodes.len()];
    let mut fronts: Vec<Vec<Step>> = vec![Vec::new(); nodes.len()];
    let mut children: Vec<Vec<usize>> = vec![Vec::new(); nodes.len()];
    let mut exact = true;
    for (index, node) in nodes.iter().enumerate() {
        if let Some(parent) = node.parent {
            children[parent].push(index);
        }
    }
    let mut work = Vec::new();
    for index in (0..nodes.len()).rev() {
        let behind = beyond(&fronts, &children[index], nodes[index].room);
        work.clear();
        bounds.extend(index, &nodes[index], &behind, &mut work);
        exact &= thinned(&mut work);
        if work.is_empty() {
            return None;
        }
        fronts[index] = work.clone();
        all_beyond[index] = behind;
    }
    Some(Grown { fronts, beyond: all_beyond, exact })
}

/// The lightest point that tolerates so much drop before it.
fn cheapest(front: &[Step], before: f64) -> Option<Step> {
    let first = front.partition_point(|s| s.slack < before);
    front.get(first).copied()
}

/// All that hangs on a far end together: slack at that end, mass beyond.
fn beyond(fronts: &[Vec<Step>], children: &[usize], room: Option<Volts>) -> Vec<(f64, f64)> {
    let most = |child: &usize| fronts[*child].last().map_or(f64::NEG_INFINITY, |s| s.slack);
    let cap = children.iter().map(most).fold(room.map_or(f64::INFINITY, Volts::get), f64::min);
    if children.is_empty() {
        return vec![(cap, 0.0)];
    }
    let mut at: Vec<f64> =
        children.iter().flat_map(|c| fronts[*c].iter().map(|s| s.slack)).filter(|s| *s < cap).collect();
    at.push(cap);
    at.sort_by(f64::total_cmp);
    at.dedup();
    let mut place = vec![0; children.len()];
    let mass = |slack: f64, place: &mut Vec<usize>| {
        let of = |(i, child): (usize, &usize)| {
            while fronts[*child].get(place[i]).is_some_and(|s| s.slack < slack) {
                place[i] += 1;
            }
            fronts[*child].get(place[i]).map_or(f64::INFINITY, |s| s.mass)
        };
        children.iter().enumerate().map(of).sum()
    };
    at.into_iter().map(|slack| (slack, mass(slack, &mut place))).collect()
}

/// What bounds the fronts from outside.
struct Bounds {
    /// Least and most drop that the branches before can have.
    before: Vec<(f64, f64)>,
    /// Least mass of everything that is not the branch or beyond it.
    others: Vec<f64>,
    /// Mass of a known answer.
    known: f64,
}

impl Bounds {
    fn of(nodes: &[Node], known: Option<Kilograms>) -> Option<Self> {
        let mut before = vec![(0.0, 0.0); nodes.len()];
        let mut least = vec![0.0; nodes.len()];
        for (index, node) in nodes.iter().enumerate() {
            if node.options.is_empty() {
                return None;
            }
            if let Some(p) = node.parent {
                let drops = || nodes[p].options.iter().map(|o| o.drop.get());
                before[index] =
                    (before[p].0 + drops().fold(f64::INFINITY, f64::min), before[p].1 + drops().fold(0.0, f64::max));
            }
            least[index] = node.options.iter().map(|o| o.mass.get()).fold(f64::INFINITY, f64::min);
        }
        let all: f64 = least.iter().sum();
        let mut within = least;
        for index in (0..nodes.len()).rev() {
            if let Some(p) = nodes[index].parent {
                within[p] += within[index];
            }
        }
        let others = within.iter().map(|w| all - w).collect();
        let known = known.map_or(f64::INFINITY, |k| k.get() * (1.0 + 1e-9) + 1e-12);
        Some(Bounds { before, others, known })
    }

    /// Every option of a branch before every point behind it, as far as it can matter.
    fn extend(&self, index: usize, node: &Node, behind: &[(f64, f64)], out: &mut Vec<Step>) {
        let (least, most) = self.before[index];
        for (option, choice) in node.options.iter().enumerate() {
            let drop = choice.drop.get();
            // What leaves too little is no answer; of what leaves more than is ever asked for, the lightest is enough.
            let first = behind.partition_point(|b| b.0 - drop < least - CLOSE);
            let enough = behind.partition_point(|b| b.0 - drop < most) + 1;
            for (slack, mass) in behind[first.min(behind.len())..enough.min(behind.len()).max(first)].iter().rev() {
                let step = Step { slack: (slack - drop).min(most), mass: mass + choice.mass.get(), option };
                if step.slack >= least - CLOSE && step.mass + self.others[index] <= self.known {
                    out.push(step);
                }
            }
        }
    }
}

/// Keep the points that no other beats, by growing slack.
fn prune(steps: &mut Vec<Step>) {
    // What compares equal is the same.
    steps.sort_unstable_by(|a, b| {
        b.slack.total_cmp(&a.slack).then(a.mass.total_cmp(&b.mass)).then(a.option.cmp(&b.option))
    });
    let mut best = f64::INFINITY;
    steps.retain(|s| {
        let better = s.mass < best;
        best = best.min(s.mass);
        better
    });
    steps.reverse();
}

/// Keep the points that no other beats. Where there are too many, thin them evenly; the tightest and the loosest
/// stay. False when some went.
fn thin(steps: &mut Vec<Step>) -> bool {
    prune(steps);
    if steps.len() <= MOST_POINTS {
        return true;
    }
    let last = steps.len() - 1;
    let place = |n: usize| n * (MOST_POINTS - 1) / last;
    let mut index = 0;
    steps.retain(|_| {
        let keep = index == 0 || place(index) > place(index - 1);
        index += 1;
        keep
    });
    false
}

/// The same where there are few. Where there are many, a point stands for all that tolerate about as much: as light as
/// the lightest and tolerating as much as any of them, without sorting all.
fn bound(steps: &mut Vec<Step>) -> bool {
    if steps.len() > MOST_OF_BOUND {
        let ends = |(low, high): (f64, f64), s: &Step| (low.min(s.slack), high.max(s.slack));
        let (low, high) = steps.iter().fold((f64::INFINITY, f64::NEG_INFINITY), ends);
        let each = (high - low) / MOST_OF_BOUND as f64;
        let mut merged: Vec<Option<Step>> = vec![None; MOST_OF_BOUND + 1];
        for step in steps.drain(..) {
            // Of points that all tolerate the same one is left.
            let place = if each > 0.0 { ((step.slack - low) / each) as usize } else { 0 };
            let place = &mut merged[place.min(MOST_OF_BOUND)];
            let before = place.get_or_insert(step);
            *before = Step { slack: before.slack.max(step.slack), mass: before.mass.min(step.mass), ..step };
        }
        steps.extend(merged.into_iter().flatten());
    }
    prune(steps);
    true
}

/// Mass of a choice, or `None` when it breaks a limit.
pub fn mass_if_kept(nodes: &[Node], choice: &[usize]) -> Option<Kilograms> {
    let mut at = vec![Volts::ZERO; nodes.len()];
    let mut mass = Kilograms::ZERO;
    for (index, node) in nodes.iter().enumerate() {
        let option = node.options.get(*choice.get(index)?)?;
        at[index] = node.parent.map_or(Volts::ZERO, |p| at[p]) + option.drop;
        if node.room.is_some_and(|room| at[index].get() > room.get() + CLOSE) {
            return None;
        }
        mass += option.mass;
    }
    Some(mass)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// However long a front is, what is kept of it is not.
    #[test]
    fn a_long_front_is_thinned_to_its_bound() {
        for many in [MOST_POINTS + 1, 3 * MOST_POINTS, 1_000_000] {
            let step = |n: usize| Step { slack: n as f64, mass: n as f64, option: 0 };
            let mut steps: Vec<Step> = (0..many).map(step).collect();
            assert!(!thin(&mut steps));
            assert!(steps.len() <= MOST_POINTS && steps.len() * 2 >= MOST_POINTS, "{}", steps.len());
            assert_eq!(steps.first().map(|s| s.slack), Some(0.0));
            assert_eq!(steps.last().map(|s| s.slack), Some((many - 1) as f64));
        }
    }
}
