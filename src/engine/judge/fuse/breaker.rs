//! Findings: a breaker that closes again by itself and guards a cable alone, and one that is marked with a polarity where
//! current runs both ways.

use crate::catalogue::{FuseStyle, Reset};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Grade, Kind, Severity};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::Place;

/// Whether a breaker closes again without a hand on it.
fn closes_itself(style: &FuseStyle) -> bool {
    matches!(style.reset, Some(Reset::Automatic | Reset::Modified))
}

/// Whether a breaker that closes again by itself is all that guards its cable; `up` is the next device upstream.
fn is_alone(loops: &FaultLoops, fuse: &Fuse, up: Option<&Fuse>) -> bool {
    let most = FuseLimits::of(&loops.site.catalogue).at_most(fuse.need.ampacity);
    let guards = |(style, rating)| !closes_itself(style) && rating <= most;
    fuse.style.is_some_and(closes_itself) && !up.and_then(Fuse::fitted).is_some_and(guards)
}

/// Whether current runs both ways through a breaker that breaks it one way only.
fn is_reversed(loops: &FaultLoops, fuse: &Fuse) -> bool {
    fuse.style.is_some_and(|s| s.polarised) && loops.branch(fuse.branch).is_some_and(|b| b.source_beyond)
}

/// How grave both are, of a device that is there; `up` is the next one upstream.
pub fn grades(loops: &FaultLoops, fuse: &Fuse, up: Option<&Fuse>) -> impl Iterator<Item = Grade> + use<> {
    let stop = |kind, is: bool| is.then_some((kind, Severity::Stop));
    let (alone, reversed) = (is_alone(loops, fuse, up), is_reversed(loops, fuse));
    [stop(Kind::BreakerAlone, alone), stop(Kind::BreakerPolarity, reversed)].into_iter().flatten()
}

/// A breaker that closes again by itself guards a cable alone.
pub fn check_alone(loops: &FaultLoops, fuse: &Fuse, up: Option<&Fuse>) -> Option<Finding> {
    let (style, rating) = fuse.fitted().filter(|_| is_alone(loops, fuse, up))?;
    let (run, name) = loops.run_of(fuse.branch);
    let most = FuseLimits::of(&loops.site.catalogue).at_most(fuse.need.ampacity);
    let when = match style.reset {
        Some(Reset::Modified) => "once the supply has been off",
        _ => "while the fault stands",
    };
    let text = format!(
        "the {} of {rating} in {name} closes again by itself {when}, and no other device keeps its cable to the {most} it \
         carries",
        style.name
    );
    Some(
        Finding::new(Kind::BreakerAlone, Subject::Run(run), text)
            .rule(
                "each conductor has a fuse or a breaker of manual reset, trip-free: 33 CFR 183.455(a); automatic and modified \
                 reset, SAE J553 types 1 and 2 (from memory), only beside one",
            )
            .at(Place::run(run, "fuse_style"))
            .remedy_edit(format!("leave the style open: a fuse of {rating} or so is chosen"), Place::run(run, "fuse_style"), None)
            .remedy(format!("or a fuse of at most {most} before it")),
    )
}

/// A breaker marked with a polarity stands where current runs both ways.
pub fn check_reversed(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let (style, rating) = fuse.fitted().filter(|_| is_reversed(loops, fuse))?;
    let (run, name) = loops.run_of(fuse.branch);
    let text = format!(
        "the {} of {rating} in {name} breaks current in 1 direction only, and there a source pushes from either end",
        style.name
    );
    Some(
        Finding::new(Kind::BreakerPolarity, Subject::Run(run), text)
            .rule("a breaker marked with a polarity never where current runs both ways (from memory, instructions of such breakers)")
            .at(Place::run(run, "fuse_style"))
            .remedy_edit(
                format!("leave the style open: a fuse of {rating} or so, which has no direction, is chosen"),
                Place::run(run, "fuse_style"),
                None,
            ),
    )
}
