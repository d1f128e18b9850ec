//! What hangs on a panel: the short cables from it to each load are not runs of
//! the plan, so nobody has sized or fused them yet. This says so, with numbers.

use super::book::Book;
use super::budget::Budget;
use super::finding::{Finding, Kind};
use super::run::RunDesign;
use super::subject::Subject;
use super::topology::Topology;
use crate::plan::{Place, Plan};
use crate::quantity::Amps;
use std::collections::BTreeMap;

/// A note for each point that feeds several loads over one fuse.
pub(super) fn panels(plan: &Plan, topology: &Topology, runs: &[RunDesign], budget: &Budget, book: &mut Book) {
    let mut at: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (i, load) in plan.loads.iter().enumerate().filter(|(_, l)| !l.inverter && l.count > 0) {
        at.entry(&load.at).or_default().push(i);
    }
    for (point, loads) in at.into_iter().filter(|(_, loads)| loads.len() > 1) {
        let Some(run) = topology.to_point.get(point).and_then(|&b| topology.branches.get(b)).map(|b| b.run) else {
            continue;
        };
        let Some(fuse) = runs.get(run).and_then(|r| r.fuses.iter().find(|f| !f.far_end)?.rating) else { continue };
        let running = |i: &usize| budget.loads.get(*i).map_or(Amps::ZERO, |b| b.running);
        let Some(small) = loads.iter().copied().min_by(|a, b| running(a).get().total_cmp(&running(b).get())) else {
            continue;
        };
        let text = format!(
            "the cables from `{point}` to its {} loads are not in this plan; the fuse of {fuse} before it protects none that \
             is thinner than R{}'s, and {} draws only {}",
            loads.len(),
            run + 1,
            plan.loads[small].name,
            running(&small)
        );
        book.find(
            Finding::new(Kind::PanelFuses, Subject::Point(point.into()), text)
                .rule("a fuse wherever a cable becomes thinner, as every end with a source: 33 CFR 183.455")
                .at(Place::load(small, "at"))
                .remedy(format!(
                    "give each of the {} its own fuse at `{point}`, no larger than its cable carries",
                    loads.len()
                ))
                .remedy(format!("or plan the cable to {} as 1 run of its own", plan.loads[small].name)),
        );
    }
}
