//! Which cable joins a load to the board it hangs on?
//!
//! A lead is a run from the board to one load, with a device of its own at the
//! board. It is sized, fused, solved, cut and labelled like every run: only
//! where it is entered differs, which is with its load. Loads that give no
//! length of a lead hang on their point as it is. Loads of a board that share a
//! way share its device: the way is a run without length, their leads begin
//! behind it and have no device of their own.

use crate::engine::installation::load::NOMINAL;
use crate::engine::installation::number;
use crate::plan::{Lead, Load, Place, Plan, Run, Section};
use crate::quantity::{Amps, Metres, Watts};

/// The runs of a plan with a run for each lead behind them, and where the loads hang then.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wired {
    /// The plan's own runs, then ways that are shared and leads.
    pub runs: Vec<Run>,
    /// The loads, each at the end of its lead where it has one.
    pub loads: Vec<Load>,
    /// What each run beyond the plan's own is.
    pub beyond: Vec<Beyond>,
}

/// What a run beyond the plan's own is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beyond {
    /// The lead of this load.
    Lead(usize),
    /// The way of a board that several leads share: the first of their loads.
    Way(usize),
}

impl Beyond {
    /// The load with which it is entered.
    pub fn load(self) -> usize {
        match self {
            Beyond::Lead(load) | Beyond::Way(load) => load,
        }
    }
}

/// Add the leads of a plan to its runs.
pub fn wired(plan: &Plan) -> Wired {
    let mut out = Wired { runs: plan.runs.clone(), loads: plan.loads.clone(), beyond: Vec::new() };
    for (index, load) in plan.loads.iter().enumerate() {
        let Some(length) = length_of(load) else { continue };
        let sharing = sharing(plan, load);
        if sharing.first().is_some_and(|first| std::ptr::eq(*first, load)) {
            out.runs.push(way(plan, &sharing));
            out.beyond.push(Beyond::Way(index));
        }
        let end = end_of(plan, load);
        out.runs.push(lead(plan, load, length, &end, !sharing.is_empty()));
        out.beyond.push(Beyond::Lead(index));
        out.loads[index].at = end;
    }
    let devices: Vec<bool> = out.beyond.iter().map(|b| matches!(b, Beyond::Way(_))).collect();
    // That of a way that only one load has for now stays free for when it is shared.
    let kept = plan.loads.iter().filter_map(|l| l.lead.way_number);
    number::number(&mut out.runs, &devices, kept);
    out
}

/// How long its lead is, where it has one.
fn length_of(load: &Load) -> Option<Metres> {
    load.lead.length.filter(|_| !load.inverter && load.count > 0)
}

/// The loads with a lead that share the way of this one, itself among them; none when it has a way to itself.
fn sharing<'a>(plan: &'a Plan, load: &Load) -> Vec<&'a Load> {
    let Some(word) = load.way.as_ref().filter(|word| !word.is_empty()) else { return Vec::new() };
    let shares = |l: &&Load| l.way.as_ref() == Some(word) && l.at == load.at && length_of(l).is_some();
    let all: Vec<&Load> = plan.loads.iter().filter(shares).collect();
    if all.len() > 1 { all } else { Vec::new() }
}

/// The point at the end of a lead: the load's name, made different where a point is called so.
fn end_of(plan: &Plan, load: &Load) -> String {
    if taken(plan, &load.name) { format!("{} (its terminals)", load.name) } else { load.name.clone() }
}

/// The point behind the device of a way that is shared.
fn behind(load: &Load) -> String {
    format!("{}: {}", load.at, load.way.as_deref().unwrap_or_default())
}

fn taken(plan: &Plan, name: &str) -> bool {
    plan.runs.iter().any(|r| r.from == name || r.to == name) || plan.boards.iter().any(|b| b.name == name)
}

/// The device of a way that several leads share, as a run without length.
fn way(plan: &Plan, sharing: &[&Load]) -> Run {
    let Some(first) = sharing.first() else { return Run::default() };
    let draws = |l: &&Load| l.power.map_or(Amps::ZERO, |p: Watts| p / NOMINAL).max(l.current.unwrap_or(Amps::ZERO));
    let sockets = sharing.iter().any(|l| l.socket.is_some());
    let all = || sharing.iter().map(|l| l.socket.unwrap_or(draws(l) * f64::from(l.count))).sum();
    let given = sharing.iter().filter_map(|l| l.lead.fuse).min_by(|a, b| a.get().total_cmp(&b.get()));
    Run {
        name: format!("way {}", first.way.as_deref().unwrap_or_default()),
        number: sharing.iter().find_map(|l| l.lead.way_number),
        from: first.at.clone(),
        to: behind(first),
        length: Metres::ZERO,
        fuse: given,
        current: sockets.then(all),
        joints: 0,
        insulation: first.lead.insulation.clone(),
        surroundings: first.lead.surroundings.clone(),
        ..at_board(plan, first)
    }
}

