//! Which run feeds what: two trees, one from each battery.
//!
//! Runs are given in any order and direction. The service tree grows from the
//! service battery, the feed tree from the starter battery; both end at the
//! charger, which separates them. Whatever does not fit (a run to nowhere, a
//! second way to a point, a load on no point) is kept as a [`misfit::Misfit`] and left
//! out; the rest still stands.

pub mod grow;
pub mod misfit;

use crate::engine::installation::circuits::misfit::Misfit;
use crate::plan::point;
use std::collections::BTreeMap;

/// Which battery a tree grows from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// Service battery.
    Service,
    /// Starter battery.
    Feed,
}

impl Side {
    /// The point it grows from.
    pub fn battery(self) -> &'static str {
        match self {
            Side::Service => point::SERVICE_BATTERY,
            Side::Feed => point::STARTER_BATTERY,
        }
    }
}

/// One run in its tree.
#[derive(Clone, Debug, PartialEq)]
pub struct Branch {
    /// Index of the run in the plan.
    pub run: usize,
    /// Which tree.
    pub side: Side,
    /// The end nearer the battery.
    pub near: String,
    /// The end farther from it.
    pub far: String,
    /// The branch that feeds this one, as an index into [`Topology::branches`].
    pub parent: Option<usize>,
    /// The branches fed by this one.
    pub children: Vec<usize>,
    /// A source stands at or beyond its far end (charger, solar, mains charger).
    pub source_beyond: bool,
    /// It lies beyond the cut-off, seen from the battery.
    pub behind_cut_off: bool,
}

/// The trees. Parents come before their children.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Topology {
    /// All runs that hang together with a battery.
    pub branches: Vec<Branch>,
    /// Branch of each run, or `None` where it was left out.
    pub of_run: Vec<Option<usize>>,
    /// Branch that ends at each point of the service side.
    pub to_point: BTreeMap<String, usize>,
    /// Branch that ends at each point of the feed side.
    pub to_feed_point: BTreeMap<String, usize>,
    /// No run leads to the cut-off: it is taken to sit at the battery's posts.
    pub cut_off_at_posts: bool,
    /// What does not fit, in the order found.
    pub misfits: Vec<Misfit>,
}

impl Topology {
    /// The branch that a run is; none where it is connected to no battery.
    pub fn branch_of(&self, run: usize) -> Option<&Branch> {
        self.branches.get(self.index_of(run)?)
    }

    /// Its place among the branches.
    pub fn index_of(&self, run: usize) -> Option<usize> {
        *self.of_run.get(run)?
    }

    /// Branches from the battery to a point of the service side, nearest first;
    /// empty for the battery itself, `None` for a point no run reaches.
    pub fn path_to(&self, name: &str) -> Option<Vec<usize>> {
        if name == point::SERVICE_BATTERY || (self.cut_off_at_posts && name == point::CUT_OFF) {
            return Some(Vec::new());
        }
        Some(self.path_of(*self.to_point.get(name)?))
    }

    /// Branches from the starter battery to the charger's input, nearest first.
    pub fn feed_path(&self) -> Option<Vec<usize>> {
        Some(self.path_of(*self.to_feed_point.get(point::CHARGER)?))
    }

    /// The branch and all that feed it, nearest the battery first.
    pub fn path_of(&self, branch: usize) -> Vec<usize> {
        let mut path = vec![branch];
        let mut at = branch;
        while let Some(parent) = self.branches.get(at).and_then(|b| b.parent) {
            path.push(parent);
            at = parent;
        }
        path.reverse();
        path
    }

    /// The branch and all that it feeds.
    pub fn beyond(&self, branch: usize) -> Vec<usize> {
        let mut all = vec![branch];
        let mut next = 0;
        while let Some(b) = all.get(next).and_then(|&b| self.branches.get(b)) {
            all.extend(&b.children);
            next += 1;
        }
        all
    }

    /// Whether a point is known on the service side.
    pub fn has_point(&self, name: &str) -> bool {
        self.to_point.contains_key(name)
            || name == point::SERVICE_BATTERY
            || (self.cut_off_at_posts && name == point::CUT_OFF)
    }
}
