//! Between which limits does a fuse lie?
//!
//! - at least: steady current / (loading × re-rating), NEETS Module 3 (125 % of
//!   the normal current); re-rating = 1 - lost per kelvin × (air - 25 °C).
//! - at most: ampacity × `ampacity-fuse-share` (33 CFR 183.455 allows 1.5 below
//!   50 V; FAA AC 43.13-1B par. 11-48 wants the wire to carry more than the link).
//! - start: a surge that comes again and again may use only
//!   `start-pulse-share` of the earliest opening time at that current.
//!
//! Within them the smallest standard rating fits. Left out here: faults at the
//! far end and selectivity, which need the other runs.

use crate::catalogue::{Catalogue, FuseStyle, Placement, Rules};
use crate::engine::installation::Installation;
use crate::engine::physics::fuse_link::gates::earliest;
use crate::engine::physics::fuse_link::rating::{RATED_AIR, rerating, styles};
use crate::engine::physics::reckon::Reckoned;
use crate::engine::physics::starts::Start;
use crate::engine::simulate::circuit::demand::carried;
use crate::engine::simulate::fault::current::Prospective;
use crate::engine::simulate::fault::fuse::FuseNeed;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;
use crate::reckon;

/// The limits for fuses, by the rules of a catalogue.
#[derive(Clone, Copy, Debug)]
pub struct FuseLimits<'c> {
    catalogue: &'c Catalogue,
}

/// A rating within the limits.
#[derive(Clone, Copy, Debug)]
pub struct FuseChoice<'c> {
    /// The style.
    pub style: &'c FuseStyle,
    /// The rating.
    pub rating: Amps,
    /// Least rating for the steady current in that air.
    pub at_least: Amps,
    /// Most for the cable.
    pub at_most: Amps,
}

/// Least rating for the steady current: steady / (loading × re-rating).
pub fn at_least(style: &FuseStyle, need: &FuseNeed) -> Reckoned<Amps, 5> {
    reckon!(Amps: I / (max(loading, 0.01) * max(0.1, 1.0 - lost * max(0.0, air - rated_air))),
        I: "steady current" = need.steady,
        loading: "steady current over rating, at most" = need.loading,
        lost: "share of the rating lost per kelvin" = Figure::new(style.lost_per_k, Unit::SharePerKelvin),
        air: "air at the fuse holder" = need.air,
        rated_air: "air the rating is for" = RATED_AIR)
}

/// Up to so many times its breaking capacity a device that is backed up is a note (practice, no source).
pub const BACKED_NOTE: f64 = 2.0;
/// And up to so many times a caution; a stop above (practice, no source).
pub const BACKED_CAUTION: f64 = 5.0;

/// Whether a style can break the fault current at its place, alone or with one upstream that breaks it for it.
pub fn breaks(style: &FuseStyle, need: &FuseNeed) -> bool {
    let alone = style.breaking_at(need.circuit).map_or(Amps::ZERO, |b| b.amps);
    let backed = |remaining: Amps| remaining <= alone && need.prospective <= alone * BACKED_NOTE;
    need.prospective.get() <= 0.0 || alone >= need.prospective || need.backed.is_some_and(backed)
}

impl<'c> FuseLimits<'c> {
    /// By the rules of a catalogue.
    pub fn of(catalogue: &'c Catalogue) -> Self {
        FuseLimits { catalogue }
    }

