//! Which fuse goes to one end of one run?
//!
//! What the plan gives is kept and checked. Else, over the styles in order of
//! preference, the first smallest rating that passes all; where none opens on
//! the far-end fault in time, the first whose cable stands the wait, then the
//! first of all; where no rating fits, rules are given up one by one,
//! the least harmful first, so that the finding has a fuse to speak of; where none
//! breaks the fault current, the one that breaks most.

use crate::catalogue::FuseStyle;
use crate::engine::choose::fuse::choice::strongest;
use crate::engine::judge::fuse::limits::{FuseChoice, FuseLimits, at_least, breaks};
use crate::engine::physics::fuse_link::rating::{breaking, made_near, styles};
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::fault::fuse::{Clearing, Fuse, FuseNeed, GivenUp};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

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

/// The fuse at one end of a branch; `None` while its cable has no size. `links_before` is the resistance of the
/// fuse-links between it and its battery.
pub(crate) fn fuse_at<'a>(
    loops: &FaultLoops<'a, '_>,
    branch: usize,
    far_end: bool,
    links_before: Ohms,
) -> Option<Fuse<'a>> {
    let limits = FuseLimits::of(&loops.site.catalogue);
    let need = limits.need(loops, branch, far_end)?;
    let prospective = if far_end { loops.prospective_far(branch) } else { loops.prospective(branch) };
    let (run, pin) = (loops.run(branch)?, loops.style_pin(branch));
    let clear = |style: &FuseStyle, rating: Amps| {
        loops.clearing(branch, far_end, style, rating, prospective.amps, links_before)
    };
    let search = Search { loops, limits, pin, need };
    let mut fuse = Fuse {
        branch,
        far_end,
        need,
        prospective,
        style: None,
        rating: run.fuse,
        pinned: run.fuse.is_some(),
        ruling: "given",
        gave_up: GivenUp::default(),
        clearing: Clearing::default(),
    };
    match run.fuse {
        Some(rating) => fuse.style = search.style_of(rating),
        None => {
            let found = search.choose(loops.link(branch)?.ampacity, clear);
            let chosen = found.map(|(c, _)| c);
            fuse.gave_up = found.map(|(_, gave_up)| gave_up).unwrap_or_default();
            fuse.style = chosen.map(|c| c.style).or_else(|| search.style_without_rating());
            fuse.rating = chosen.map(|c| c.rating);
            fuse.ruling = chosen.map_or("nothing fits", |c| search.ruling(&c));
        }
    }
    if let Some((style, rating)) = fuse.fitted() {
        fuse.clearing = clear(style, rating);
    }
    Some(fuse)
}

/// The search for one fuse.
struct Search<'l, 'a> {
    loops: &'l FaultLoops<'a, 'l>,
    limits: FuseLimits<'a>,
    /// Style that the plan gives.
    pin: Option<&'a str>,
    need: FuseNeed,
}

impl<'a> Search<'_, 'a> {
    /// `own` is the ampacity of its own run alone.
    fn choose(&self, own: Amps, clear: impl Fn(&FuseStyle, Amps) -> Clearing) -> Option<(FuseChoice<'a>, GivenUp)> {
        let within = self.loops.fault_open;
        GIVING_UP.iter().find_map(|given_up| {
            let need = given_up.of(&self.need, own);
            let mut fitting = self.limits.fitting(self.pin, &need);
            let first = fitting.next()?;
            let clearing = |c: FuseChoice<'a>| (c, clear(c.style, c.rating));
            let all: Vec<_> =
                std::iter::once(first).chain(fitting).map(clearing).filter(|(_, c)| c.is_stood()).collect();
            let best = if given_up.breaking {
                strongest(all.iter(), |(c, _)| breaking(c.style, need.circuit))
            } else {
                let in_time = all.iter().find(|(_, c)| c.opens_in_time(within));
                in_time.or_else(|| all.iter().find(|(_, c)| c.stands_the_wait()))
            };
            Some((best.map_or(first, |(choice, _)| *choice), *given_up))
        })
    }

    fn styles(&self) -> impl Iterator<Item = &'a FuseStyle> + Clone {
        styles(&self.loops.site.catalogue, self.pin)
    }

    fn most(&self, style: &FuseStyle) -> Amps {
        breaking(style, self.need.circuit)
    }

    /// Style of a given rating: the pinned one; else the first that has the
    /// rating and breaks the fault; else of those that have it the one that
    /// breaks most; else that of the nearest rating that is made.
    fn style_of(&self, rating: Amps) -> Option<&'a FuseStyle> {
        let having = || self.styles().filter(|s| s.ratings.contains(&rating));
        having()
            .find(|s| breaks(s, &self.need))
            .or_else(|| strongest(having(), |s| self.most(s)))
            .or_else(|| made_near(self.styles(), rating).into_iter().flatten().map(|(s, _)| s).next())
    }

    /// Style to speak of where no rating fits: the first that reaches what the load asks for and breaks the
    /// fault; else of those that reach as far, or at all, the one that breaks most.
    fn style_without_rating(&self) -> Option<&'a FuseStyle> {
        let reaches = |s: &&FuseStyle| s.ratings.last().is_some_and(|r| *r >= at_least(s, &self.need).value);
        let reaching = || self.styles().filter(reaches);
        reaching()
            .find(|s| breaks(s, &self.need))
            .or_else(|| strongest(reaching(), |s| self.most(s)))
            .or_else(|| strongest(self.styles(), |s| self.most(s)))
    }

    /// Which rule set the rating: what would be chosen without it is smaller.
    fn ruling(&self, chosen: &FuseChoice) -> &'static str {
        let smallest = |need: FuseNeed| self.limits.first(self.pin, &need).map(|c| c.rating);
        let no_fault = FuseNeed { prospective: Amps::ZERO, ..self.need };
        let steady_only = FuseNeed { starts: Starts::NONE, ..no_fault };
        let smallest_made = chosen.style.ratings.first() == Some(&chosen.rating);
        if smallest(steady_only) == Some(chosen.rating) {
            let wide = at_least(chosen.style, &self.need).value.get() < 0.5 * chosen.rating.get();
            return if smallest_made && wide { "smallest made" } else { "steady current" };
        }
        match (smallest(no_fault), smallest(self.need)) {
            (Some(r), _) if r == chosen.rating => "start surge",
            (_, Some(r)) if r == chosen.rating => "breaking capacity",
            _ => "far-end fault",
        }
    }
}
