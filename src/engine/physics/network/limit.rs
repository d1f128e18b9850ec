//! How much of what the loads ask for can be fed, and what is the state at that share?
//!
//! The demand is raised from nothing in steps that are halved where no
//! solution is found, each solved from the last state: the stable solution is
//! followed up to the point where it ends (the nose of the curve).

use crate::engine::physics::network::newton::{Asked, Failed, State, ceiling, solve};
use crate::engine::physics::network::tree::Tree;

/// Smallest step of the share that is tried: the relative error of the limit found.
const FINEST: f64 = 1e-9;

/// Most attempts; halving from 1 to the finest step takes thirty.
const MOST_TRIES: usize = 400;

/// The largest share (0 to 1) of `extra` that can be fed on top of `base`, and the state there.
///
/// # Errors
///
/// When `base` alone has no solution.
pub(crate) fn limit(tree: &Tree, base: &Asked, extra: &Asked) -> Result<(f64, State), Failed> {
    let mut state = solve(tree, base, ceiling(tree, base))?;
    let (mut share, mut step) = (0.0, 1.0);
    for _ in 0..MOST_TRIES {
        let next = f64::min(share + step, 1.0);
        match solve(tree, &base.plus(extra, next), state.clone()) {
            Ok(found) => {
                (share, state) = (next, found);
                if share >= 1.0 {
                    break;
                }
            }
            Err(_) => step /= 2.0,
        }
        if step < FINEST * share.max(FINEST) {
            break;
        }
    }
    Ok((share, state))
}

impl Asked {
    /// Only what is fed in.
    pub(crate) fn fed_in(tree: &Tree) -> Self {
        Asked { power: vec![0.0; tree.nodes.len()], current: tree.nodes.iter().map(|n| -n.fed_in).collect() }
    }

    /// The constant powers and the constant currents drawn.
    pub(crate) fn insisted(tree: &Tree) -> Self {
        Asked {
            power: tree.nodes.iter().map(|n| n.power).collect(),
            current: tree.nodes.iter().map(|n| n.current).collect(),
        }
    }

    /// Nothing anywhere.
    pub(crate) fn nothing(tree: &Tree) -> Self {
        Asked { power: vec![0.0; tree.nodes.len()], current: vec![0.0; tree.nodes.len()] }
    }

    /// This and `share` of `other`.
    pub(crate) fn plus(&self, other: &Asked, share: f64) -> Self {
        let sum = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a + share * b).collect();
        Asked { power: sum(&self.power, &other.power), current: sum(&self.current, &other.current) }
    }
}