    /// The rules.
    pub fn rules(&self) -> &'c Rules {
        &self.catalogue.rules
    }

    /// Most that a conductor allows.
    pub fn by_ampacity(&self, ampacity: Amps) -> Reckoned<Amps, 2> {
        reckon!(Amps: ampacity * share,
            ampacity: "ampacity of the thinnest conductor it protects" = ampacity,
            share: "fuse over ampacity, at most" = self.rules().ampacity_fuse.value)
    }

    /// The same as a number.
    pub fn at_most(&self, ampacity: Amps) -> Amps {
        self.by_ampacity(ampacity).value
    }

    /// How long a start of this current may last, each time, without ageing a rating.
    pub fn rides_for(&self, style: &FuseStyle, rating: Amps, need: &FuseNeed, current: Amps) -> Seconds {
        let carried = rating * rerating(style, need.air);
        if carried.get() <= 0.0 {
            return Seconds::ZERO;
        }
        Seconds::new(earliest(&style.gates, current / carried).get() * self.rules().start_pulse.value.get())
    }

    /// Whether every start passes, each for as long as it lasts.
    pub fn rides(&self, style: &FuseStyle, rating: Amps, need: &FuseNeed) -> bool {
        need.exceeding().all(|s| self.rides_for(style, rating, need, s.current).get() >= s.lasts.get())
    }

    /// The start that the rating has least time to spare for, and how long it is sure to stand it; `None` without any.
    pub fn hardest(&self, style: &FuseStyle, rating: Amps, need: &FuseNeed) -> Option<(Start, Seconds)> {
        let stands = need.exceeding().map(|s| (s, self.rides_for(style, rating, need, s.current)));
        stands.min_by(|a, b| (a.1 / a.0.lasts).total_cmp(&(b.1 / b.0.lasts)))
    }

    /// The smallest rating of one style within all limits.
    pub fn in_style(&self, style: &'c FuseStyle, need: &FuseNeed) -> Option<FuseChoice<'c>> {
        if style.rated.get() < need.circuit.get() || !breaks(style, need) {
            return None;
        }
        let (at_least, at_most) = (at_least(style, need).value, self.at_most(need.ampacity));
        let least = at_least.max(need.floor);
        let fits = |r: &&Amps| r.get() >= least.get() && self.rides(style, **r, need);
        let rating = *style.ratings.iter().take_while(|r| r.get() <= at_most.get()).find(fits)?;
        Some(FuseChoice { style, rating, at_least, at_most })
    }

    /// The smallest rating within all limits, of each style by preference; `pin` leaves one style by its key.
    pub fn fitting(&self, pin: Option<&str>, need: &FuseNeed) -> impl Iterator<Item = FuseChoice<'c>> {
        styles(self.catalogue, pin).filter_map(move |style| self.in_style(style, need))
    }

    /// The first of them; `None` when no rating fits, so that the cable has to grow. Allocates nothing:
    /// it is asked for every size of every run at each keystroke.
    pub fn first(&self, pin: Option<&str>, need: &FuseNeed) -> Option<FuseChoice<'c>> {
        self.fitting(pin, need).next()
    }

    /// Upstream rating over downstream rating, at least.
    pub fn selectivity(&self) -> f64 {
        self.rules().selectivity.value
    }

    /// Ampacity of the thinnest conductor behind a near-end fuse, less what
    /// other sources feed in on the way to it, and its branch.
    pub fn thinnest(&self, loops: &FaultLoops, branch: usize) -> (Amps, usize) {
        let share = self.rules().ampacity_fuse.value.get().max(0.01);
        let carries = |b: usize| {
            let own = loops.link(b).filter(|l| l.is_sized()).map(|l| l.ampacity)?;
            let joined = if b == branch { Amps::ZERO } else { loops.joined_before(branch, b) };
            Some(((own - joined / share).max(Amps::ZERO), b))
        };
        let least = loops.zone(branch).into_iter().filter_map(carries);
        least.min_by(|a, b| a.0.get().total_cmp(&b.0.get())).unwrap_or((Amps::ZERO, branch))
    }

    /// What a fuse at one end of a branch has to do; `None` while its run has no size.
    pub fn need(&self, loops: &FaultLoops, branch: usize, far_end: bool, fault: &Prospective) -> Option<FuseNeed> {
        let (design, link) = (loops.design(branch)?, loops.link(branch).filter(|l| l.is_sized())?);
        let (ampacity, thinnest) = if far_end { (link.ampacity, branch) } else { self.thinnest(loops, branch) };
        let (steady, loading) = carried(design.current, design.pulsed, loops.site.fuse_loading());
        Some(FuseNeed {
            loading,
            air: design.air + self.rules().fuse_air.value,
            steady,
            starts: design.starts,
            ampacity,
            thinnest,
            prospective: fault.amps,
            likely: fault.likely,
            backed: None,
            circuit: loops.sources.highest,
            floor: Amps::ZERO,
        })
    }

    /// The rule on how far a fuse may sit from its source: the plan's or the first; `None` where the catalogue has none.
    pub fn placement(&self, site: &Installation) -> Option<&'c Placement> {
        let wanted = site.rules.placement.as_deref();
        let all = &self.rules().placement;
        all.iter().find(|p| wanted == Some(p.key.as_str())).or_else(|| all.first())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::physics::starts::Starts;

    fn need(steady: f64, ampacity: f64) -> FuseNeed {
        FuseNeed {
            loading: Share::new(0.8),
            air: RATED_AIR,
            steady: Amps::new(steady),
            ampacity: Amps::new(ampacity),
            circuit: Volts::new(14.6),
            ..FuseNeed::default()
        }
    }

    #[track_caller]
    fn check(need: FuseNeed, expected: Option<(&str, f64)>) {
        let catalogue = Catalogue::embedded().unwrap();
        let got = FuseLimits::of(&catalogue).first(None, &need).map(|c| (c.style.key.clone(), c.rating.get()));
        assert_eq!(got.as_ref().map(|(k, r)| (k.as_str(), *r)), expected);
    }

    #[test]
    fn the_smallest_that_fits_between_load_and_cable() {
        check(need(8.0, 25.0), Some(("blade-c", 10.0)));
        check(need(8.1, 25.0), Some(("blade-c", 15.0)));
        check(need(8.1, 14.0), Some(("cartridge-dc", 12.0)));
        check(need(8.1, 11.0), None);
        check(need(40.0, 60.0), Some(("blade-e", 50.0)));
    }

    #[test]
    fn warm_air_asks_for_more() {
        check(FuseNeed { air: Celsius::new(65.0), ..need(8.0, 25.0) }, Some(("blade-c", 15.0)));
    }

    #[test]
    fn a_start_asks_for_more() {
        let start = |lasts| FuseNeed { starts: Starts::one(Amps::new(16.0), Seconds::new(lasts)), ..need(4.0, 25.0) };
        check(start(0.5), Some(("blade-c", 15.0)));
        check(start(0.0), Some(("blade-c", 5.0)));
    }

    #[test]
    fn a_large_fault_current_asks_for_another_style() {
        let fault = |amps| FuseNeed { prospective: Amps::new(amps), ..need(40.0, 60.0) };
        check(fault(900.0), Some(("blade-e", 50.0)));
        check(fault(1900.0), Some(("strip-30", 50.0)));
        check(fault(4900.0), Some(("bolt-boat", 50.0)));
        check(fault(19_000.0), Some(("cartridge-t", 50.0)));
        check(fault(50_000.0), None);
    }

    #[test]
    fn a_pinned_style_is_kept() {
        let catalogue = Catalogue::embedded().unwrap();
        let limits = FuseLimits::of(&catalogue);
        let choice = limits.first(Some("strip-30"), &need(8.0, 40.0)).unwrap();
        assert_eq!((choice.style.key.as_str(), choice.rating.get()), ("strip-30", 30.0));
        assert!(limits.first(Some("no such style"), &need(8.0, 40.0)).is_none());
    }
}
