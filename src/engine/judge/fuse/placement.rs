//! How far from its source may a fuse sit?
//!
//! The stretch of cable before the fuse is protected by nothing, so it is kept
//! short, and may be longer only where it is sheathed or enclosed all the way:
//! 7 in and 40 in by 33 CFR 183.455(b), or another rule of the catalogue.

use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// Whether a run counts as sheathed or enclosed the whole way.
fn is_enclosed(loops: &FaultLoops, branch: usize) -> bool {
    loops.run(branch).and_then(|r| loops.site.catalogue.place(&r.surroundings)).is_some_and(|p| p.enclosed)
}

/// How far from its source the fuse of a branch may sit; `None` where the catalogue has no rule.
pub fn within(loops: &FaultLoops, branch: usize) -> Option<Metres> {
    let rule = FuseLimits::of(&loops.site.catalogue).placement(loops.site)?;
    Some(if is_enclosed(loops, branch) { rule.enclosed } else { rule.bare })
}

/// A fuse sits too far from its source.
pub fn check(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let rule = FuseLimits::of(&loops.site.catalogue).placement(loops.site)?;
    let (within, run) = (within(loops, fuse.branch)?, loops.run(fuse.branch)?);
    if run.fuse_distance.get() <= within.get() {
        return None;
    }
    let (index, name) = loops.run_of(fuse.branch);
    let enclosed = is_enclosed(loops, fuse.branch);
    let how = if enclosed { "sheathed or enclosed" } else { "bare" };
    let text = format!(
        "the fuse of {name} sits {} from `{}`; a {how} cable may have it within {within}",
        run.fuse_distance,
        loops.place_of(fuse)
    );
    let mut finding = Finding::new(Kind::FuseFar, Subject::Run(index), text)
        .rule(format!(
            "{} bare, {} sheathed or enclosed the whole way; {}",
            rule.bare,
            rule.enclosed,
            if enclosed { rule.from.enclosed.words() } else { rule.from.bare.words() }
        ))
        .at(Place::run(index, "fuse_distance_m"))
        .remedy_edit(
            format!("move it to within {within} of the source"),
            Place::run(index, "fuse_distance_m"),
            Some(Value::Number(within.get())),
        );
    if !enclosed && run.fuse_distance.get() <= rule.enclosed.get() {
        finding = finding.remedy(format!("or enclose the cable the whole way: then {} is allowed", rule.enclosed));
    }
    Some(finding)
}
