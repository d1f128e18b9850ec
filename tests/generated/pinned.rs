//! A plan with all that was chosen of its wiring entered as given.

use loomwright::engine::Design;
use loomwright::plan::Plan;

/// Sizes of runs and leads, and the devices of those that have one.
pub fn pinned(plan: &Plan, design: &Design) -> Plan {
    let mut given = plan.clone();
    let of = |run: usize| {
        let chosen = design.runs.get(run);
        let size = chosen.and_then(|r| r.size.as_ref()).map(|s| s.label.clone());
        // One rating is given for both ends of a run.
        let fuse = chosen.filter(|r| r.fuses.len() == 1).and_then(|r| r.fuses.first());
        (size, fuse.and_then(|f| f.rating), fuse.map(|f| f.style.clone()))
    };
    for (index, run) in given.runs.iter_mut().enumerate() {
        let (size, fuse, style) = of(index);
        run.size = size;
        if fuse.is_some() {
            (run.fuse, run.fuse_style) = (fuse, style);
        }
    }
    for (index, load) in given.loads.iter_mut().enumerate() {
        if let Some(lead) = design.installation.lead_of(index) {
            let (size, fuse, _) = of(lead);
            // Where several share a way, its device stands before their leads.
            let circuits = &design.installation.circuits;
            let before = circuits.index_of(lead).and_then(|b| circuits.branches[b].parent);
            let way = before.map(|b| circuits.branches[b].run).filter(|run| *run >= plan.runs.len());
            let shared = way.and_then(|run| of(run).1);
            (load.lead.size, load.lead.fuse) = (size, fuse.or(shared).or(load.lead.fuse));
        }
    }
    given
}
