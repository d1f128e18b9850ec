//! Finding: can the fuse break the fault current at its place?

use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::judge::fuse::unmade::is_unmade;
use crate::engine::physics::copper::warmed;
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed};
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// The fuse cannot break the fault current at its place.
pub fn check(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let (style, rating) = fuse.fitted()?;
    let (amps, circuit) = (fuse.prospective.amps, fuse.need.circuit);
    let breaks = breaking(style, circuit);
    // A rating that is not made has no style of its own to be judged by.
    if amps.get() <= 0.0 || breaks.get() >= amps.get() || is_unmade(loops, fuse) {
        return None;
    }
    let row = style.breaking_at(circuit);
    let (run, name) = loops.run_of(fuse.branch);
    let at = loops.place_of(fuse);
    let text = format!(
        "a short circuit of up to {amps} can flow at `{at}`; the {} of {rating} in {name} breaks {breaks} at {circuit}",
        style.name
    );
    let source = row.map_or_else(|| style.from.rated.words(), |b| b.from.amps.words());
    let mut finding = Finding::new(Kind::FuseBreaking, Subject::Run(run), text)
        .rule(format!("breaking capacity ≥ prospective current at its place; breaking capacity: {source}"))
        .at(Place::run(run, "fuse_style"));
    let need = FuseNeed { starts: Starts::NONE, ..fuse.need };
    if let Some(c) = FuseLimits::of(&loops.site.catalogue).first(None, &need) {
        let breaks = c.style.breaking_at(circuit).map_or(Amps::ZERO, |b| b.amps);
        let words = format!("a {} of {} breaks {breaks}", c.style.name, c.rating);
        let value = Some(Value::Text(c.style.key.clone()));
        finding = finding.remedy_edit(words, Place::run(run, "fuse_style"), value);
    } else if let Some((words, label)) = bigger_cable(loops, fuse) {
        finding = finding.remedy_edit(words, Place::run(run, "size"), Some(Value::Text(label)));
    }
    Some(longer_way(loops, fuse, breaks, finding))
}

/// A cable that takes the smallest fuse which breaks it.
fn bigger_cable(loops: &FaultLoops, fuse: &Fuse) -> Option<(String, String)> {
    let takes = |ampacity| {
        let need = FuseNeed { ampacity, starts: Starts::NONE, ..fuse.need };
        FuseLimits::of(&loops.site.catalogue).first(None, &need)
    };
    let size = loops.bigger(fuse.branch, |s| takes(s.ampacity).is_some())?;
    let c = takes(size.ampacity)?;
    Some((format!("{} takes a {} of {}, which breaks it", size.label, c.style.name, c.rating), size.label.clone()))
}

/// The fuse sits at the battery: the lead before it, not counted for the worst case, and the battery itself are left.
fn at_the_posts(loops: &FaultLoops, fuse: &Fuse, breaks: Amps, more: Ohms, finding: Finding) -> Finding {
    let cold = |l: &Link| warmed(l.copper_per_metre(), loops.site.surroundings.coldest);
    let lead = loops.link(fuse.branch).map(cold).filter(|each| each.get() > 0.0).map(|each| more / each);
    let finding = match lead {
        Some(metres) => finding.remedy(format!(
            "{more} more before it would bring the current down to {breaks}: {} of its own cable from the post to the fuse",
            Metres::new((metres * 100.0).ceil() / 100.0)
        )),
        None => finding.remedy(format!("{more} more before it would bring the current down to {breaks}")),
    };
    let least = fuse.prospective.internal + more;
    finding.remedy(format!(
        "or the maker's sheet: where it gives {least} or more inside at a short circuit, put that as `fault_mohm` of 100 Ah into a chemistry of your own profiles"
    ))
}

/// How much more cable before the fuse would bring the current down.
fn longer_way(loops: &FaultLoops, fuse: &Fuse, breaks: Amps, finding: Finding) -> Finding {
    let (p, allowed) = (fuse.prospective, breaks - fuse.prospective.others);
    if p.emf.get() <= 0.0 || allowed.get() <= 0.0 {
        return finding.remedy(format!(
            "fuse it elsewhere, or by a link that breaks at least {} at {}",
            p.amps, fuse.need.circuit
        ));
    }
    let more = p.emf / allowed - p.internal - p.path;
    let before = loops.branch(fuse.branch).and_then(|b| b.parent).and_then(|b| loops.link(b));
    let cold = |l: &Link| warmed(l.copper, loops.site.surroundings.coldest);
    let per_metre = before.filter(|l| l.length.get() > 0.0).map(|l| cold(l).get() / l.length.get());
    match per_metre.filter(|r| *r > 0.0) {
        Some(r) => finding.remedy(format!(
            "{} more of the same cable before it, {more} out and back, would bring the current down to {breaks}",
            Metres::new(more.get() / r)
        )),
        None => at_the_posts(loops, fuse, breaks, more, finding),
    }
}
