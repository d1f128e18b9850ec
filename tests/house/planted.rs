//! The house test itself: a small clean house passes, and each thing planted in it is found.

use crate::fault::Fault;
use crate::source::House;
use crate::{arrows, purity};

/// A house in which nothing is wrong.
const CLEAN: &[(&str, &str)] = &[
    ("lib.rs", "//! The map.\npub mod command;\npub mod engine;\npub mod plan;\npub mod quantity;\n"),
    ("main.rs", "//! Hands over.\nfn main() { loomwright::command::run(); }\n"),
    ("quantity/mod.rs", "//! Numbers.\nmod show;\nmod types;\npub use types::Volts;\npub use show::show;\n"),
    ("quantity/types.rs", "//! Types.\npub struct Volts(pub f64);\n"),
    (
        "quantity/show.rs",
        "//! Words.\nuse super::types::Volts;\npub fn show(v: Volts) -> String { format!(\"{}\", v.0) }\n",
    ),
    (
        "plan/mod.rs",
        "//! The plan.\nuse crate::quantity::Volts;\npub struct Plan { pub cut: Volts }\npub struct Load;\n",
    ),
    (
        "engine/mod.rs",
        "//! The front.\nmod design;\nmod installation;\nmod judge;\nmod physics;\nmod simulate;\npub use design::design;\n",
    ),
    (
        "engine/design.rs",
        "//! The door.\nuse crate::plan::Plan;\npub fn design(plan: &Plan) -> f64 {\n    \
         let seen = crate::engine::installation::seen(plan);\n    super::judge::drop::judged(seen)\n}\n",
    ),
    (
        "engine/installation/mod.rs",
        "//! What is there.\nuse crate::plan::Plan;\npub fn seen(plan: &Plan) -> f64 { plan.cut.0 }\n",
    ),
    ("engine/judge/mod.rs", "//! Rules.\npub mod drop;\n"),
    (
        "engine/judge/drop.rs",
        "//! Drops.\nuse crate::engine::{physics, simulate::drop as behaviour};\n\
         pub fn judged(v: f64) -> f64 { assert!(behaviour::lost(v) < physics::ohm(v)); v }\n\
         #[cfg(test)]\nmod tests {\n    use crate::engine::design::design;\n    use std::fs;\n    #[test]\n    \
         fn works() { let _ = (design, fs::read); println!(\"x\"); super::judged(1.0); }\n}\n",
    ),
    ("engine/simulate/mod.rs", "//! What happens.\npub mod drop;\n"),
    (
        "engine/simulate/drop.rs",
        "//! Drops.\nuse super::super::physics::ohm;\npub(crate) fn lost(v: f64) -> f64 { ohm(v) }\n",
    ),
    ("engine/physics.rs", "//! Ohm.\npub fn ohm(v: f64) -> f64 { v }\n#[cfg(test)]\nmod checks;\n"),
    (
        "engine/physics/checks.rs",
        "//! Tests.\nuse crate::engine::judge::drop::judged;\n#[test]\nfn t() { judged(1.0); }\n",
    ),
    (
        "command/mod.rs",
        "//! The shell.\nuse crate::plan::{self, Plan};\npub fn run() { std::fs::read(\"x\").ok(); \
         let _: Option<plan::Load> = None; let _ = |p: &Plan| crate::engine::design(p); crate::quantity::show(todo!()); }\n",
    ),
];

/// All that is wrong with the clean house when this text stands behind one of its files.
fn planted(file: &str, more: &str) -> Vec<String> {
    let mut texts: Vec<(String, String)> = CLEAN.iter().map(|(n, t)| (n.to_string(), t.to_string())).collect();
    match texts.iter_mut().find(|(name, _)| name == file) {
        Some((_, text)) => text.push_str(more),
        None => texts.push((file.into(), more.into())),
    }
    all(texts)
}

fn all(texts: Vec<(String, String)>) -> Vec<String> {
    let house = House::of(texts);
    [arrows::all(&house), purity::all(&house)].concat().iter().map(Fault::says).collect()
}

#[track_caller]
fn found(file: &str, more: &str, words: &str) {
    let wrong = planted(file, more);
    assert!(wrong.iter().any(|w| w.contains(words)), "`{words}` is not among {wrong:#?}");
}

#[test]
fn a_clean_house_passes() {
    assert_eq!(planted("lib.rs", ""), Vec::<String>::new());
}

#[test]
fn an_upward_arrow_between_houses_is_found_however_it_is_written() {
    let upward = "may not import";
    for more in [
        "use crate::engine::design;\n",
        "use crate::{engine::design as d, quantity};\n",
        "use super::engine::*;\n",
        "fn f() { crate::engine::design(todo!()); }\n",
        "fn f(_: super::engine::Design) {}\n",
        "fn f() { if matches!(1, crate::engine::X) {} }\n",
        "fn f() { use crate::engine; engine::design(todo!()) }\n",
        "mod inner { use super::super::engine::design; }\n",
    ] {
        found("plan/mod.rs", more, upward);
    }
    found("quantity/types.rs", "use crate::plan::Plan;\n", "`quantity` may not import `plan`");
    found("engine/physics.rs", "use crate::command::run;\n", "`engine` may not import `command`");
    found("screens/mod.rs", "//! Shown.\nuse crate::command::run;\n", "`screens` may not import `command`");
    found("cellar/mod.rs", "//! New.\nuse crate::plan::Plan;\n", "no house of the drawing");
    found("main.rs", "fn f() { loomwright::engine::design(todo!()); }\n", "only hands over");
    assert_eq!(planted("plan/mod.rs", "#[cfg(test)]\nuse crate::engine::design;\n"), Vec::<String>::new());
}

