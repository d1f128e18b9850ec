//! Which fuse ratings would do for a run, before its cable is known?
//!
//! For each style the least rating that carries the steady current, rides
//! through the start and breaks the fault current at its place; where none
//! does, that of the style that breaks most. A cable then needs an ampacity of
//! at least one of them. Far-end faults and selectivity are left to the
//! protection, which knows all sizes by then.

use crate::catalogue::{Catalogue, FuseStyle};
use crate::engine::installation::Installation;
use crate::engine::judge::fuse::limits::{FuseChoice, FuseLimits};
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::circuit::demand::{Flow, carried};
use crate::engine::simulate::circuit::fuse_room::FuseRoom;
use crate::engine::simulate::fault::fuse::FuseNeed;
use crate::plan::Run;
use crate::quantity::*;

/// Of a run with a fuse of its own; the ampacity of `need` does not count.
pub fn fuse_room<'a>(catalogue: &'a Catalogue, run: &Run, need: &FuseNeed) -> FuseRoom<'a> {
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
    if ratings.is_empty() && need.likely < need.prospective {
        // No style breaks the most that can flow: those that break what is likely.
        return fuse_room(catalogue, run, &FuseNeed { prospective: need.likely, ..*need });
    }
    if ratings.is_empty() && run.fuse.is_none() {
        // Nothing breaks the fault here: the protection says so of the style that breaks most.
        let calm = FuseNeed { prospective: Amps::ZERO, ..any };
        let most = |c: &FuseChoice| breaking(c.style, need.circuit);
        let fitting = limits.fitting(run.fuse_style.as_deref(), &calm);
        let strongest = fitting.reduce(|best, next| if most(&next) > most(&best) { next } else { best });
        ratings.extend(strongest.map(|c| (c.style, c.rating)));
    }
    let share = catalogue.rules.ampacity_fuse.value.get();
    let (pinned, styled) = (run.fuse.is_some(), run.fuse_style.is_some());
    FuseRoom { ratings, share, air: need.air, pinned, styled, free: false }
}

/// What the fuse of a run has to do, its cable left out.
pub fn need(site: &Installation, air: Celsius, flow: &Flow, circuit: Volts) -> FuseNeed {
    let (steady, loading) = carried(flow.current, flow.pulsed, site.fuse_loading());
    FuseNeed {
        loading,
        air: air + site.catalogue.rules.fuse_air.value,
        steady,
        starts: flow.starts,
        circuit,
        ..FuseNeed::default()
    }
}
