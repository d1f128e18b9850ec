//! Which way may imports run? Between the houses, between the rooms of the engine, and never in a circle.

use crate::source::{File, House};
use std::collections::{BTreeMap, BTreeSet};

/// Each house with those it stands on.
const HOUSES: &[(&str, &[&str])] = &[
    ("quantity", &[]),
    ("catalogue", &["quantity"]),
    ("plan", &["quantity", "catalogue"]),
    ("engine", &["quantity", "catalogue", "plan"]),
    ("papers", &["quantity", "catalogue", "plan", "engine"]),
    ("screens", &["quantity", "catalogue", "plan", "engine"]),
    ("command", &["quantity", "catalogue", "plan", "engine", "papers", "screens"]),
    ("main", &["command"]),
    ("lib", &[]),
];

/// The rooms of the engine from the top down: each may import those below it.
const ROOMS: &[&str] = &["ask", "design", "choose", "judge", "simulate", "parts", "installation", "physics"];

/// Files and folders of the engine that are in no room yet. This list only shrinks.
const NOT_YET_HOUSED: &[&str] = &[
    "battery",
    "book",
    "budget",
    "carrier",
    "cases",
    "charger",
    "conductor",
    "copper",
    "cut_off",
    "endurance",
    "finding",
    "network",
    "panel",
    "plan_network",
    "protection",
    "run",
    "sizing",
    "starts",
    "subject",
    "sun",
    "surroundings",
    "test_sheet",
    "topology",
    "uncertainty",
    "working",
    "workshop",
];

/// Parts of the source whose files still import each other in a circle. This list only shrinks.
const KNOWN_CIRCLES: &[&str] = &[
    "catalogue",
    "engine/battery",
    "engine/budget",
    "engine/carrier",
    "engine/cases",
    "engine/charger",
    "engine/cut_off",
    "engine/design",
    "engine/endurance",
    "engine/mod",
    "engine/network",
    "engine/plan_network",
    "engine/protection",
    "engine/sizing",
    "engine/test_sheet",
    "engine/topology",
    "engine/uncertainty",
    "engine/workshop",
    "papers/json",
];

/// Rooms that may read a plan.
const PLAN_READERS: &[&str] = &["installation", "design", "ask"];

/// Files of the engine outside those rooms that read one still. This list only shrinks.
const STILL_READS_A_PLAN: &[&str] = &[
    "engine/battery/candidates.rs",
    "engine/battery/checks.rs",
    "engine/battery/criteria.rs",
    "engine/battery/mod.rs",
    "engine/battery/sizes.rs",
    "engine/battery/working.rs",
    "engine/budget/checks.rs",
    "engine/budget/day.rs",
    "engine/budget/mod.rs",
    "engine/budget/peak.rs",
    "engine/budget/working.rs",
    "engine/carrier/judge.rs",
    "engine/carrier/mod.rs",
    "engine/carrier/strength.rs",
    "engine/charger/alternator.rs",
    "engine/charger/balance.rs",
    "engine/charger/bounds.rs",
    "engine/charger/checks.rs",
    "engine/charger/feed.rs",
    "engine/charger/mod.rs",
    "engine/charger/relay.rs",
    "engine/charger/rush.rs",
    "engine/charger/sources.rs",
    "engine/charger/unmet.rs",
    "engine/charger/voltages.rs",
    "engine/charger/working.rs",
    "engine/conductor/laid.rs",
    "engine/cut_off/checks.rs",
    "engine/cut_off/mod.rs",
    "engine/cut_off/path.rs",
    "engine/cut_off/rest.rs",
    "engine/cut_off/starter.rs",
    "engine/cut_off/wiring.rs",
    "engine/cut_off/working.rs",
    "engine/endurance/checks.rs",
    "engine/endurance/mod.rs",
    "engine/endurance/scenario.rs",
    "engine/endurance/working.rs",
    "engine/panel.rs",
    "engine/plan_network.rs",
    "engine/protection/ground.rs",
    "engine/protection/grow.rs",
    "engine/protection/link.rs",
    "engine/protection/mod.rs",
    "engine/protection/sources.rs",
    "engine/sizing/assortments.rs",
    "engine/sizing/candidate.rs",
    "engine/sizing/demand.rs",
    "engine/sizing/fuse_room.rs",
    "engine/sizing/levels.rs",
    "engine/sizing/loss.rs",
    "engine/sizing/pick.rs",
    "engine/sizing/question.rs",
    "engine/sizing/rows.rs",
    "engine/sizing/size_workings.rs",
    "engine/sizing/strip.rs",
    "engine/sizing/work_out.rs",
    "engine/subject.rs",
    "engine/surroundings.rs",
    "engine/test_sheet/flow.rs",
    "engine/test_sheet/judge.rs",
    "engine/test_sheet/meter.rs",
    "engine/test_sheet/mod.rs",
    "engine/test_sheet/segment.rs",
    "engine/topology/grow.rs",
    "engine/uncertainty/mod.rs",
    "engine/workshop/control.rs",
    "engine/workshop/cut.rs",
    "engine/workshop/parts.rs",
];

