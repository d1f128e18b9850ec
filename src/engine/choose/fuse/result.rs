//! The fuses as shown: rating, limits, fault currents, the room that each rule leaves, and how these came about.

use crate::catalogue::FuseStyle;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::judge::fuse::limits::{FuseLimits, at_least};
use crate::engine::judge::fuse::margins::margins;
use crate::engine::judge::fuse::placement::within;
use crate::engine::physics::fuse_link::let_through::cable_withstand;
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::simulate::circuit::result::{FuseDesign, SizeRow};
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed, Fuses};
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;
use crate::reckon;
use std::borrow::Cow;

/// The fuses of a branch, the near one first.
pub(crate) fn shown(loops: &FaultLoops, branch: usize, fuses: &Fuses) -> Vec<FuseDesign> {
    let upstream = loops.upstream(branch, &fuses.near);
    let near = fuses.near.get(branch).into_iter().flatten().map(|f| one(loops, f, upstream));
    let far = fuses.far.get(branch).into_iter().flatten().map(|f| one(loops, f, None));
    near.chain(far).collect()
}

fn one(loops: &FaultLoops, fuse: &Fuse, upstream: Option<&Fuse>) -> FuseDesign {
    let (style, clearing) = (fuse.style, &fuse.clearing);
    FuseDesign {
        at: loops.place_of(fuse).into(),
        far_end: fuse.far_end,
        style: style.map(|s| s.key.clone()).unwrap_or_default(),
        style_name: style.map(|s| s.name.clone()).unwrap_or_default(),
        rating: fuse.rating,
        pinned: fuse.pinned,
        air: fuse.need.air,
        at_least: style.map_or(Amps::ZERO, |s| at_least(s, &fuse.need).value),
        at_most: FuseLimits::of(&loops.site.catalogue).at_most(fuse.need.ampacity),
        prospective: fuse.prospective.amps,
        likely: fuse.prospective.likely,
        breaking: style.map_or(Amps::ZERO, |s| breaking(s, fuse.need.circuit)),
        far_fault: clearing.far.map_or(Amps::ZERO, |f| f.amps),
        opens_within: clearing.opens,
        longest: loops.longest_in_time(fuse),
        let_through: clearing.through.map(|t| t.energy),
        cable_stands: clearing.stands,
        ruling: fuse.ruling,
        margins: margins(loops, fuse, upstream),
        within: within(loops, fuse.branch).unwrap_or(Metres::ZERO),
    }
}

/// The fuse that each size of a run would take at this place; the one used where the size is used.
pub(crate) fn by_size(loops: &FaultLoops, branch: usize, fuses: &Fuses) -> Vec<Option<Amps>> {
    let near = fuses.near.get(branch).and_then(Option::as_ref);
    let Some((fuse, design)) = near.zip(loops.design(branch)) else { return Vec::new() };
    let (limits, pin) = (FuseLimits::of(&loops.site.catalogue), loops.style_pin(branch));
    let used = design.size.as_ref().map(|s| s.label.as_str());
    let of = |row: &SizeRow| {
        if used == Some(row.label.as_str()) {
            return fuse.rating;
        }
        limits.first(pin, &FuseNeed { ampacity: row.ampacity, ..fuse.need }).map(|c| c.rating)
    };
    design.sizes.iter().map(of).collect()
}

/// How the numbers of one fuse came about, under its run: `fuse`, `fuse at least`, `fuse at most`, `prospective`,
/// `far fault`, `opens within`, `let-through`, `cable stands`; those of a far-end fuse end in ` at far end`.
pub(crate) fn explain(loops: &FaultLoops, fuse: &Fuse, notes: &mut Notes) {
    let run = loops.run_of(fuse.branch).0;
    let mut add = |number: &'static str, working: Option<Working>| {
        let Some(working) = working else { return };
        let number: Cow<'static, str> =
            if fuse.far_end { format!("{number} at far end").into() } else { Cow::Borrowed(number) };
        notes.add(Subject::Run(run), number, || working);
    };
    add("fuse at most", Some(most(loops, fuse)));
    add("prospective", Some(prospective(loops, fuse)));
    add("likely prospective", likely(fuse));
    let Some(style) = fuse.style else { return };
    add("fuse at least", Some(least(loops, fuse, style)));
    let Some(rating) = fuse.rating else { return };
    add("fuse", Some(chosen(loops, fuse, style, rating)));
    add("far fault", far_fault(fuse));
    add("opens within", opens(loops, fuse, style, rating));
    add("cable stands", Some(stands(loops, fuse)));
    add("let-through", through(fuse, style, rating));
}

fn least(loops: &FaultLoops, fuse: &Fuse, style: &FuseStyle) -> Working {
    at_least(style, &fuse.need)
        .working("least rating of the fuse")
        .source(loops.site.fuse_loading_source())
        .note(format!("re-rating of this style: {}", style.from.lost_per_k.words()))
}

