//! Which few sizes to buy, so that every load keeps its drop with the least copper?
//!
//! A set of sizes is judged by the optimum with only these to choose from.
//! Before that each set gets a bound that no answer can be lighter than: every
//! branch in its lightest size of the set that could keep its drop if all
//! others were as large as can be. Sets are tried by growing bound until none
//! can be better than the best found, so that the answer is the lightest of all
//! sets. After [`MOST_TRIES`] sets the best so far is taken and not called
//! the lightest. Where more than [`MOST_SETS`] sets could be made, as of a
//! user's own long list of conductors, they are made of fewer sizes: those of
//! the lightest answer, the largest, and others spread evenly among the rest.

use crate::engine::choose::circuit::optimum::{Answer, Node, lightest};
use crate::quantity::Kilograms;

/// Most sets judged by the optimum.
const MOST_TRIES: usize = 400;

/// Most sets that are bounded at all. Every set of the built-in sizes of a family is.
const MOST_SETS: usize = 50_000;

/// The lightest answer with at most `most` different sizes; `labels` names the size of each option.
///
/// `best` is the lightest answer with any number. `None` when no set does.
pub fn at_most(nodes: &[Node], labels: &[Vec<usize>], best: &Answer, most: usize) -> Option<Answer> {
    if different(labels, &best.choice) <= most {
        return Some(best.clone());
    }
    let kept = within_reach(nodes);
    let mut sizes: Vec<usize> = labels.iter().flatten().copied().collect();
    sizes.sort_unstable();
    sizes.dedup();
    let all = sizes.len();
    let sizes = few_to_try(sizes, labels, best, most);
    let whole = sizes.len() == all;
    let masses = lightest_first(nodes, labels, &kept);
    let mut sets: Vec<(f64, Vec<usize>)> = Vec::new();
    each_set(&sizes, most, &mut Vec::new(), &mut |set| {
        if let Some(bound) = bound(&masses, set) {
            sets.push((bound, set.to_vec()));
        }
    });
    sets.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut found: Option<Answer> = None;
    for (tries, (bound, set)) in sets.iter().enumerate() {
        let known = found.as_ref().map_or(f64::INFINITY, |f| f.mass.get());
        if *bound >= known {
            break;
        }
        if tries >= MOST_TRIES {
            found = found.map(|f| Answer { exact: false, ..f });
            break;
        }
        if let Some(answer) = with_only(nodes, labels, &kept, set, found.as_ref().map(|f| f.mass)) {
            found = Some(answer).filter(|a| a.mass.get() < known).or(found);
        }
    }
    found.map(|f| Answer { exact: f.exact && whole, ..f })
}

/// As many of the sizes as make no more than [`MOST_SETS`] sets, in their order.
fn few_to_try(sizes: Vec<usize>, labels: &[Vec<usize>], best: &Answer, most: usize) -> Vec<usize> {
    let mut room = sizes.len();
    while room > most && ways(room, most) > MOST_SETS {
        room -= 1;
    }
    if room == sizes.len() {
        return sizes;
    }
    let mut first: Vec<usize> = labels.iter().zip(&best.choice).map(|(options, c)| options[*c]).collect();
    first.sort_unstable();
    first.dedup();
    let last = sizes.last().copied();
    first.retain(|s| Some(*s) != last);
    let first = spread(&first, room.saturating_sub(1));
    let rest: Vec<usize> = sizes.iter().copied().filter(|s| !first.contains(s) && Some(*s) != last).collect();
    let rest = spread(&rest, room.saturating_sub(1 + first.len()));
    sizes.into_iter().filter(|s| first.contains(s) || rest.contains(s) || Some(*s) == last).collect()
}

/// So many of a list, evenly, its last one among them.
fn spread(of: &[usize], many: usize) -> Vec<usize> {
    let many = many.min(of.len());
    (1..=many).map(|n| of[n * of.len() / many - 1]).collect()
}

/// In how many ways so many can be taken `from` so many; no more than a little over [`MOST_SETS`] is told.
fn ways(from: usize, take: usize) -> usize {
    let mut ways = 1;
    for n in 0..take.min(from.saturating_sub(take)) {
        ways = ways * (from - n) / (n + 1);
        if ways > MOST_SETS {
            return ways;
        }
    }
    ways
}

/// How many different sizes a choice uses.
pub fn different(labels: &[Vec<usize>], choice: &[usize]) -> usize {
    let mut used: Vec<usize> = labels.iter().zip(choice).map(|(options, c)| options[*c]).collect();
    used.sort_unstable();
    used.dedup();
    used.len()
}