/// One arrow: who imports whom, and in which line.
struct Arrow<'a> {
    from: &'a File,
    to: &'a File,
    line: usize,
    name: String,
}

impl Arrow<'_> {
    fn says(&self, what: &str) -> String {
        format!("{}:{}: `{}`: {what}", self.from.name, self.line, self.name)
    }
}

fn arrows(house: &House) -> Vec<Arrow<'_>> {
    let of = |from| {
        let arrow = move |name: &crate::source::Name| {
            let to = house.target(&name.path)?;
            Some(Arrow { from, to, line: name.line, name: name.path.join("::") })
        };
        from.names.iter().filter_map(arrow).filter(|a| a.from.name != a.to.name)
    };
    house.production().flat_map(of).collect()
}

/// An arrow from a house to one that it does not stand on.
pub fn between_houses(house: &House) -> Vec<String> {
    let mut wrong = Vec::new();
    for arrow in arrows(house) {
        let (from, to) = (arrow.from.house(), arrow.to.house());
        match HOUSES.iter().find(|(name, _)| *name == from) {
            Some((_, below)) if from == to || below.contains(&to) => {}
            Some(_) => wrong.push(arrow.says(&format!("`{from}` may not import `{to}`"))),
            None => wrong.push(arrow.says(&format!("`{from}` is no house of the drawing"))),
        }
    }
    // The program itself imports the library by its name.
    for file in house.production().filter(|f| f.house() == "main") {
        let by_name = |n: &&crate::source::Name| n.path.first().is_some_and(|first| first == "loomwright");
        for name in file.names.iter().filter(by_name).filter(|n| n.path.get(1).is_none_or(|h| h != "command")) {
            wrong.push(format!("{}:{}: `{}`: `main` only hands over", file.name, name.line, name.path.join("::")));
        }
    }
    wrong
}

/// The room of a file of the engine: `None` for its front, and for what is in no room.
fn room(file: &File) -> Option<usize> {
    let part = part(file)?;
    ROOMS.iter().position(|r| *r == part)
}

/// The first folder or file below `engine`; `None` for other houses and for the engine's front.
fn part(file: &File) -> Option<&str> {
    match file.module.as_slice() {
        [engine, part, ..] if engine == "engine" => Some(part),
        _ => None,
    }
}

/// An arrow from a room of the engine to a higher one, and files in no room.
pub fn between_rooms(house: &House, not_yet: &[&str]) -> Vec<String> {
    let mut wrong: Vec<String> = arrows(house)
        .iter()
        .filter(|a| matches!((room(a.from), room(a.to)), (Some(from), Some(to)) if to < from))
        .map(|a| a.says(&format!("an arrow upward from `{}` to `{}`", part(a.from).unwrap(), part(a.to).unwrap())))
        .collect();
    let outside: BTreeSet<&str> = house.production().filter(|f| room(f).is_none()).filter_map(part).collect();
    let unknown = outside.iter().filter(|p| !not_yet.contains(p));
    wrong.extend(unknown.map(|p| format!("src/engine/{p} is in no room of the engine")));
    wrong.extend(stale("NOT_YET_HOUSED", not_yet, |p| outside.contains(p)));
    wrong
}

