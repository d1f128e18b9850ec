//! What the project promises about itself: which way imports run, how long a
//! file may be, one terminal library, nothing at the top that does not belong.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod readme;

use std::fs;
use std::path::{Path, PathBuf};

/// From the bottom up: a module may import those before it and never one after it.
const STOREYS: &[&[&str]] =
    &[&["quantity"], &["catalogue"], &["plan"], &["engine"], &["papers"], &["screens"], &["command"]];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(rust_files(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
    found
}

fn storey(module: &str) -> Option<usize> {
    STOREYS.iter().position(|s| s.contains(&module))
}

/// The module of `src/` that a file belongs to.
fn module_of(path: &Path) -> String {
    let inside = path.strip_prefix(root().join("src")).unwrap();
    let first = inside.components().next().unwrap().as_os_str().to_string_lossy().to_string();
    first.trim_end_matches(".rs").to_string()
}

#[test]
fn imports_run_only_downward() {
    let mut wrong = Vec::new();
    for file in rust_files(&root().join("src")) {
        let module = module_of(&file);
        let Some(own) = storey(&module) else { continue };
        for (n, line) in fs::read_to_string(&file).unwrap().lines().enumerate() {
            for (at, _) in line.match_indices("crate::") {
                let word: String = line[at + 7..].chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                if storey(&word).is_some_and(|other| other > own) {
                    wrong.push(format!("{}:{}: `{module}` imports `{word}`", file.display(), n + 1));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "imports that run upward:\n{}", wrong.join("\n"));
}

/// The engine and what it stands on know no disk, clock, environment or
/// terminal. Reading profiles and plan files is named by file here.
#[test]
fn the_engine_is_pure() {
    const OUTSIDE: &[&str] = &[
        "std::fs",
        "std::env",
        "std::time",
        "std::io",
        "std::net",
        "std::process",
        "crossterm",
        "ratatui",
        "static mut",
        "thread_local",
        "println!",
        "eprintln!",
    ];
    let mut wrong = Vec::new();
    for file in rust_files(&root().join("src/engine")) {
        let text = fs::read_to_string(&file).unwrap();
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        for word in OUTSIDE {
            if code.lines().any(|l| !l.trim_start().starts_with("//") && l.contains(word)) {
                wrong.push(format!("{} uses {word}", file.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "the engine reaches outside:\n{}", wrong.join("\n"));
}

#[test]
fn files_stay_readable() {
    let mut long = Vec::new();
    for folder in ["src", "tests", "benches"] {
        let folder = root().join(folder);
        if !folder.exists() {
            continue;
        }
        for file in rust_files(&folder) {
            let lines = fs::read_to_string(&file).unwrap().lines().count();
            if lines > 500 {
                long.push(format!("{} has {lines} lines", file.display()));
            }
        }
    }
    assert!(long.is_empty(), "split by question:\n{}", long.join("\n"));
}

/// Every file says at its top which question it answers.
#[test]
fn every_module_says_what_it_is_for() {
    let silent: Vec<_> = rust_files(&root().join("src"))
        .into_iter()
        .filter(|f| !fs::read_to_string(f).unwrap().trim_start().starts_with("//!"))
        .collect();
    assert!(silent.is_empty(), "no `//!` at the top: {silent:?}");
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
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().to_string();
        assert!(name.starts_with('.') || HERE.contains(&name.as_str()), "`{name}` does not belong at the top");
    }
}