#[test]
fn an_upward_arrow_between_the_rooms_is_found() {
    found("engine/physics.rs", "use super::simulate::drop;\n", "upward from `physics` to `simulate`");
    found("engine/simulate/drop.rs", "fn f() { crate::engine::judge::drop::judged(1.0); }\n", "to `judge`");
    found("engine/installation/mod.rs", "use crate::engine::parts::Part;\nuse crate::engine::design;\n", "to `design`");
    found("engine/budget.rs", "//! Old.\n", "it is in no room of the engine");
}

#[test]
fn a_circle_is_found() {
    found("quantity/types.rs", "use super::show::show;\n", "a circle of 2 files");
    found("quantity/types.rs", "use super::Volts as V;\n", "a circle of 2 files");
    found("engine/physics.rs", "use crate::engine::design::design;\n", "a circle of");
    let one = ("quantity/a.rs".to_string(), "//! a\nuse super::b::B;\npub struct A;\n".to_string());
    let two = ("quantity/b.rs".to_string(), "//! b\nfn f() -> super::a::A { todo!() }\npub struct B;\n".to_string());
    assert_eq!(
        all(vec![one, two]),
        [
            "quantity/a.rs: a circle of 2 files: quantity/a.rs:2 -> quantity/b.rs:2 -> quantity/a.rs",
            "quantity/b.rs: a circle of 2 files: quantity/b.rs:2 -> quantity/a.rs:2 -> quantity/b.rs",
        ]
    );
}

#[test]
fn a_front_that_calls_its_own_parts_is_in_a_circle_with_what_calls_it() {
    let front = ("quantity/mod.rs".to_string(), "//! x\nmod a;\npub fn f() { a::g(); }\n".to_string());
    let part = ("quantity/a.rs".to_string(), "//! a\npub fn g() { super::f(); }\n".to_string());
    assert_eq!(arrows::circles(&House::of(vec![front, part])).len(), 2);
}

#[test]
fn reaching_outside_the_engine_is_found() {
    for (more, what) in [
        ("use std::{fmt, fs};\n", "std::fs"),
        ("fn f() { std::env::var(\"x\"); }\n", "std::env"),
        ("use std::time::*;\n", "std::time::SystemTime"),
        ("use std::time;\nfn f() { time::Instant::now(); }\n", "std::time::Instant"),
        ("use std::io::Write as _;\n", "std::io"),
        ("fn f() -> std::net::IpAddr { todo!() }\n", "std::net"),
        ("fn f() { vec![std::process::id()]; }\n", "std::process"),
        ("use std::thread::spawn;\n", "std::thread"),
        ("fn f() { println!(\"x\"); }\n", "println!"),
        ("fn f() { dbg!(1); }\n", "dbg!"),
        ("static mut COUNT: u32 = 0;\n", "static mut"),
        ("use ratatui::Frame;\n", "ratatui"),
        ("use crossterm::event;\n", "crossterm"),
        ("use rand::rng;\n", "rand::rng"),
        ("fn f(r: OsRng) {}\n", "OsRng"),
    ] {
        found("engine/physics.rs", more, &format!("the engine uses `{what}`"));
    }
    assert_eq!(
        planted("engine/physics.rs", "use std::time::Duration;\nconst D: Duration = Duration::ZERO;\n"),
        [""; 0]
    );
    // Threads that only compute pass; those that go on by themselves do not.
    assert_eq!(planted("engine/physics.rs", "fn f() { std::thread::scope(|_| ()); }\n"), [""; 0]);
    found("engine/physics.rs", "fn f() { std::thread::spawn(|| ()); }\n", "the engine uses `std::thread`");
    assert_eq!(planted("command/mod.rs", "fn f() { println!(\"{:?}\", std::env::args()); }\n"), [""; 0]);
}

#[test]
fn a_function_that_only_tests_use_is_found() {
    let only = "only tests use `lonely`";
    for more in [
        "pub fn lonely() {}\n",
        "pub(crate) fn lonely() {}\n#[cfg(test)]\nmod t { fn x() { super::lonely(); } }\n",
        "pub struct X;\nimpl X { pub(super) fn lonely(&self) {} }\n",
    ] {
        found("engine/physics.rs", more, only);
    }
    found("quantity/show.rs", "pub fn lonely() {}\n#[test]\nfn t() { lonely(); }\n", only);
    let used = "pub fn lonely() {}\nfn f() { assert!(vec![lonely()].is_empty()); }\n";
    assert_eq!(planted("engine/physics.rs", used), [""; 0]);
}

#[test]
fn a_plan_read_elsewhere_is_found() {
    let only = "only `installation` reads a `Plan`";
    found("engine/physics.rs", "use crate::plan::{Load, Plan};\n", only);
    found("engine/simulate/drop.rs", "fn f(p: &crate::plan::Plan) {}\n", only);
    found("engine/judge/drop.rs", "use crate::plan::*;\n", only);
    found("engine/judge/drop.rs", "use crate::plan;\nfn f(p: &plan::Plan) {}\n", only);
    assert_eq!(planted("engine/judge/drop.rs", "use crate::plan::Load as _;\n"), [""; 0]);
    assert_eq!(planted("engine/ask/mod.rs", "//! Else.\nuse crate::plan::Plan as _;\n"), [""; 0]);
}

#[test]
fn long_and_silent_files_are_found() {
    found("plan/mod.rs", &"\n".repeat(500), "split it by question");
    found("plan/load.rs", "pub struct L;\n", "does not say at its top");
}
