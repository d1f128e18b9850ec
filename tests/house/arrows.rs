//! Which way may imports run? Between the houses, between the rooms of the engine, and never in a circle.

use crate::fault::Fault;
use crate::source::{File, House, Name};
use std::collections::BTreeMap;

/// Each house with those it stands on.
const HOUSES: &[(&str, &[&str])] = &[
    ("quantity", &[]),
    ("catalogue", &["quantity"]),
    ("plan", &["quantity", "catalogue"]),
    ("engine", &["quantity", "catalogue", "plan"]),
    ("log", &["quantity", "plan", "engine"]),
    ("papers", &["quantity", "catalogue", "plan", "engine"]),
    ("screens", &["quantity", "catalogue", "plan", "engine", "log", "papers"]),
    ("command", &["quantity", "catalogue", "plan", "engine", "log", "papers", "screens"]),
    ("main", &["command"]),
    ("lib", &[]),
];

/// The rooms of the engine from the top down: each may import those below it.
const ROOMS: &[&str] = &["ask", "design", "choose", "judge", "simulate", "parts", "installation", "physics"];

/// Rooms that may read a plan.
const PLAN_READERS: &[&str] = &["installation", "design", "ask"];

/// One arrow: who imports whom, and in which line.
struct Arrow<'a> {
    from: &'a File,
    to: &'a File,
    line: usize,
    name: String,
}

impl Arrow<'_> {
    fn fault(&self, what: &str) -> Fault {
        Fault::new(&self.from.name, format!("line {}: `{}`: {what}", self.line, self.name))
    }
}

fn arrows(house: &House) -> Vec<Arrow<'_>> {
    let of = |from| {
        let arrow = move |name: &Name| {
            let to = house.target(&name.path)?;
            Some(Arrow { from, to, line: name.line, name: name.path.join("::") })
        };
        from.names.iter().filter_map(arrow).filter(|a| a.from.name != a.to.name)
    };
    house.production().flat_map(of).collect()
}

/// An arrow from a house to one that it does not stand on.
pub fn between_houses(house: &House) -> Vec<Fault> {
    let mut wrong = Vec::new();
    for arrow in arrows(house) {
        let (from, to) = (arrow.from.house(), arrow.to.house());
        match HOUSES.iter().find(|(name, _)| *name == from) {
            Some((_, below)) if from == to || below.contains(&to) => {}
            Some(_) => wrong.push(arrow.fault(&format!("`{from}` may not import `{to}`"))),
            None => wrong.push(arrow.fault(&format!("`{from}` is no house of the drawing"))),
        }
    }
    // The program itself imports the library by its name.
    for file in house.production().filter(|f| f.house() == "main") {
        let by_name = |n: &&Name| n.path.first().is_some_and(|first| first == "loomwright");
        for name in file.names.iter().filter(by_name).filter(|n| n.path.get(1).is_none_or(|h| h != "command")) {
            let words = format!("line {}: `{}`: `main` only hands over", name.line, name.path.join("::"));
            wrong.push(Fault::new(&file.name, words));
        }
    }
    wrong
}

/// The first folder or file below `engine`; `None` for other houses and for the engine's front.
fn part(file: &File) -> Option<&str> {
    match file.module.as_slice() {
        [engine, part, ..] if engine == "engine" => Some(part),
        _ => None,
    }
}

fn room(file: &File) -> Option<usize> {
    ROOMS.iter().position(|r| Some(*r) == part(file))
}

/// An arrow from a room of the engine to a higher one, and files in no room.
pub fn between_rooms(house: &House) -> Vec<Fault> {
    let mut wrong = Vec::new();
    for arrow in arrows(house) {
        if let (Some(from), Some(to)) = (room(arrow.from), room(arrow.to))
            && to < from
        {
            wrong.push(arrow.fault(&format!("an arrow upward from `{}` to `{}`", ROOMS[from], ROOMS[to])));
        }
    }
    for file in house.production().filter(|f| part(f).is_some() && room(f).is_none()) {
        wrong.push(Fault::new(&file.name, "it is in no room of the engine".into()));
    }
    wrong
}

/// Files that import each other, directly or by others.
pub fn circles(house: &House) -> Vec<Fault> {
    let mut next: BTreeMap<&str, BTreeMap<&str, usize>> = BTreeMap::new();
    for a in arrows(house) {
        next.entry(&a.from.name).or_default().entry(&a.to.name).or_insert(a.line);
    }
    let circle = |file: &File| {
        let way = way_back(&next, &file.name)?;
        let steps: Vec<String> = way.windows(2).map(|w| format!("{}:{}", w[0], next[w[0]][w[1]])).collect();
        let words = format!("a circle of {} files: {} -> {}", steps.len(), steps.join(" -> "), file.name);
        Some(Fault::new(&file.name, words))
    };
    house.production().filter_map(circle).collect()
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
                if !came_from.contains_key(to) {
                    came_from.insert(to, at);
                    further.push(to);
                }
            }
        }
        wave = further;
    }
    None
}

/// Files of the engine that name a `Plan`, outside the rooms that may.
pub fn plan_readers(house: &House) -> Vec<Fault> {
    let names_it = |name: &&Name| {
        name.path.starts_with(&["crate".into(), "plan".into()]) && (name.glob || name.path.last().unwrap() == "Plan")
    };
    let outside = |f: &&File| f.house() == "engine" && !part(f).is_some_and(|p| PLAN_READERS.contains(&p));
    let reads = |file: &File| {
        let line = file.names.iter().find(names_it)?.line;
        Some(Fault::new(&file.name, format!("line {line}: only `installation` reads a `Plan`")))
    };
    house.production().filter(outside).filter_map(reads).collect()
}

/// All of it.
pub fn all(house: &House) -> Vec<Fault> {
    [between_houses(house), between_rooms(house), circles(house), plan_readers(house)].concat()
}
