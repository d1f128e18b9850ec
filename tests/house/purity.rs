//! What may the engine not touch, and which code may not be there at all?

use crate::source::House;
use std::collections::BTreeMap;

/// Disk, clock, environment, terminal, chance: the engine gets what it needs as values.
const OUTSIDE: &[&str] = &[
    "std::fs",
    "std::env",
    "std::time::SystemTime",
    "std::time::Instant",
    "std::io",
    "std::net",
    "std::process",
    "std::thread",
    "crossterm",
    "ratatui",
    "rand::rng",
    "rand::random",
    "rand::thread_rng",
    "rand::rngs::OsRng",
    "rand::rngs::ThreadRng",
];

/// What prints, or keeps something for the whole program.
const MARKS: &[&str] = &["print!", "println!", "eprint!", "eprintln!", "dbg!", "thread_local!", "static mut"];

/// Words that bring in chance or globals whatever they are imported as.
const WORDS: &[&str] = &["thread_rng", "OsRng", "ThreadRng", "from_os_rng", "from_entropy"];

/// Files of the engine that may still use one of these. This list only shrinks.
const STILL_OUTSIDE: &[(&str, &str)] = &[("engine/uncertainty/mod.rs", "std::thread")];

/// Functions that only the tests call, each with the reason why it is there.
const FOR_TESTS: &[(&str, &str)] = &[
    ("embedded", "the catalogue as it is shipped, with which every test begins"),
    ("words_need", "what a drawing must have room for; drawing itself needs only where"),
    ("ideal_time", UNTIL_REBUILT),
    ("peukert_time_one_amp", UNTIL_REBUILT),
    ("peukert_exponent", UNTIL_REBUILT),
    ("gravity_at_80f", UNTIL_REBUILT),
    ("loop_current", UNTIL_REBUILT),
    ("one_way", UNTIL_REBUILT),
    ("delivered_at", UNTIL_REBUILT),
    ("discharge", UNTIL_REBUILT),
    ("charge_at_voltage", UNTIL_REBUILT),
    ("energy_missing", UNTIL_REBUILT),
    ("load_multiple", UNTIL_REBUILT),
    ("drop_along", UNTIL_REBUILT),
    ("area_for_drop", UNTIL_REBUILT),
    ("length_for_drop", UNTIL_REBUILT),
    ("relative", UNTIL_REBUILT),
    ("to_spice", UNTIL_REBUILT),
    ("plan_networks", UNTIL_REBUILT),
    ("pulse_energy", UNTIL_REBUILT),
    ("melting_needed", UNTIL_REBUILT),
    ("by_trying_all", UNTIL_REBUILT),
    ("voltage_strip", UNTIL_REBUILT),
];

const UNTIL_REBUILT: &str = "to go, or to move into the tests, when its part of the engine is rebuilt";

/// What the engine reaches for outside itself.
pub fn reaches_outside(house: &House, still: &[(&str, &str)]) -> Vec<String> {
    let mut found = Vec::new();
    for file in house.production().filter(|f| f.house() == "engine") {
        for name in &file.names {
            let path = name.path.join("::").replace("core::", "std::");
            let below = |o: &&str| path == **o || path.strip_prefix(*o).is_some_and(|r| r.starts_with("::"));
            let all_of = |o: &&str| name.glob && o.strip_prefix(&path).is_some_and(|r| r.starts_with("::"));
            if let Some(what) = OUTSIDE.iter().find(|o| below(o) || all_of(o)) {
                found.push((&file.name, name.line, what.to_string()));
            }
        }
        for (mark, line) in file.marks.iter().filter(|(mark, _)| MARKS.contains(&mark.as_str())) {
            found.push((&file.name, *line, mark.clone()));
        }
        for word in WORDS.iter().filter(|w| file.words.contains_key(**w)) {
            found.push((&file.name, 1, word.to_string()));
        }
    }
    let known = |file: &str, what: &str| still.iter().any(|(f, w)| *f == file && *w == what);
    let unknown = found.iter().filter(|(file, _, what)| !known(file, what));
    let mut wrong: Vec<String> =
        unknown.map(|(file, line, what)| format!("{file}:{line}: the engine uses `{what}`")).collect();
    let needed = |(file, what): &(&str, &str)| found.iter().any(|(f, _, w)| f == file && w == what);
    let stale = still.iter().filter(|s| !needed(s));
    wrong.extend(stale.map(|(file, what)| format!("{file} uses no `{what}` any more: take it out of STILL_OUTSIDE")));
    wrong
}

/// Functions that others may call, and nobody but tests does.
pub fn only_for_tests(house: &House, allowed: &[(&str, &str)]) -> Vec<String> {
    let mut mentioned: BTreeMap<&str, usize> = BTreeMap::new();
    for file in house.production() {
        for (word, n) in &file.words {
            let own = file.defined.get(word).copied().unwrap_or(0);
            *mentioned.entry(word).or_default() += n - own;
        }
    }
    let unused = |name: &str| mentioned.get(name).is_none_or(|n| *n == 0);
    let mut wrong = Vec::new();
    for file in house.production() {
        for f in file.functions.iter().filter(|f| unused(&f.name)) {
            if !allowed.iter().any(|(name, _)| *name == f.name) {
                wrong.push(format!("{}:{}: only tests use `{}`", file.name, f.line, f.name));
            }
        }
    }
    let functions = || house.production().flat_map(|f| &f.functions);
    let needed = |name: &str| unused(name) && functions().any(|f| f.name == name);
    let stale = allowed.iter().filter(|(name, _)| !needed(name));
    wrong.extend(stale.map(|(name, _)| format!("`{name}` is used or gone: take it out of FOR_TESTS")));
    wrong
}

/// Files that have grown too long, or do not say what they are for.
pub fn readable(house: &House) -> Vec<String> {
    let mut wrong = Vec::new();
    for file in &house.files {
        let lines = file.text.lines().count();
        if lines > 500 {
            wrong.push(format!("{} has {lines} lines: split it by question", file.name));
        }
        if !file.text.trim_start().starts_with("//!") {
            wrong.push(format!("{} does not say at its top which question it answers", file.name));
        }
    }
    wrong
}

/// All of it.
pub fn all(house: &House) -> Vec<String> {
    let mut wrong = reaches_outside(house, STILL_OUTSIDE);
    wrong.extend(only_for_tests(house, FOR_TESTS));
    wrong.extend(readable(house));
    wrong
}
