//! What the project promises about itself: which way imports run, what the engine
//! keeps out of, how long a file may be, one terminal library, nothing at the top
//! that does not belong. Each test prints all that is wrong, not just the first.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod arrows;
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

#[test]
fn imports_run_only_downward_and_never_in_a_circle() {
    none(arrows::all(&House::read(&root().join("src"))));
}

#[test]
fn the_engine_is_pure_and_all_code_is_used() {
    none(purity::all(&House::read(&root().join("src"))));
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
