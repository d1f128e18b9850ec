//! What may the engine not touch, and which code may not be there at all?

use crate::fault::Fault;
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

/// What looks like one of these and is none: threads that work on values alone and have all ended when the call
/// returns read no clock and keep nothing, so the answer is the same as on one core. The builder says how much room a
/// thread of such a scope has.
const PURE: &[&str] = &["std::thread::scope", "std::thread::Builder::new"];

/// What prints, or keeps something for the whole program.
const MARKS: &[&str] = &["print!", "println!", "eprint!", "eprintln!", "dbg!", "thread_local!", "static mut"];

/// Words that bring in chance or globals whatever they are imported as.
const WORDS: &[&str] = &["thread_rng", "OsRng", "ThreadRng", "from_os_rng", "from_entropy"];

/// Functions that only the tests call, each with the reason why it is there.
const FOR_TESTS: &[(&str, &str)] = &[
    ("embedded", "the catalogue as it is shipped, with which every test begins"),
    ("words_need", "what a drawing must have room for; drawing itself needs only where"),
];

/// What the engine reaches for outside itself.
pub fn reaches_outside(house: &House) -> Vec<Fault> {
    let mut wrong = Vec::new();
    for file in house.production().filter(|f| f.house() == "engine") {
        let mut uses = |what: &str, line: usize| {
            let about = format!("{} {what}", file.name);
            wrong.push(Fault::new(&about, format!("line {line}: the engine uses `{what}`")));
        };
        for name in &file.names {
            let path = name.path.join("::").replace("core::", "std::");
            if PURE.contains(&path.as_str()) {
                continue;
            }
            let below = |o: &&str| path == **o || path.strip_prefix(*o).is_some_and(|r| r.starts_with("::"));
            let all_of = |o: &&str| name.glob && o.strip_prefix(&path).is_some_and(|r| r.starts_with("::"));
            OUTSIDE.iter().filter(|o| below(o) || all_of(o)).for_each(|what| uses(what, name.line));
        }
        for (mark, line) in file.marks.iter().filter(|(mark, _)| MARKS.contains(&mark.as_str())) {
            uses(mark, *line);
        }
        WORDS.iter().filter(|w| file.words.contains_key(**w)).for_each(|word| uses(word, 1));
    }
    wrong
}

/// Functions that others may call, and nobody but tests does.
pub fn only_for_tests(house: &House) -> Vec<Fault> {
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
            if !FOR_TESTS.iter().any(|(name, _)| *name == f.name) {
                let about = format!("{} {}", file.name, f.name);
                wrong.push(Fault::new(&about, format!("line {}: only tests use `{}`", f.line, f.name)));
            }
        }
    }
    wrong
}

/// Files that have grown too long, or do not say what they are for.
pub fn readable(house: &House) -> Vec<Fault> {
    let mut wrong = Vec::new();
    for file in &house.files {
        let lines = file.text.lines().count();
        let mut say = |words: String| wrong.push(Fault::new(&file.name, words));
        if lines > 500 {
            say(format!("it has {lines} lines: split it by question"));
        }
        if !file.text.trim_start().starts_with("//!") {
            say("it does not say at its top which question it answers".into());
        }
    }
    wrong
}

/// All of it.
pub fn all(house: &House) -> Vec<Fault> {
    [reaches_outside(house), only_for_tests(house), readable(house)].concat()
}
