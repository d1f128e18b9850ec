//! Hostile input on stable Rust: what others wrote is changed at random, and nothing of it may end in a panic.
//!
//! A few seconds for each target in every run; `LOOMWRIGHT_FUZZ=600 cargo test --release --test fuzz` gives each so
//! many seconds, from another start each time. An input that broke something is written to a file that the message
//! names: it belongs into `corpus/<target>/`, whose files are tried first from then on, and changed with the rest. A file
//! of `profiles`, `cells` and `sheets` names in its first line what reads it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod dough;
#[allow(dead_code)] // the rest of it is for the tests of the screens
#[path = "../screens/driver.rs"]
mod driver;
mod targets;

use dough::Dough;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

/// Seconds that a target gets where nobody says; six of them stay under a minute.
const USUAL: u64 = 5;
/// Inputs that are tried at least, however busy the machine is, and at most.
const LEAST: u64 = 25;
const MOST: u64 = 20_000;

/// What reads the input; what it gives tells one kind of outcome from another.
pub type Reads = fn(&[u8]) -> u64;

/// Try a target for a while. What has an outcome that was not seen before is changed further.
pub fn hunt(name: &str, seeds: Vec<Vec<u8>>, words: &[&str], reads: Reads) {
    let asked = std::env::var("LOOMWRIGHT_FUZZ").ok().and_then(|seconds| seconds.parse().ok());
    let start = if asked.is_some() { clock() } else { 20_261_127 };
    let kept = corpus(name);
    assert!(kept.len() > 2, "tests/fuzz/corpus/{name} is gone");
    let mut dough = Dough::new([seeds, kept.clone()].concat(), words, start);
    for input in kept {
        let outcome = attempt(name, &input, reads);
        dough.learn(input, outcome);
    }
    let (until, mut tried) = (Instant::now() + Duration::from_secs(asked.unwrap_or(USUAL)), 0);
    while tried < LEAST || Instant::now() < until && (asked.is_some() || tried < MOST) {
        let input = dough.next();
        let outcome = attempt(name, &input, reads);
        dough.learn(input, outcome);
        tried += 1;
    }
    let outcomes = dough.outcomes();
    println!("{name}: {tried} inputs, {outcomes} outcomes");
    assert!(outcomes > 2, "{name}: {tried} inputs came to {outcomes} outcomes: nothing was tried");
}

fn attempt(name: &str, input: &[u8], reads: Reads) -> u64 {
    catch_unwind(AssertUnwindSafe(|| reads(input))).unwrap_or_else(|_| {
        let file: PathBuf = std::env::temp_dir().join(format!("{name}-{}", std::process::id()));
        fs::write(&file, input).unwrap();
        panic!("{name} broke; the input is in {}: put it into tests/fuzz/corpus/{name}/", file.display())
    })
}

/// Inputs that broke something once, come near it, or have much in them to be changed.
fn corpus(name: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus").join(name);
    let mut all: Vec<PathBuf> = fs::read_dir(folder).into_iter().flatten().map(|e| e.unwrap().path()).collect();
    all.sort();
    all.into_iter().map(|file| fs::read(file).unwrap()).collect()
}

fn clock() -> u64 {
    std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_nanos() as u64
}
