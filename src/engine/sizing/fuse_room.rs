//! Which fuse ratings would carry a run's current, before its cable is known?
//!
//! The least standard rating of each style whose loaded and re-rated current is
//! enough: rating × loading × (1 - loss per kelvin × (air at the fuse - 25 °C)).
//! A cable then needs an ampacity of at least one of them. The choice itself,
//! with starts, breaking capacity and far-end faults, is the protection's.

use crate::catalogue::{Catalogue, FuseStyle};
use crate::plan::{Plan, Run};
use crate::quantity::*;

/// Ratings that would do, in the styles' order of preference.
#[derive(Clone, Debug, Default)]
pub struct FuseRoom {
    /// Style (index into the catalogue) and rating.
    pub ratings: Vec<(usize, Amps)>,
    /// Rating over ampacity that is still allowed.
    pub share: f64,
    /// Whether there is no fuse to fit at all (a run behind another's fuse, at no current).
    pub free: bool,
}

impl FuseRoom {
    /// Of a run with a fuse of its own.
    pub fn of(plan: &Plan, catalogue: &Catalogue, run: &Run, current: Amps) -> Self {
        let share = catalogue.rules.number("ampacity-fuse-share");
        let styles = catalogue.fuse_styles.iter().enumerate();
        let wanted = |style: &FuseStyle| run.fuse_style.as_ref().is_none_or(|key| *key == style.key);
        let mut ratings: Vec<(u32, usize, Amps)> = styles
            .filter(|(_, style)| wanted(style))
            .filter_map(|(i, style)| {
                let rating = run.fuse.or_else(|| least_rating(plan, catalogue, style, current))?;
                (run.fuse.is_none() || style.ratings.contains(&rating)).then_some((style.order, i, rating))
            })
            .collect();
        if let (true, Some(rating)) = (ratings.is_empty(), run.fuse) {
            // A rating that no style has is still what the cable must stand.
            ratings.push((0, 0, rating));
        }
        ratings.sort_by(|a, b| a.0.cmp(&b.0).then(a.2.get().total_cmp(&b.2.get())));
        FuseRoom { ratings: ratings.into_iter().map(|(_, i, amps)| (i, amps)).collect(), share, free: false }
    }

    /// Of a run behind this fuse: it must stand the rating that is first in order.
    pub fn shared_with(&self, catalogue: &Catalogue) -> Self {
        match self.ratings.first() {
            Some(first) => {
                FuseRoom { ratings: vec![*first], share: catalogue.rules.number("ampacity-fuse-share"), free: false }
            }
            None => FuseRoom::none(),
        }
    }

    /// Of a run that no fuse protects: nothing to fit (the protection has a finding).
    pub fn none() -> Self {
        FuseRoom { ratings: Vec::new(), share: 1.0, free: true }
    }

    /// The first in order that the cable stands.
    pub fn for_ampacity(&self, ampacity: Amps) -> Option<(usize, Amps)> {
        if self.free {
            return Some((usize::MAX, Amps::ZERO));
        }
        self.ratings.iter().copied().find(|(_, rating)| *rating <= ampacity * self.share)
    }

    /// The smallest rating of all styles.
    pub fn least(&self) -> Option<Amps> {
        self.ratings.iter().map(|r| r.1).min_by(|a, b| a.get().total_cmp(&b.get()))
    }
}

/// Least standard rating of a style that carries `current` for good in the air at its holder.
pub fn least_rating(plan: &Plan, catalogue: &Catalogue, style: &FuseStyle, current: Amps) -> Option<Amps> {
    let loading = plan.rules.fuse_loading.map_or(catalogue.rules.number("fuse-loading"), |s| s.get());
    let air = plan.surroundings.hottest.get() + catalogue.rules.number("fuse-air-c");
    let warm = (1.0 - style.lost_per_k * (air - 25.0).max(0.0)).max(0.05);
    let needed = current.get() / (loading.max(0.05) * warm);
    style.ratings.iter().copied().find(|r| r.get() >= needed * (1.0 - 1e-12))
}
