//! Which fuse goes to one end of one run?
//!
//! What the plan gives is kept and checked. Else, over the styles in order of
//! preference, the first smallest rating that passes all; where none opens on
//! the far-end fault in time, the first whose cable stands the wait, then the
//! first of all; where no rating fits, rules are given up one by one,
//! the least harmful first, so that the finding has a fuse to speak of; where none
//! breaks the fault current, the one that breaks most.

use crate::catalogue::FuseStyle;
use crate::engine::choose::fuse::choice::{FuseChoice, FuseNeed, at_least, breaking, breaks, strongest, styles};
use crate::engine::judge::fuse::unmade::made_near;
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::fault::clearing::Clearing;
use crate::engine::simulate::fault::faults::Prospective;
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;

/// One fuse at its place, with all that is known of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Fuse<'a> {
    pub branch: usize,
    /// Whether it sits at the end away from the battery.
    pub far_end: bool,
    /// What it has to do; the ampacity is that of the thinnest conductor it protects.
    pub need: FuseNeed,
    /// The branch with that conductor.
    pub thinnest: usize,
    pub prospective: Prospective,
    pub style: Option<&'a FuseStyle>,
    pub rating: Option<Amps>,
    pub pinned: bool,
    pub ruling: &'static str,
    /// Whether a choice had to give up the start, the breaking capacity or a run beyond without its own fuse.
    pub gave_up: GivenUp,
    pub clearing: Clearing,
}

impl<'a> Fuse<'a> {
    /// Style and rating, once both are known.
    pub fn fitted(&self) -> Option<(&'a FuseStyle, Amps)> {
        Some((self.style?, self.rating?))
    }

    /// Resistance of link and holder.
    pub fn resistance(&self) -> Ohms {
        self.fitted().map_or(Ohms::ZERO, |(style, rating)| style.cold_resistance(rating))
    }
}

/// What a choice had to give up.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct GivenUp {
    /// That the start passes.
    pub start: bool,
    /// That it breaks the fault current.
    pub breaking: bool,
    /// That it protects the runs beyond that have no fuse of their own.
    pub beyond: bool,
}

/// In the order tried: the least harmful first.
const GIVING_UP: [GivenUp; 8] = {
    const fn up(start: bool, breaking: bool, beyond: bool) -> GivenUp {
        GivenUp { start, breaking, beyond }
    }
    [
        up(false, false, false),
        up(true, false, false),
        up(false, true, false),
        up(true, true, false),
        up(false, false, true),
        up(true, false, true),
        up(false, true, true),
        up(true, true, true),
    ]
};

