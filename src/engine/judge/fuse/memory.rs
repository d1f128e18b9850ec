//! Note: which choices rest on figures that still want checking against the part.
//!
//! Such figures only ever add a finding; none of them takes one away that a
//! rule without them would raise.

use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::physics::fuse_link::gates::unproven;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::plan::Place;
use std::collections::BTreeSet;

/// One note for all fuses of the plan.
pub fn check<'f, 'a: 'f>(loops: &FaultLoops, fuses: impl Iterator<Item = &'f Fuse<'a>>) -> Option<Finding> {
    let (mut gates, mut breaking, mut runs) = (BTreeSet::new(), BTreeSet::new(), Vec::new());
    for fuse in fuses {
        let Some((style, _)) = fuse.fitted() else { continue };
        let by_gates = !style.gates.is_empty() && unproven(style);
        let row = style.breaking_at(fuse.need.circuit).filter(|_| fuse.prospective.amps.get() > 0.0);
        let by_breaking = row.is_some_and(|b| b.from.amps.is_memory());
        if by_gates {
            gates.insert(style.name.as_str());
        }
        if by_breaking {
            breaking.insert(style.name.as_str());
        }
        if by_gates || by_breaking {
            runs.push(loops.run_of(fuse.branch).0);
        }
    }
    let (first, count) = (runs.iter().min()?, runs.len());
    let list = |names: &BTreeSet<&str>| names.iter().copied().collect::<Vec<_>>().join("; ");
    let mut parts = Vec::new();
    if !gates.is_empty() {
        parts.push(format!("operating times of {}", list(&gates)));
    }
    if !breaking.is_empty() {
        parts.push(format!("breaking capacity of {}", list(&breaking)));
    }
    let styles = gates.union(&breaking).count();
    let text = format!("{count} fuses rest on figures from memory or practice: {}", parts.join(", and "));
    Some(
        Finding::new(Kind::GateMemory, Subject::Plan, text)
            .rule("starts, far-end faults, let-through and selectivity are judged by operating times; the maker's curve rules")
            .at(Place::run(*first, "fuse_style"))
            .remedy(format!(
                "read the data sheets of the styles bought ({styles}) and put their figures into `fuse-links` of your own profiles"
            )),
    )
}
