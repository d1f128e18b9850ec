//! One fuse as shown: rating, window, fault currents, and the room that each rule leaves.

use crate::engine::choose::fuse::choice::{at_least, breaking};
use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::judge::fuse::chain::selective;
use crate::engine::judge::fuse::far_fault::longest;
use crate::engine::judge::fuse::unmade::is_unmade;
use crate::engine::simulate::circuit::result::{FuseDesign, Margin};
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;

/// The fuse for the run's design.
pub(crate) fn shown(ground: &Ground, fuse: &Fuse, upstream: Option<&Fuse>) -> FuseDesign {
    let circuit = fuse.need.circuit;
    let style = fuse.style;
    let mut shown = FuseDesign {
        at: ground.place_of(fuse).into(),
        far_end: fuse.far_end,
        style: style.map(|s| s.key.clone()).unwrap_or_default(),
        style_name: style.map(|s| s.name.clone()).unwrap_or_default(),
        rating: fuse.rating,
        pinned: fuse.pinned,
        air: fuse.need.air,
        at_least: style.map_or(Amps::ZERO, |s| at_least(s, &fuse.need)),
        at_most: ground.rules.at_most(fuse.need.ampacity),
        prospective: fuse.prospective.amps,
        breaking: style.map_or(Amps::ZERO, |s| breaking(s, circuit)),
        far_fault: fuse.clearing.far.map_or(Amps::ZERO, |f| f.amps),
        opens_within: fuse.clearing.opens,
        longest: longest(ground, fuse),
        let_through: fuse.clearing.through.map(|t| t.energy),
        cable_stands: fuse.clearing.stands,
        ruling: fuse.ruling,
        margins: Vec::new(),
        within: ground.within(fuse.branch).unwrap_or(Metres::ZERO),
    };
    shown.margins = margins(ground, fuse, upstream, &shown);
    shown
}

/// The room that each rule leaves; a rule that cannot be judged is left out.
fn margins(ground: &Ground, fuse: &Fuse, upstream: Option<&Fuse>, shown: &FuseDesign) -> Vec<Margin> {
    let mut all = Vec::with_capacity(8);
    let mut add = |rule, have: Figure, need: Figure, at_least| all.push(Margin { rule, have, need, at_least });
    let Some((style, rating)) = fuse.fitted() else { return all };
    add("steady current", rating.into(), shown.at_least.into(), true);
    add("cable ampacity", rating.into(), shown.at_most.into(), false);
    let need = &fuse.need;
    if let Some((start, rides)) = ground.rules.hardest(style, rating, need).filter(|h| h.1.is_finite()) {
        add("start surge", rides.into(), start.lasts.into(), true);
    }
    // A rating that is not made has no style to be judged by.
    if shown.prospective.get() > 0.0 && !is_unmade(ground, fuse) {
        add("breaking capacity", shown.breaking.into(), shown.prospective.into(), true);
    }
    if let (Some(far), Some(needs)) = (fuse.clearing.far, fuse.clearing.needs) {
        add("far-end fault", far.amps.into(), needs.into(), true);
    }
    if let Some(through) = shown.let_through {
        add("let-through energy", through.into(), shown.cable_stands.into(), false);
    }
    let parted = upstream.filter(|u| ground.cuts_off_others(u, fuse));
    if let Some((up, _)) = parted.and_then(|u| Some((u.rating?, selective(ground, fuse, u)?))) {
        let wanted = rating * ground.site.catalogue.rules.selectivity.value;
        add("fuse upstream", up.into(), wanted.into(), true);
    }
    if let (Some(run), Some(within)) = (ground.run(fuse.branch), ground.within(fuse.branch)) {
        add("distance from the source", run.fuse_distance.into(), within.into(), false);
    }
    all
}