impl<'a> Ground<'a> {
    /// The fuse at one end of a branch; `None` while its cable has no size.
    pub fn pick(&self, branch: usize, far_end: bool, links_before: Ohms) -> Option<Fuse<'a>> {
        let (run, design, link) = (self.run(branch)?, self.design(branch)?, self.link(branch)?);
        if !link.is_sized() {
            return None;
        }
        let prospective = if far_end { self.prospective_far(branch) } else { self.prospective(branch) };
        let (ampacity, thinnest) = if far_end { (link.ampacity, branch) } else { self.thinnest(branch) };
        let need = FuseNeed {
            loading: self.loading,
            air: design.air + self.holder_warmer,
            steady: design.current,
            starts: design.starts,
            ampacity,
            prospective: prospective.amps,
            circuit: self.sources.highest,
            floor: Amps::ZERO,
        };
        let pin = run.fuse_style.as_deref();
        let judge = |style: &FuseStyle, rating: Amps| {
            self.clearing(branch, far_end, style, rating, prospective.amps, links_before)
        };
        let mut fuse = Fuse {
            branch,
            far_end,
            need,
            thinnest,
            prospective,
            style: None,
            rating: run.fuse,
            pinned: run.fuse.is_some(),
            ruling: "given",
            gave_up: GivenUp::default(),
            clearing: Clearing::default(),
        };
        match run.fuse {
            Some(rating) => fuse.style = self.style_of(pin, rating, &need),
            None => {
                let own = FuseNeed { ampacity: link.ampacity, ..need };
                let found = self.choose(pin, &need, &own, judge);
                let chosen = found.map(|(c, _)| c);
                fuse.gave_up = found.map(|(_, gave_up)| gave_up).unwrap_or_default();
                fuse.style = chosen.map(|c| c.style).or_else(|| self.style_without_rating(pin, &need));
                fuse.rating = chosen.map(|c| c.rating);
                fuse.ruling = chosen.map_or("nothing fits", |c| self.ruling(pin, &need, &c));
            }
        }
        if let Some((style, rating)) = fuse.fitted() {
            fuse.clearing = judge(style, rating);
        }
        Some(fuse)
    }

    /// Ampacity of the thinnest conductor behind a near-end fuse, less what
    /// other sources feed in on the way to it, and its branch.
    fn thinnest(&self, branch: usize) -> (Amps, usize) {
        let share = self.rules.at_most(Amps::new(1.0)).get().max(0.01);
        let carries = |b: usize| {
            let own = self.link(b).filter(|l| l.is_sized()).map(|l| l.ampacity)?;
            let joined = if b == branch { Amps::ZERO } else { self.joined_before(branch, b) };
            Some(((own - joined / share).max(Amps::ZERO), b))
        };
        let least = self.zone(branch).into_iter().filter_map(carries);
        least.min_by(|a, b| a.0.get().total_cmp(&b.0.get())).unwrap_or((Amps::ZERO, branch))
    }

    /// What limited sources feed into the way from a fuse to a run beyond it.
    pub fn joined_before(&self, fuse: usize, run: usize) -> Amps {
        (self.limited_beyond(fuse) - self.limited_beyond(run)).max(Amps::ZERO)
    }

    fn choose(
        &self,
        pin: Option<&str>,
        need: &FuseNeed,
        own: &FuseNeed,
        judge: impl Fn(&FuseStyle, Amps) -> Clearing,
    ) -> Option<(FuseChoice<'a>, GivenUp)> {
        GIVING_UP.iter().find_map(|given_up| {
            let mut relaxed = if given_up.beyond { *own } else { *need };
            if given_up.start {
                relaxed.starts = Starts::NONE;
            }
            if given_up.breaking {
                relaxed.prospective = Amps::ZERO;
            }
            let mut fitting = styles(&self.site.catalogue, pin).filter_map(|s| self.rules.in_style(s, &relaxed));
            let first = fitting.next()?;
            let clearing = |c: FuseChoice<'a>| (c, judge(c.style, c.rating));
            let all: Vec<_> =
                std::iter::once(first).chain(fitting).map(clearing).filter(|(_, c)| c.is_stood()).collect();
            let best = if given_up.breaking {
                strongest(all.iter(), |(c, _)| breaking(c.style, need.circuit))
            } else {
                let in_time = all.iter().find(|(_, c)| c.opens_in_time(self.fault_open));
                in_time.or_else(|| all.iter().find(|(_, c)| c.stands_the_wait()))
            };
            Some((best.map_or(first, |(choice, _)| *choice), *given_up))
        })
    }

    /// Style of a given rating: the pinned one; else the first that has the
    /// rating and breaks the fault; else of those that have it the one that
    /// breaks most; else that of the nearest rating that is made.
    fn style_of(&self, pin: Option<&str>, rating: Amps, need: &FuseNeed) -> Option<&'a FuseStyle> {
        let all = || styles(&self.site.catalogue, pin);
        let has = |s: &&FuseStyle| s.ratings.contains(&rating);
        all()
            .filter(has)
            .find(|s| breaks(s, need))
            .or_else(|| strongest(all().filter(has), |s| breaking(s, need.circuit)))
            .or_else(|| {
                made_near(styles(&self.site.catalogue, pin), rating).into_iter().flatten().map(|(s, _)| s).next()
            })
    }

    /// Style to speak of where no rating fits: the first that reaches what the load asks for and breaks the
    /// fault; else of those that reach as far, or at all, the one that breaks most.
    fn style_without_rating(&self, pin: Option<&str>, need: &FuseNeed) -> Option<&'a FuseStyle> {
        let all = || styles(&self.site.catalogue, pin);
        let reaches = |s: &&FuseStyle| s.ratings.last().is_some_and(|r| r.get() >= at_least(s, need).get());
        let most = |s: &&FuseStyle| breaking(s, need.circuit);
        all()
            .filter(reaches)
            .find(|s| breaks(s, need))
            .or_else(|| strongest(all().filter(reaches), most))
            .or_else(|| strongest(all(), most))
    }

    /// Which rule set the rating: what would be chosen without it is smaller.
    fn ruling(&self, pin: Option<&str>, need: &FuseNeed, chosen: &FuseChoice) -> &'static str {
        let smallest = |need: FuseNeed| {
            styles(&self.site.catalogue, pin).find_map(|s| self.rules.in_style(s, &need)).map(|c| c.rating)
        };
        let no_fault = FuseNeed { prospective: Amps::ZERO, ..*need };
        let steady_only = FuseNeed { starts: Starts::NONE, ..no_fault };
        let smallest_made = chosen.style.ratings.first() == Some(&chosen.rating);
        if smallest(steady_only) == Some(chosen.rating) {
            let wide = at_least(chosen.style, need).get() < 0.5 * chosen.rating.get();
            return if smallest_made && wide { "smallest made" } else { "steady current" };
        }
        match (smallest(no_fault), smallest(*need)) {
            (Some(r), _) if r == chosen.rating => "start surge",
            (_, Some(r)) if r == chosen.rating => "breaking capacity",
            _ => "far-end fault",
        }
    }
}
