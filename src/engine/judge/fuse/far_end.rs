//! What guards a run against the sources at its far end?
//!
//! A run is fed from both ends when a charger, a solar controller, a mains
//! charger or the other battery stands at or beyond its far end. There it needs
//! a fuse of its own, unless
//! - a fuse between it and that source already opens below what it carries:
//!   the one at the other battery's post, or of a run farther out; or
//! - all that stands there limits itself to less than it carries, so that no
//!   fuse would ever open (IEC 60364-4-43 clause 436, from memory).

use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::simulate::circuit::result::FarEnd;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Value};

/// What guards a branch at its far end, given the near-end fuses of all.
pub fn far_end(loops: &FaultLoops, branch: usize, near: &[Option<Fuse>]) -> FarEnd {
    let (Some(b), Some(link)) = (loops.branch(branch), loops.link(branch)) else { return FarEnd::Dead };
    if !b.source_beyond {
        return FarEnd::Dead;
    }
    let inflow = loops.inflow(branch, near);
    if inflow.amps <= FuseLimits::of(&loops.site.catalogue).at_most(link.for_ever) {
        return match inflow.guard {
            Some((run, rating)) => FarEnd::Guarded { run, rating },
            None => FarEnd::Limited(inflow.amps),
        };
    }
    if loops.run(branch).is_some_and(|r| r.own_fuse) { FarEnd::Fused } else { FarEnd::Open }
}

/// Nothing guards a run against the sources beyond it.
pub fn check(loops: &FaultLoops, branch: usize, guard: FarEnd) -> Option<Finding> {
    let (FarEnd::Open, link, b) = (guard, loops.link(branch)?, loops.branch(branch)?) else { return None };
    if !link.is_sized() {
        return None;
    }
    let (run, name) = loops.run_of(branch);
    let carries = FuseLimits::of(&loops.site.catalogue).at_most(link.for_ever);
    let text =
        format!("{name} is also fed from `{}`, where nothing keeps the current under the {carries} it carries", b.far);
    Some(
        Finding::new(Kind::FuseMissing, Subject::Run(run), text)
            .rule(format!(
                "a cable between two sources is fused at both ends: 33 CFR 183.455; cable: {}",
                loops.carries_words(branch)
            ))
            .at(Place::run(run, "own_fuse"))
            .remedy_edit(
                format!("give it fuses of its own, at most {carries} at `{}` too", b.far),
                Place::run(run, "own_fuse"),
                Some(Value::Flag(true)),
            ),
    )
}