/// For each option of each branch, whether any answer at all could use it.
fn within_reach(nodes: &[Node]) -> Vec<Vec<bool>> {
    let least = |n: &Node| n.options.iter().map(|o| o.drop.get()).fold(f64::INFINITY, f64::min);
    // Room of the tightest end at or beyond each branch, less the least drop after the branch.
    let mut room: Vec<f64> = nodes.iter().map(|n| n.room.map_or(f64::INFINITY, |r| r.get())).collect();
    for index in (0..nodes.len()).rev() {
        if let Some(parent) = nodes[index].parent {
            room[parent] = room[parent].min(room[index] - least(&nodes[index]));
        }
    }
    let mut before = vec![0.0; nodes.len()];
    let mut kept = Vec::with_capacity(nodes.len());
    for (index, node) in nodes.iter().enumerate() {
        before[index] = node.parent.map_or(0.0, |p| before[p] + least(&nodes[p]));
        kept.push(node.options.iter().map(|o| before[index] + o.drop.get() <= room[index] + 1e-12).collect());
    }
    kept
}

/// Of each branch, the mass and the size of every option that any answer could use, lightest first.
fn lightest_first(nodes: &[Node], labels: &[Vec<usize>], kept: &[Vec<bool>]) -> Vec<Vec<(f64, usize)>> {
    let of = |(index, node): (usize, &Node)| {
        let fits = |i: &usize| kept[index][*i];
        let mut masses: Vec<(f64, usize)> =
            (0..node.options.len()).filter(fits).map(|i| (node.options[i].mass.get(), labels[index][i])).collect();
        masses.sort_by(|a, b| a.0.total_cmp(&b.0));
        masses
    };
    nodes.iter().enumerate().map(of).collect()
}

/// Mass that no answer with this set can be below; `None` when a branch has no size of it.
fn bound(masses: &[Vec<(f64, usize)>], set: &[usize]) -> Option<f64> {
    masses.iter().map(|branch| branch.iter().find(|(_, size)| set.contains(size)).map(|(mass, _)| mass)).sum()
}

fn with_only(
    nodes: &[Node],
    labels: &[Vec<usize>],
    kept: &[Vec<bool>],
    set: &[usize],
    known: Option<Kilograms>,
) -> Option<Answer> {
    let mut of = Vec::with_capacity(nodes.len());
    let mut fewer = Vec::with_capacity(nodes.len());
    for (index, node) in nodes.iter().enumerate() {
        let which: Vec<usize> =
            (0..node.options.len()).filter(|i| kept[index][*i] && set.contains(&labels[index][*i])).collect();
        let options = which.iter().map(|i| node.options[*i]).collect();
        fewer.push(Node { options, ..*node });
        of.push(which);
    }
    let answer = lightest(&fewer, known)?;
    Some(Answer { choice: answer.choice.iter().zip(&of).map(|(c, which)| which[*c]).collect(), ..answer })
}

/// Every set of exactly `most` of `from`, or all of them if there are fewer.
fn each_set(from: &[usize], most: usize, set: &mut Vec<usize>, visit: &mut impl FnMut(&[usize])) {
    if set.len() == most || from.is_empty() {
        visit(set);
        return;
    }
    let needed = most - set.len();
    for (at, size) in from.iter().enumerate() {
        if from.len() - at < needed && at > 0 {
            break;
        }
        set.push(*size);
        each_set(&from[at + 1..], most, set, visit);
        set.pop();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Binomial coefficients as in any table of them.
    #[test]
    fn ways_to_take_some() {
        for (from, take, ways_) in [(5, 2, 10), (10, 3, 120), (18, 9, 48_620), (7, 7, 1), (7, 0, 1)] {
            assert_eq!(ways(from, take), ways_);
        }
        assert!(ways(1000, 20) > MOST_SETS);
    }

    /// The largest and those of the lightest answer are always tried.
    #[test]
    fn fewer_sizes_keep_what_matters() {
        let best = Answer { choice: vec![3, 40], mass: Kilograms::ZERO, exact: true };
        let all: Vec<usize> = (0..80).collect();
        let tried = few_to_try(all.clone(), &[all.clone(), all.clone()], &best, 8);
        assert!(ways(tried.len(), 8) <= MOST_SETS && [3, 40, 79].iter().all(|s| tried.contains(s)), "{tried:?}");
        assert_eq!(few_to_try(all[..16].to_vec(), &[], &best, 8).len(), 16);
    }
}
