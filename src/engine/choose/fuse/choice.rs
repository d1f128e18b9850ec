//! Which fuse fits between a load and its cable?
//!
//! The smallest standard rating of the first style, by the catalogue's order of
//! preference, that carries the steady current without ageing, lets the start
//! pass, does not exceed what the cable carries and can break the fault current
//! at its place.
//!
//! - at least: steady current / (loading × re-rating), NEETS Module 3 (125 % of
//!   the normal current); re-rating = 1 - lost per kelvin × (air - 25 °C).
//! - at most: ampacity × `ampacity-fuse-share` (33 CFR 183.455 allows 1.5 below
//!   50 V; FAA AC 43.13-1B par. 11-48 wants the wire to carry more than the link).
//! - start: a surge that comes again and again may use only
//!   `start-pulse-share` of the earliest opening time at that current.
//!
//! Left out here: faults at the far end and selectivity, which need the other
//! runs (`faults`, `selectivity`).

use crate::catalogue::{Catalogue, FuseStyle};
use crate::engine::physics::fuse_link::gates::earliest;
use crate::engine::physics::starts::{Start, Starts};
use crate::quantity::*;

/// Air temperature at which fuse-links are rated: 25 °C (fuse application notes).
pub const RATED_AIR: Celsius = Celsius::new(25.0);

/// What a fuse has to do at its place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FuseNeed {
    /// Largest steady current as a share of the rating, 0.3 to 1.
    pub loading: Share,
    /// Air at the fuse holder.
    pub air: Celsius,
    /// Steady current.
    pub steady: Amps,
    /// Starts to let pass, the steady rest included.
    pub starts: Starts,
    /// What the thinnest conductor that it protects carries.
    pub ampacity: Amps,
    /// Largest fault current at its place; zero leaves the breaking capacity out.
    pub prospective: Amps,
    /// Highest voltage of the circuit.
    pub circuit: Volts,
    /// Least rating that other rules ask for (selectivity); zero for none.
    pub floor: Amps,
}

impl FuseNeed {
    /// The starts above the steady current.
    pub(crate) fn exceeding(&self) -> impl Iterator<Item = Start> + '_ {
        self.starts.iter().filter(|s| s.current.get() > self.steady.get())
    }
}

/// A fuse that does it.
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

/// The rules that a choice needs, looked up once.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ChoiceRules {
    ampacity_share: f64,
    pulse_share: f64,
}

impl ChoiceRules {
    pub(crate) fn of(catalogue: &Catalogue) -> Self {
        ChoiceRules {
            ampacity_share: catalogue.rules.ampacity_fuse.value.get(),
            pulse_share: catalogue.rules.start_pulse.value.get(),
        }
    }

    /// Most that a conductor allows: ampacity × share.
    pub(crate) fn at_most(&self, ampacity: Amps) -> Amps {
        ampacity * self.ampacity_share
    }

    /// How long a start of this current may last, each time, without ageing a rating.
    pub(crate) fn rides_for(&self, style: &FuseStyle, rating: Amps, need: &FuseNeed, current: Amps) -> Seconds {
        let carried = rating * rerating(style, need.air);
        if carried.get() <= 0.0 {
            return Seconds::ZERO;
        }
        let time = earliest(&style.gates, current / carried);
        Seconds::new(time.get() * self.pulse_share)
    }

    /// Whether every start passes, each for as long as it lasts.
    pub(crate) fn rides(&self, style: &FuseStyle, rating: Amps, need: &FuseNeed) -> bool {
        need.exceeding().all(|s| self.rides_for(style, rating, need, s.current).get() >= s.lasts.get())
    }

    /// The start that the rating has least time to spare for, and how long it is sure to stand it; `None` without any.
    pub(crate) fn hardest(&self, style: &FuseStyle, rating: Amps, need: &FuseNeed) -> Option<(Start, Seconds)> {
        let stands = need.exceeding().map(|s| (s, self.rides_for(style, rating, need, s.current)));
        stands.min_by(|a, b| (a.1 / a.0.lasts).total_cmp(&(b.1 / b.0.lasts)))
    }