fn most(loops: &FaultLoops, fuse: &Fuse) -> Working {
    FuseLimits::of(&loops.site.catalogue)
        .by_ampacity(fuse.need.ampacity)
        .working("most that the cable allows")
        .source(loops.site.catalogue.rules.ampacity_fuse.from.words())
        .note(format!("the thinnest conductor it protects is that of {}", loops.run_of(fuse.need.thinnest).1))
}

/// A rating is chosen, not worked out: between these limits, by that rule.
fn chosen(loops: &FaultLoops, fuse: &Fuse, style: &FuseStyle, rating: Amps) -> Working {
    let (run, at) = (loops.run_of(fuse.branch).0, if fuse.far_end { " at far end" } else { "" });
    let least = at_least(style, &fuse.need).value;
    let most = FuseLimits::of(&loops.site.catalogue).at_most(fuse.need.ampacity);
    let how = if fuse.pinned { "entered by you" } else { "smallest standard rating within all limits" };
    Working::new("rating of the fuse", "", rating)
        .with_from("a", "at least, for the load", least, Subject::Run(run), format!("fuse at least{at}"))
        .with_from("b", "at most, for the cable", most, Subject::Run(run), format!("fuse at most{at}"))
        .with_from("c", "fault current to break", fuse.need.prospective, Subject::Run(run), format!("prospective{at}"))
        .with("d", format!("what {} breaks", style.name), breaking(style, fuse.need.circuit))
        .source(how)
        .note(format!("set by: {}", fuse.ruling))
}

fn prospective(loops: &FaultLoops, fuse: &Fuse) -> Working {
    let p = &fuse.prospective;
    let name = "largest fault current at the fuse";
    if p.emf.get() <= 0.0 {
        return reckon!(Amps: others, others: "charger, solar, mains charger, alternator or the other battery" = p.others)
            .working(name)
            .source("sum of what the sources beyond can push")
            .note("the battery on this side has no size yet, or pushes less than what lies beyond");
    }
    p.by_ohm()
        .working(name)
        .source("Ohm's law; resistances by the catalogue")
        .note(format!("with the battery's usual resistance {}: {}", p.usual, p.likely))
        .note(format!("path at {}", loops.site.surroundings.coldest))
        .note("a dead short at the fuse, without inductance: the largest that can be")
}

fn likely(fuse: &Fuse) -> Option<Working> {
    let p = fuse.prospective;
    (p.emf.get() > 0.0).then(|| {
        p.with(p.usual)
            .working("likely fault current at the fuse")
            .source("Ohm's law; resistances by the catalogue, or as entered by you")
            .note("with the usual resistance of the battery, or what is known of this one")
    })
}

fn far_fault(fuse: &Fuse) -> Option<Working> {
    Some(
        fuse.clearing
            .far?
            .by_ohm()
            .working("smallest fault current at the far end")
            .source("Ohm's law; resistances by the catalogue")
            .note("a dead short; an arc or a chafed strand draws less"),
    )
}

fn opens(loops: &FaultLoops, fuse: &Fuse, style: &FuseStyle, rating: Amps) -> Option<Working> {
    let (far, time) = (fuse.clearing.far?, fuse.clearing.opens?);
    let multiple = far.amps / (rating * fuse.clearing.slow);
    let from = style.gates_words();
    Some(
        Working::new("latest opening on the far-end fault", "", time)
            .with("I", "smallest fault current at the far end", far.amps)
            .with("rating", "rating of the link", rating)
            .with("cold", "by how much it carries more in the coldest air", Figure::number(fuse.clearing.slow))
            .with("multiple", "I / (rating * cold)", Figure::number(multiple))
            .with("limit", "time in which it has to open", loops.fault_open)
            .source(from)
            .note("the latest time of the highest gate at or under that multiple; nothing is read between gates"),
    )
}

fn stands(loops: &FaultLoops, fuse: &Fuse) -> Working {
    let (_, name) = loops.run_of(fuse.clearing.weakest);
    let link = loops.link(fuse.clearing.weakest);
    let (k, area) = link.map_or((0.0, SquareMillimetres::ZERO), |l| (l.adiabatic_k, l.area));
    let insulation = loops.run(fuse.clearing.weakest).and_then(|run| loops.site.insulation_of(run));
    let k_from = insulation.map_or(String::new(), |i| i.from.adiabatic_k.words());
    cable_withstand(k, area)
        .working("energy that the weakest cable stands")
        .source(format!("I²t = k²S², for up to 5 s; {k_from}"))
        .note(format!("the weakest is that of {name}"))
}

fn through(fuse: &Fuse, style: &FuseStyle, rating: Amps) -> Option<Working> {
    let worst = fuse.clearing.through?;
    let from = style.gates_words();
    Some(
        worst
            .reckoned()
            .working("most energy let through")
            .source(from)
            .note(format!("of the {rating} link"))
            .note("the worst of all currents from the far-end fault to the one at the fuse; above the last gate its energy is held"),
    )
}