/// Files that import each other, directly or by others.
pub fn circles(house: &House, known: &[&str]) -> Vec<String> {
    let mut next: BTreeMap<&str, BTreeMap<&str, usize>> = BTreeMap::new();
    for a in arrows(house) {
        next.entry(&a.from.name).or_default().entry(&a.to.name).or_insert(a.line);
    }
    let mut found = Vec::new();
    let mut seen = BTreeSet::new();
    let mut used: BTreeSet<&str> = BTreeSet::new();
    for file in house.production() {
        let Some(way) = way_back(&next, &file.name) else { continue };
        let part = known.iter().find(|k| file.name.strip_prefix(**k).is_some_and(|r| r.starts_with(['/', '.'])));
        used.extend(part);
        if part.is_none() && seen.insert(way.iter().copied().collect::<BTreeSet<_>>()) {
            let step = |pair: &[&str]| format!("{}:{}", pair[0], next[pair[0]][pair[1]]);
            let steps: Vec<String> = way.windows(2).map(step).collect();
            found.push(format!("a circle of {} files: {} -> {}", steps.len(), steps.join(" -> "), file.name));
        }
    }
    found.extend(stale("KNOWN_CIRCLES", known, |k| used.contains(k)));
    found
}

/// The shortest way from a file over its imports back to it.
fn way_back<'a>(next: &BTreeMap<&'a str, BTreeMap<&'a str, usize>>, start: &'a str) -> Option<Vec<&'a str>> {
    let mut came_from: BTreeMap<&str, &str> = BTreeMap::new();
    let mut wave = vec![start];
    while !wave.is_empty() {
        let mut further = Vec::new();
        for at in wave {
            for &to in next.get(at).into_iter().flat_map(BTreeMap::keys) {
                if to == start {
                    let mut way = vec![start, at];
                    while let Some(before) = came_from.get(way[way.len() - 1]) {
                        way.push(before);
                    }
                    way.reverse();
                    return Some(way);
                }
                if !came_from.contains_key(to) && to != start {
                    came_from.insert(to, at);
                    further.push(to);
                }
            }
        }
        wave = further;
    }
    None
}

/// A file of the engine that names a `Plan`, outside the rooms that may.
pub fn plan_readers(house: &House, still: &[&str]) -> Vec<String> {
    let mut wrong = Vec::new();
    let mut used = BTreeSet::new();
    for file in house.production().filter(|f| f.house() == "engine") {
        if part(file).is_some_and(|p| PLAN_READERS.contains(&p)) {
            continue;
        }
        let names_it = |path: &[String]| match path {
            [krate, plan, .., last] if krate == "crate" && plan == "plan" => last == "Plan" || last == "*",
            _ => false,
        };
        for name in &file.names {
            let mut path = name.path.clone();
            path.extend(name.glob.then(|| "*".to_string()));
            if names_it(&path) {
                match still.iter().find(|s| **s == file.name) {
                    Some(known) => drop(used.insert(*known)),
                    None => wrong.push(format!("{}:{}: only `installation` reads a `Plan`", file.name, name.line)),
                }
            }
        }
    }
    wrong.extend(stale("STILL_READS_A_PLAN", still, |s| used.contains(s)));
    wrong
}

/// Entries of a shrinking list that are not needed any more.
fn stale(list: &str, entries: &[&str], needed: impl Fn(&&str) -> bool) -> Vec<String> {
    entries.iter().filter(|e| !needed(e)).map(|e| format!("`{e}` is done: take it out of {list}")).collect()
}

/// All of it, with what is known of today.
pub fn all(house: &House) -> Vec<String> {
    let mut wrong = between_houses(house);
    wrong.extend(between_rooms(house, NOT_YET_HOUSED));
    wrong.extend(circles(house, KNOWN_CIRCLES));
    wrong.extend(plan_readers(house, STILL_READS_A_PLAN));
    wrong
}
