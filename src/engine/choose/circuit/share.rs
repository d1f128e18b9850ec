//! The usual way beside the optimum: the drop of a path shared out by length and current.
//!
//! Every end gives each run of its path a part of what its limit leaves after
//! joints and fuses, in proportion to length × current; a run gets the
//! smallest of the parts, and the smallest size that keeps it.

use crate::engine::choose::circuit::optimum::Node;
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// What the sharing needs to know of a branch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weight {
    /// Length × current, the measure of the share.
    pub metre_amps: f64,
    /// Drop that no size takes away.
    pub fixed: Volts,
}

/// Allowance of each branch; infinite (`None`) where no end lies beyond.
pub fn allowances(nodes: &[Node], weights: &[Weight]) -> Vec<Option<Reckoned<Volts, 5>>> {
    let mut allowed: Vec<Option<Reckoned<Volts, 5>>> = vec![None; nodes.len()];
    for (index, node) in nodes.iter().enumerate() {
        let Some(room) = node.room else { continue };
        let path = || std::iter::successors(Some(index), |i| nodes[*i].parent);
        let fixed: Volts = path().map(|i| weights[i].fixed).sum();
        let whole: f64 = path().map(|i| weights[i].metre_amps).sum();
        for i in path() {
            let share = reckon!(Volts: F + max(U - A, 0.0) * (w / max(W, 0.000001)),
                F: "lost in its own joints and fuse-link" = weights[i].fixed,
                U: "most the tightest load beyond may lose" = room,
                A: "lost in all joints and fuse-links of the path" = fixed,
                w: "its length × current, A m" = Figure::number(weights[i].metre_amps),
                W: "the same of the whole path, A m" = Figure::number(whole));
            allowed[i] = allowed[i].filter(|least| least.value <= share.value).or(Some(share));
        }
    }
    allowed
}

/// The lightest option of each branch within its allowance; the one with the least drop where none is.
pub fn choose(nodes: &[Node], allowed: &[Option<Reckoned<Volts, 5>>]) -> Vec<usize> {
    let pick = |(node, allowed): (&Node, &Option<Reckoned<Volts, 5>>)| {
        let options = || node.options.iter().enumerate();
        let fits = options().filter(|(_, o)| allowed.is_none_or(|a| o.drop.get() <= a.value.get() + 1e-12));
        let lightest = fits.min_by(|a, b| a.1.mass.get().total_cmp(&b.1.mass.get()));
        let least = || options().min_by(|a, b| a.1.drop.get().total_cmp(&b.1.drop.get()));
        lightest.or_else(least).map_or(0, |(i, _)| i)
    };
    nodes.iter().zip(allowed).map(pick).collect()
}