    /// The smallest rating of one style that fits, of at least `at_least` and at most `at_most`.
    pub(crate) fn in_style<'c>(&self, style: &'c FuseStyle, need: &FuseNeed) -> Option<FuseChoice<'c>> {
        if style.rated.get() < need.circuit.get() || !breaks(style, need) {
            return None;
        }
        let (at_least, at_most) = (at_least(style, need), self.at_most(need.ampacity));
        let least = at_least.max(need.floor);
        let fits = |r: &&Amps| r.get() >= least.get() && self.rides(style, **r, need);
        let rating = *style.ratings.iter().take_while(|r| r.get() <= at_most.get()).find(fits)?;
        Some(FuseChoice { style, rating, at_least, at_most })
    }
}

/// Share of its rating that a style keeps in warm air: 1 - lost per kelvin × (air - 25 °C), 0.1 at the least, 1 in the cold.
pub fn rerating(style: &FuseStyle, air: Celsius) -> f64 {
    (1.0 - style.lost_per_k * (air - RATED_AIR).get().max(0.0)).max(0.1)
}

/// Least rating for the steady current: steady / (loading × re-rating).
pub fn at_least(style: &FuseStyle, need: &FuseNeed) -> Amps {
    need.steady / (need.loading.get().max(0.01) * rerating(style, need.air))
}

/// What a style breaks at the circuit's voltage; zero where it is not made for that.
pub(crate) fn breaking(style: &FuseStyle, circuit: Volts) -> Amps {
    let row = style.breaking_at(circuit).filter(|_| style.rated.get() >= circuit.get());
    row.map_or(Amps::ZERO, |b| b.amps)
}

/// Whether a style can break the fault current at its place.
pub fn breaks(style: &FuseStyle, need: &FuseNeed) -> bool {
    need.prospective.get() <= 0.0
        || style.breaking_at(need.circuit).is_some_and(|b| b.amps.get() >= need.prospective.get())
}

/// The fuse for a cable; `None` when no rating fits, so that the cable has to grow.
///
/// `style_pin` restricts the choice to one style by its key. Allocates nothing:
/// it is asked for every size of every run at each keystroke.
pub fn fuse_for_cable<'c>(
    catalogue: &'c Catalogue,
    style_pin: Option<&str>,
    need: &FuseNeed,
) -> Option<FuseChoice<'c>> {
    let rules = ChoiceRules::of(catalogue);
    styles(catalogue, style_pin).find_map(|style| rules.in_style(style, need))
}

/// The fuse of the style that breaks most, where none breaks the fault current at its place: the least
/// more resistance before it makes it good. `None` when no rating of any style fits.
pub fn strongest_for_cable<'c>(
    catalogue: &'c Catalogue,
    style_pin: Option<&str>,
    need: &FuseNeed,
) -> Option<FuseChoice<'c>> {
    let (rules, calm) = (ChoiceRules::of(catalogue), FuseNeed { prospective: Amps::ZERO, ..*need });
    strongest(styles(catalogue, style_pin).filter_map(|s| rules.in_style(s, &calm)), |c| {
        breaking(c.style, need.circuit)
    })
}

/// The first of those that break most.
pub(crate) fn strongest<T>(all: impl Iterator<Item = T>, breaks: impl Fn(&T) -> Amps) -> Option<T> {
    all.reduce(|best, next| if breaks(&next).get() > breaks(&best).get() { next } else { best })
}

/// The styles to choose from, by preference.
pub(crate) fn styles<'c>(catalogue: &'c Catalogue, pin: Option<&str>) -> impl Iterator<Item = &'c FuseStyle> + Clone {
    catalogue.fuse_styles.iter().filter(move |s| pin.is_none_or(|key| s.key == key))
}

#[cfg(test)]
mod tests {
    use super::*;

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
        let got = fuse_for_cable(&catalogue, None, &need).map(|c| (c.style.key.clone(), c.rating.get()));
        assert_eq!(got.as_ref().map(|(k, r)| (k.as_str(), *r)), expected);
    }

    #[test]
    fn the_smallest_that_fits_between_load_and_cable() {
        check(need(8.0, 25.0), Some(("blade-c", 10.0)));
        check(need(8.1, 25.0), Some(("blade-c", 15.0)));
        check(need(8.1, 14.0), None);
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
        let choice = fuse_for_cable(&catalogue, Some("strip-30"), &need(8.0, 40.0)).unwrap();
        assert_eq!((choice.style.key.as_str(), choice.rating.get()), ("strip-30", 30.0));
        assert!(fuse_for_cable(&catalogue, Some("no such style"), &need(8.0, 40.0)).is_none());
    }
}
