//! Finding: can the fuse break the fault current at its place?

use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::judge::fuse::blocks::behind_devices;
use crate::engine::judge::fuse::limits::{BACKED_CAUTION, BACKED_NOTE, FuseLimits};
use crate::engine::judge::fuse::unmade::is_unmade;
use crate::engine::physics::copper::warmed;
use crate::engine::physics::fuse_link::rating::breaking;
use crate::engine::physics::starts::Starts;
use crate::engine::simulate::fault::backer::{Backer, Backup};
use crate::engine::simulate::fault::backup::LEAST;
use crate::engine::simulate::fault::fuse::{Fuse, FuseNeed};
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::{Place, Value};
use crate::quantity::*;

/// What ABYC E-11 asks of breakers, to hold a figure against: its table V-A, read in a reprint.
const ABYC: &str = "beside it, ABYC E-11 table V-A (read in a reprint) asks breakers at a bank of up to 650, up to 1,100 and \
                    more cranking amperes for 1,500, 3,000 and 5,000 A as the main and 750, 1,500 and 2,500 A as branches";

/// How grave it is that a device cannot break its prospective current alone; `None` where it can.
///
/// A stop where the likely current is above its capacity, a caution where only the most is. One upstream that
/// breaks it for it makes that milder, by how far the device is beyond its own.
pub fn grade(most: Amps, likely: Amps, breaks: Amps, backed: bool) -> Option<Severity> {
    if breaks >= most {
        return None;
    }
    let alone = if likely > breaks { Severity::Stop } else { Severity::Caution };
    let with = match most / breaks {
        _ if !backed => Severity::Stop,
        times if times <= BACKED_NOTE => Severity::Note,
        times if times <= BACKED_CAUTION => Severity::Caution,
        _ => Severity::Stop,
    };
    Some(alone.max(with))
}

/// How grave it is of a fuse at its place.
pub fn fuse_grade(loops: &FaultLoops, fuse: &Fuse) -> Option<Severity> {
    let (style, _) = fuse.fitted()?;
    // A rating that is not made has no style of its own to be judged by.
    if fuse.prospective.amps.get() <= 0.0 || is_unmade(loops, fuse) {
        return None;
    }
    let breaks = breaking(style, fuse.need.circuit);
    let backup = backup_of(fuse, breaks);
    let graded = grade(fuse.prospective.amps, fuse.prospective.likely, breaks, backup.is_some())?;
    // A device that breaks only the likely current is no full answer.
    Some(if backup.is_some_and(|b| !b.certain) { graded.min(Severity::Caution) } else { graded })
}

/// What breaks the fault for a fuse that cannot.
pub fn backup_of<'f, 'a>(fuse: &'f Fuse<'a>, breaks: Amps) -> Option<&'f Backup<'a>> {
    fuse.backup.as_ref().filter(|b| b.remaining <= breaks)
}

/// What is said of the device upstream that breaks it.
pub fn backed_words(loops: &FaultLoops, backup: &Backup, times: f64) -> String {
    let whose = match backup.by {
        Backer::Branch(branch) => loops.run_of(branch).1,
        Backer::Blocks => "each block".to_string(),
    };
    let what = if backup.certain { "it" } else { "the likely of it, not the most," };
    format!(
        "; the {} of {} in {whose} breaks {what} and clears it within {}, {} times what this one breaks: after a dead short \
         here renew both and look at the holder",
        backup.style.name,
        backup.rating,
        backup.clears,
        Figure::number((times * 10.0).ceil() / 10.0)
    )
}