fn lead(plan: &Plan, load: &Load, length: Metres, end: &str, shared: bool) -> Run {
    let Lead { size, fuse, insulation, surroundings, bundled_with, return_path, passes, number, .. } =
        load.lead.clone();
    Run {
        name: format!("{} lead", load.name),
        from: if shared { behind(load) } else { load.at.clone() },
        to: end.into(),
        length,
        size,
        insulation,
        surroundings,
        bundled_with,
        return_path,
        passes,
        own_fuse: !shared,
        fuse: fuse.filter(|_| !shared),
        current: load.socket,
        number,
        ..at_board(plan, load)
    }
}

/// A run that begins at the point of a load: at a board its device sits in its way.
fn at_board(plan: &Plan, load: &Load) -> Run {
    let board = plan.boards.iter().find(|b| b.name == load.at);
    let usual = Run::default();
    Run {
        fuse_style: board.and_then(|b| b.style.clone()),
        fuse_distance: if board.is_some() { Metres::ZERO } else { usual.fuse_distance },
        ..usual
    }
}

/// Where a field of a run stands in the plan: of a lead with its load, of a shared way with the first of its
/// loads. `None` for what a load has no field for.
pub fn place_of(beyond: &[Beyond], own_runs: usize, place: Place) -> Option<Place> {
    let found = match place.section {
        Section::Run => place.index.checked_sub(own_runs).and_then(|n| beyond.get(n)).copied(),
        _ => None,
    };
    let Some(found) = found else { return Some(place) };
    let key = match (found, place.key) {
        (_, "fuse_a") => "lead_fuse_a",
        (_, "from") => "at",
        (Beyond::Way(_), "name" | "to") => "way",
        (Beyond::Way(_), "number") => "way_number",
        (Beyond::Way(_), _) => return None,
        (_, "length_m") => "lead_m",
        (_, "size") => "lead_size",
        (_, "insulation") => "lead_insulation",
        (_, "surroundings") => "lead_surroundings",
        (_, "bundled_with") => "lead_bundled_with",
        (_, "return") => "lead_return",
        (_, "passes") => "lead_passes",
        (_, "current_a") => "socket_a",
        (_, "name" | "to") => "name",
        (_, "number") => "lead_number",
        _ => return None,
    };
    Some(Place::load(found.load(), key))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Board, Outfit};

    fn plan() -> Plan {
        let lead = Lead { length: Some(Metres::new(3.0)), ..Lead::default() };
        let load = |name: &str| Load { name: name.into(), at: "rear".into(), lead: lead.clone(), ..Load::default() };
        Plan {
            outfit: Outfit {
                boards: vec![Board { name: "rear".into(), style: Some("blade-c".into()), ..Board::default() }],
                ..Outfit::default()
            },
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
        assert_eq!(wired.beyond, [Beyond::Lead(0), Beyond::Lead(2)]);
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
        let leads = [Beyond::Lead(0), Beyond::Lead(2), Beyond::Way(1)];
        assert_eq!(place_of(&leads, 1, Place::run(2, "size")), Some(Place::load(2, "lead_size")));
        assert_eq!(place_of(&leads, 1, Place::run(0, "size")), Some(Place::run(0, "size")));
        assert_eq!(place_of(&leads, 1, Place::run(1, "own_fuse")), None);
        assert_eq!(place_of(&leads, 1, Place::run(3, "fuse_a")), Some(Place::load(1, "lead_fuse_a")));
        assert_eq!(place_of(&leads, 1, Place::run(3, "size")), None);
    }

    #[test]
    fn loads_of_one_way_share_its_device() {
        let mut plan = plan();
        for load in [0, 2] {
            plan.loads[load].way = Some("light".into());
        }
        plan.loads[2].lead.fuse = Some(Amps::new(5.0));
        let wired = wired(&plan);
        assert_eq!(wired.beyond, [Beyond::Way(0), Beyond::Lead(0), Beyond::Lead(2)]);
        let ends: Vec<_> =
            wired.runs[1..].iter().map(|r| (r.from.as_str(), r.to.as_str(), r.own_fuse, r.fuse)).collect();
        assert_eq!(
            ends,
            [
                ("rear", "rear: light", true, Some(Amps::new(5.0))),
                ("rear: light", "lamp", false, None),
                ("rear: light", "rear (its terminals)", false, None),
            ]
        );
        // Alone in its way it has a device of its own.
        plan.loads[2].way = None;
        assert_eq!(super::wired(&plan).beyond, [Beyond::Lead(0), Beyond::Lead(2)]);
    }
}
