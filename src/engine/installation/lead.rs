//! Which cable joins a load to the board it hangs on?
//!
//! A lead is a run from the board to one load, with a device of its own at the
//! board. It is sized, fused, solved, cut and labelled like every run: only
//! where it is entered differs, which is with its load. Loads that give no
//! length of a lead hang on their point as it is.

use crate::plan::{Lead, Load, Place, Plan, Run, Section};
use crate::quantity::Metres;

/// The runs of a plan with a run for each lead behind them, and where the loads hang then.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wired {
    /// The plan's own runs, then the leads.
    pub runs: Vec<Run>,
    /// The loads, each at the end of its lead where it has one.
    pub loads: Vec<Load>,
    /// Which load each run beyond the plan's own leads to.
    pub leads: Vec<usize>,
}

/// Add the leads of a plan to its runs.
pub fn wired(plan: &Plan) -> Wired {
    let (mut runs, mut loads, mut leads) = (plan.runs.clone(), plan.loads.clone(), Vec::new());
    for (index, load) in plan.loads.iter().enumerate() {
        let Some(length) = load.lead.length.filter(|_| !load.inverter && load.count > 0) else { continue };
        let end = end_of(plan, load);
        runs.push(run(plan, load, length, &end));
        loads[index].at = end;
        leads.push(index);
    }
    Wired { runs, loads, leads }
}

/// The point at the end of a lead: the load's name, made different where a point is called so.
fn end_of(plan: &Plan, load: &Load) -> String {
    let taken = |name: &str| {
        plan.runs.iter().any(|r| r.from == name || r.to == name) || plan.boards.iter().any(|b| b.name == name)
    };
    if taken(&load.name) { format!("{} (its terminals)", load.name) } else { load.name.clone() }
}

fn run(plan: &Plan, load: &Load, length: Metres, end: &str) -> Run {
    let Lead { size, fuse, insulation, surroundings, bundled_with, .. } = load.lead.clone();
    let board = plan.boards.iter().find(|b| b.name == load.at);
    Run {
        name: format!("{} lead", load.name),
        from: load.at.clone(),
        to: end.into(),
        length,
        size,
        insulation,
        surroundings,
        bundled_with,
        fuse,
        fuse_style: board.and_then(|b| b.style.clone()),
        // The device sits in its way of the board.
        fuse_distance: if board.is_some() { Metres::ZERO } else { Run::default().fuse_distance },
        ..Run::default()
    }
}

/// Where a field of a lead's run stands in the plan: with the load. `None` for what a load has no field for.
pub fn place_of(leads: &[usize], own_runs: usize, place: Place) -> Option<Place> {
    let load = match place.section {
        Section::Run => place.index.checked_sub(own_runs).and_then(|lead| leads.get(lead)).copied(),
        _ => None,
    };
    let Some(load) = load else { return Some(place) };
    let key = match place.key {
        "length_m" => "lead_m",
        "size" => "lead_size",
        "fuse_a" => "lead_fuse_a",
        "insulation" => "lead_insulation",
        "surroundings" => "lead_surroundings",
        "bundled_with" => "lead_bundled_with",
        "from" => "at",
        "name" | "to" => "name",
        _ => return None,
    };
    Some(Place::load(load, key))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Board;

    fn plan() -> Plan {
        let lead = Lead { length: Some(Metres::new(3.0)), ..Lead::default() };
        let load = |name: &str| Load { name: name.into(), at: "rear".into(), lead: lead.clone(), ..Load::default() };
        Plan {
            boards: vec![Board { name: "rear".into(), style: Some("blade-c".into()), ..Board::default() }],
            loads: vec![
                load("lamp"),
                Load { name: "radio".into(), at: "rear".into(), ..Load::default() },
                load("rear"),
            ],
            runs: vec![Run { from: "service battery".into(), to: "rear".into(), ..Run::default() }],
            ..Plan::default()
        }
    }

    #[test]
    fn a_lead_is_a_run_from_the_board_to_its_load() {
        let plan = plan();
        let wired = wired(&plan);
        assert_eq!(wired.leads, [0, 2]);
        let ends: Vec<_> = wired.runs[1..].iter().map(|r| (r.from.as_str(), r.to.as_str())).collect();
        assert_eq!(ends, [("rear", "lamp"), ("rear", "rear (its terminals)")]);
        assert_eq!(
            wired.loads.iter().map(|l| l.at.as_str()).collect::<Vec<_>>(),
            ["lamp", "rear", "rear (its terminals)"]
        );
        assert_eq!(wired.runs[1].fuse_style.as_deref(), Some("blade-c"));
    }

    #[test]
    fn what_mends_a_lead_stands_with_its_load() {
        let leads = [0, 2];
        assert_eq!(place_of(&leads, 1, Place::run(2, "size")), Some(Place::load(2, "lead_size")));
        assert_eq!(place_of(&leads, 1, Place::run(0, "size")), Some(Place::run(0, "size")));
        assert_eq!(place_of(&leads, 1, Place::run(1, "own_fuse")), None);
    }
}
