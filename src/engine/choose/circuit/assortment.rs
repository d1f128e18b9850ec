//! Which few sizes to buy, so that every load keeps its drop with the least copper?
//!
//! A set of sizes is judged by the optimum with only these to choose from.
//! Before that each set gets a bound that no answer can be lighter than: every
//! branch in its lightest size of the set that could keep its drop if all
//! others were as large as can be. Sets are tried by growing bound until none
//! can be better than the best found, so that the answer is the lightest of all
//! sets. After [`MOST_TRIES`] sets the best so far is taken and not called
//! the lightest.

use crate::engine::choose::circuit::optimum::{Answer, Node, lightest};
use crate::quantity::Kilograms;

/// Most sets judged by the optimum.
const MOST_TRIES: usize = 400;

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
    let mut sets: Vec<(f64, Vec<usize>)> = Vec::new();
    each_set(&sizes, most, &mut Vec::new(), &mut |set| {
        if let Some(bound) = bound(nodes, labels, &kept, set) {
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
    found
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

/// Mass that no answer with this set can be below; `None` when a branch has no size of it.
fn bound(nodes: &[Node], labels: &[Vec<usize>], kept: &[Vec<bool>], set: &[usize]) -> Option<f64> {
    let mut sum = 0.0;
    for (index, node) in nodes.iter().enumerate() {
        let fits = |i: &usize| kept[index][*i] && set.contains(&labels[index][*i]);
        let masses = (0..node.options.len()).filter(fits).map(|i| node.options[i].mass.get());
        sum += masses.min_by(f64::total_cmp)?;
    }
    Some(sum)
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
