//! What the project promises about itself: which way imports run, what the engine
//! keeps out of, how long a file may be, one terminal library, nothing at the top
//! that does not belong. All that is wrong is printed, not just the first.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod arrows;
mod fault;
mod package;
mod planted;
mod purity;
mod readme;
mod source;

use source::House;
use std::fs;
use std::path::PathBuf;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

#[track_caller]
fn none(wrong: Vec<String>) {
    assert!(wrong.is_empty(), "{} wrong:\n{}", wrong.len(), wrong.join("\n"));
}

/// Imports, circles, purity, unused code, readable files: one test, so that all is printed at once.
#[test]
fn the_sources_are_in_order() {
    let house = House::read(&root().join("src"));
    none([arrows::all(&house), purity::all(&house)].concat().iter().map(fault::Fault::says).collect());
}

#[test]
fn tests_and_benches_stay_readable_too() {
    let mut wrong = Vec::new();
    for folder in ["tests", "benches"] {
        let long = House::read(&root().join(folder)).files.into_iter().map(|f| (f.name, f.text.lines().count()));
        wrong.extend(long.filter(|(_, n)| *n > 500).map(|(name, n)| format!("{folder}/{name} has {n} lines")));
    }
    none(wrong);
}

/// Two versions of crossterm would each keep its own event queue and its own
/// memory of the cooked mode.
#[test]
fn one_terminal_library() {
    let lock = fs::read_to_string(root().join("Cargo.lock")).unwrap();
    assert_eq!(lock.matches("name = \"crossterm\"\n").count(), 1);
}

#[test]
fn nothing_strange_at_the_top() {
    const HERE: &[&str] = &[
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "src",
        "tests",
        "profiles",
        "screenshots",
        "benches",
        "target",
    ];
    let names = fs::read_dir(root()).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().to_string());
    none(names.filter(|name| !name.starts_with('.') && !HERE.contains(&name.as_str())).collect());
}