/// The fuse cannot break the fault current at its place.
pub fn check(loops: &FaultLoops, fuse: &Fuse) -> Option<Finding> {
    let (style, rating) = fuse.fitted()?;
    let (amps, likely, circuit) = (fuse.prospective.amps, fuse.prospective.likely, fuse.need.circuit);
    let breaks = breaking(style, circuit);
    let severity = fuse_grade(loops, fuse)?;
    let backup = backup_of(fuse, breaks);
    let row = style.breaking_at(circuit);
    let (run, name) = loops.run_of(fuse.branch);
    let at = loops.place_of(fuse);
    let backed = backup.map_or_else(String::new, |b| backed_words(loops, b, amps / breaks));
    let text = format!(
        "its fuse {}breaks less than a short circuit at `{at}`: the {} of {rating} in {name} breaks {breaks} at {circuit}, \
         and up to {amps}, likely {likely}, can flow{backed}",
        if backup.is_some() { "alone " } else { "" },
        style.name
    );
    let source = row.map_or_else(|| style.from.rated.words(), |b| b.from.amps.words());
    let by = backup.map_or_else(String::new, |b| {
        format!(
            "; backed up by IEC 60364-4-43, 434.5.1 (a building standard, by analogy), a note up to {BACKED_NOTE} and a \
             caution up to {BACKED_CAUTION} times its capacity (practice, no source){}",
            // Quicker than no link is counted: then its gates do not decide.
            if b.clears > LEAST { format!("; operating times upstream: {}", b.style.gates_words()) } else { String::new() }
        )
    });
    let mut finding = Finding::new(Kind::FuseBreaking, Subject::Run(run), text)
        .as_severity(severity)
        .rule(format!(
            "breaking capacity ≥ prospective current at its place, a stop where the likely one is more; breaking \
             capacity: {source}{by}; {ABYC}"
        ))
        .at(Place::run(run, "fuse_style"));
    let need = FuseNeed { starts: Starts::NONE, backed: None, ..fuse.need };
    if let Some(c) = FuseLimits::of(&loops.site.catalogue).first(None, &need) {
        let breaks = c.style.breaking_at(circuit).map_or(Amps::ZERO, |b| b.amps);
        let words = format!("a {} of {} breaks {breaks}", c.style.name, c.rating);
        let value = Some(Value::Text(c.style.key.clone()));
        finding = finding.remedy_edit(words, Place::run(run, "fuse_style"), value);
    } else if let Some((words, label)) = bigger_cable(loops, fuse) {
        finding = finding.remedy_edit(words, Place::run(run, "size"), Some(Value::Text(label)));
    }
    // What is a caution may stay one: a bank of several blocks has its own drawbacks.
    let blocks = if severity == Severity::Stop { behind_devices(loops, fuse, breaks) } else { None };
    finding.remedies.extend(blocks);
    Some(longer_way(loops, fuse, breaks, finding))
}

/// A cable that takes the smallest fuse which breaks it.
fn bigger_cable(loops: &FaultLoops, fuse: &Fuse) -> Option<(String, String)> {
    let takes = |ampacity| {
        let need = FuseNeed { ampacity, starts: Starts::NONE, backed: None, ..fuse.need };
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
    // No more cable can lie before the fuse than the run has, or than may.
    let run = loops.run(fuse.branch).map_or(Metres::ZERO, |r| r.length);
    let most = FuseLimits::of(&loops.site.catalogue).placement(loops.site).map_or(run, |p| run.min(p.enclosed));
    let finding = match lead {
        Some(metres) if metres < most.get() => finding.remedy(format!(
            "{more} more before it would bring the current down to {breaks}: {} of its own cable from the post to the fuse",
            Metres::new((metres * 100.0).ceil() / 100.0)
        )),
        _ => finding.remedy(format!("{more} more before it would bring the current down to {breaks}")),
    };
    let service = loops.is_service(fuse.branch);
    finding.remedy(if service {
        format!("or the maker's short-circuit current by the test of IEC 60896-21, where that is {breaks} or less: enter it as it is")
    } else {
        let least = fuse.prospective.internal + more;
        format!("or the maker's sheet: where it gives {least} or more inside at a short circuit, enter that")
    })
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
    let more = p.emf / allowed - p.internal - p.path - p.links;
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

#[cfg(test)]
mod tests {
    use super::*;

    /// What the rule says: a stop where the likely fault is more than the device breaks, a caution where only the most
    /// that can flow is; backed up, a note up to 2 times, a caution up to 5 times what it breaks.
    #[test]
    fn as_grave_as_the_fault_is_beyond_it() {
        let graded = |most, likely, backed| grade(Amps::new(most), Amps::new(likely), Amps::new(1000.0), backed);
        for (most, likely, alone, backed) in [
            (1000.0, 900.0, None, None),
            (1001.0, 900.0, Some(Severity::Caution), Some(Severity::Note)),
            (1100.0, 1000.0, Some(Severity::Caution), Some(Severity::Note)),
            (1100.0, 1001.0, Some(Severity::Stop), Some(Severity::Note)),
            (2000.0, 1500.0, Some(Severity::Stop), Some(Severity::Note)),
            (2001.0, 1500.0, Some(Severity::Stop), Some(Severity::Caution)),
            (5000.0, 4000.0, Some(Severity::Stop), Some(Severity::Caution)),
            (5001.0, 4000.0, Some(Severity::Stop), Some(Severity::Stop)),
            (5001.0, 900.0, Some(Severity::Caution), Some(Severity::Caution)),
        ] {
            assert_eq!(graded(most, likely, false), alone, "{most} A, likely {likely} A");
            assert_eq!(graded(most, likely, true), backed, "{most} A, likely {likely} A, backed up");
        }
    }
}
