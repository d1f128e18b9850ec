//! Which of the fuse ratings that would do for a run leave room for a cable?

use crate::catalogue::FuseStyle;
use crate::engine::physics::fuse_link::rating::{RATED_AIR, rerating};
use crate::quantity::*;

/// Ratings that would do, in the styles' order of preference.
#[derive(Clone, Debug)]
pub struct FuseRoom<'a> {
    /// Style and rating.
    pub(crate) ratings: Vec<(&'a FuseStyle, Amps)>,
    /// Rating over ampacity that is still allowed.
    pub(crate) share: f64,
    /// Air at the holder.
    pub(crate) air: Celsius,
    /// Whether the plan gives the rating.
    pub(crate) pinned: bool,
    /// Whether the plan gives the style.
    pub(crate) styled: bool,
    /// Whether there is no fuse to fit at all.
    pub(crate) free: bool,
}

impl<'a> FuseRoom<'a> {
    /// Of a run behind this fuse: it must stand the rating that is first in order.
    pub fn shared(&self) -> Self {
        match self.ratings.first() {
            Some(first) => FuseRoom { ratings: vec![*first], ..*self },
            None => FuseRoom::none(),
        }
    }

    /// Of a run that no fuse protects: nothing to fit (the protection has a finding).
    pub fn none() -> Self {
        FuseRoom { ratings: Vec::new(), share: 1.0, air: RATED_AIR, pinned: false, styled: false, free: true }
    }

    /// Whether a cable of this ampacity leaves room for a fuse. Where the style that is given has none, no cable helps:
    /// the protection says so.
    pub fn fits(&self, ampacity: Amps) -> bool {
        self.free || (self.styled && self.ratings.is_empty()) || self.for_ampacity(ampacity).is_some()
    }

    /// The first rating in order that the cable stands; `None` too where there is no fuse to fit.
    pub fn for_ampacity(&self, ampacity: Amps) -> Option<Amps> {
        self.ratings.iter().map(|r| r.1).find(|rating| *rating <= ampacity * self.share)
    }

    /// Steady current that the largest rating within an ampacity may carry, of the styles that came into
    /// question; `None` where there is no fuse to fit.
    pub fn most_carried(&self, ampacity: Amps, loading: Share) -> Option<Amps> {
        let within = |r: &&Amps| **r <= ampacity * self.share;
        let carried = |(style, given): &(&'a FuseStyle, Amps)| {
            let largest = if self.pinned { given } else { style.ratings.iter().rev().find(within)? };
            Some(*largest * (loading.get() * rerating(style, self.air)))
        };
        self.ratings.iter().filter_map(carried).max_by(|a, b| a.get().total_cmp(&b.get()))
    }

    /// The smallest rating of all styles.
    pub fn least(&self) -> Option<Amps> {
        self.ratings.iter().map(|r| r.1).min_by(|a, b| a.get().total_cmp(&b.get()))
    }
}
