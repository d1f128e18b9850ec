//! Which fuse ratings would do for a run, before its cable is known?
//!
//! For each style the least rating that carries the steady current, rides
//! through the start and breaks the fault current at its place; where none
//! does, that of the style that breaks most. A cable then needs an ampacity of
//! at least one of them. Far-end faults and selectivity are left to the
//! protection, which knows all sizes by then.

use crate::catalogue::{Catalogue, FuseStyle};
use crate::engine::choose::fuse::choice::strongest_for_cable;
use crate::engine::installation::Installation;
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::physics::fuse_link::rating::{RATED_AIR, rerating};
use crate::engine::simulate::circuit::demand::Flow;
use crate::engine::simulate::fault::fuse::FuseNeed;
use crate::plan::Run;
use crate::quantity::*;

/// Ratings that would do, in the styles' order of preference.
#[derive(Clone, Debug)]
pub struct FuseRoom<'a> {
    ratings: Vec<(&'a FuseStyle, Amps)>,
    /// Rating over ampacity that is still allowed.
    share: f64,
    /// Air at the holder.
    air: Celsius,
    /// Whether the plan gives the rating.
    pinned: bool,
    /// Whether there is no fuse to fit at all.
    free: bool,
}

impl<'a> FuseRoom<'a> {
    /// Of a run with a fuse of its own; the ampacity of `need` does not count.
    pub fn of(catalogue: &'a Catalogue, run: &Run, need: &FuseNeed) -> Self {
        let limits = FuseLimits::of(catalogue);
        let wanted = |style: &&FuseStyle| run.fuse_style.as_ref().is_none_or(|key| *key == style.key);
        let any = FuseNeed { ampacity: Amps::new(f64::INFINITY), ..*need };
        let least = |style: &'a FuseStyle| match run.fuse {
            Some(pinned) => style.ratings.contains(&pinned).then_some((style, pinned)),
            None => limits.in_style(style, &any).map(|c| (style, c.rating)),
        };
        let mut ratings: Vec<_> = catalogue.fuse_styles.iter().filter(wanted).filter_map(least).collect();
        if let (true, Some(rating), Some(style)) = (ratings.is_empty(), run.fuse, catalogue.fuse_styles.first()) {
            // A rating that no style has is still what the cable must stand.
            ratings.push((style, rating));
        }
        if ratings.is_empty() && run.fuse.is_none() {
            // Nothing breaks the fault here: the protection says so of the style that breaks most.
            let strongest = strongest_for_cable(&limits, run.fuse_style.as_deref(), &any);
            ratings.extend(strongest.map(|c| (c.style, c.rating)));
        }
        let share = catalogue.rules.ampacity_fuse.value.get();
        FuseRoom { ratings, share, air: need.air, pinned: run.fuse.is_some(), free: false }
    }

    /// Of a run behind this fuse: it must stand the rating that is first in order.
    pub fn shared(&self) -> Self {
        match self.ratings.first() {
            Some(first) => FuseRoom { ratings: vec![*first], ..*self },
            None => FuseRoom::none(),
        }
    }

    /// Of a run that no fuse protects: nothing to fit (the protection has a finding).
    pub fn none() -> Self {
        FuseRoom { ratings: Vec::new(), share: 1.0, air: RATED_AIR, pinned: false, free: true }
    }

    /// Whether a cable of this ampacity leaves room for a fuse.
    pub fn fits(&self, ampacity: Amps) -> bool {
        self.free || self.for_ampacity(ampacity).is_some()
    }

    /// The first rating in order that the cable stands; `None` too where there is no fuse to fit.
    pub fn for_ampacity(&self, ampacity: Amps) -> Option<Amps> {
        self.ratings.iter().map(|r| r.1).find(|rating| *rating <= ampacity * self.share)
    }

    /// Whether the same fuses come into question.
    pub fn same(&self, other: &FuseRoom) -> bool {
        let alike = |(a, b): (&(&FuseStyle, Amps), &(&FuseStyle, Amps))| std::ptr::eq(a.0, b.0) && a.1 == b.1;
        self.ratings.len() == other.ratings.len() && self.ratings.iter().zip(&other.ratings).all(alike)
    }

    /// The first in order, whatever the cable.
    pub fn first(&self) -> Option<(&'a FuseStyle, Amps)> {
        self.ratings.first().copied()
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

/// What the fuse of a run has to do, its cable left out.
pub fn need(site: &Installation, air: Celsius, flow: &Flow, circuit: Volts) -> FuseNeed {
    FuseNeed {
        loading: site.fuse_loading(),
        air: air + site.catalogue.rules.fuse_air.value,
        steady: flow.current,
        starts: flow.starts,
        circuit,
        ..FuseNeed::default()
    }
}
