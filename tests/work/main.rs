//! How much work a pass and an edit are, counted: allocations and devices tried, never times, so that it says the same on
//! every machine and beside anything else that runs.
//!
//! The bounds lie a fifth or so above what is needed today. Whoever goes beyond one has made every key slower, and
//! either mends that or says here why it is worth it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "../generated/leads.rs"]
mod generated_leads;

use loomwright::catalogue::Catalogue;
use loomwright::engine::{design, design_after};
use loomwright::plan::{Place, Plan, Section, Value, default_example, read, set};
use stats_alloc::{INSTRUMENTED_SYSTEM, Region, StatsAlloc};
use std::alloc::System;

#[global_allocator]
static COUNTED: &StatsAlloc<System> = &INSTRUMENTED_SYSTEM;

/// What a piece of work gave, and how often it asked for memory.
fn counted<T>(work: impl Fn() -> T) -> (T, usize) {
    // What is made once for all is not counted.
    drop(work());
    let region = Region::new(COUNTED);
    let out = work();
    (out, region.change().allocations)
}

fn plan(text: &str, catalogue: &Catalogue) -> Plan {
    let read = read(text, catalogue);
    assert!(read.problems.is_empty(), "{:?}", read.problems);
    read.plan
}

/// A chain of so many runs with a fuse in every tenth, and a lamp at its end.
fn chain(runs: usize) -> String {
    let mut text = String::from("format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n");
    let mut before = "service battery".to_string();
    for n in 0..runs {
        let to = if n == 0 { "cut-off".to_string() } else { format!("p{n}") };
        text += &format!("[[run]]\nfrom = \"{before}\"\nto = \"{to}\"\nlength_m = 0.3\nown_fuse = {}\n", n % 10 == 0);
        before = to;
    }
    text + &format!("[[load]]\nname = \"lamp\"\nat = \"{before}\"\npower_w = 10\nduty.hours_a_day = 3\n")
}

/// One test, since others beside it would be counted with it.
#[test]
fn passes_and_edits_are_no_more_work_than_they_were() {
    let catalogue = Catalogue::embedded().unwrap();
    let default = default_example().text.to_string();
    let sizes = [
        ("the default plan", default.clone(), 4_900, 420),
        ("25 leads more", generated_leads::text(3, 25), 9_500, 330),
        ("300 leads more", generated_leads::text(60, 300), 104_000, 5_300),
        ("a chain of 100", chain(100), 14_300, 5_200),
    ];
    for (what, text, most_allocations, most_tried) in sizes {
        let plan = plan(&text, &catalogue);
        let (design, allocations) = counted(|| design(&plan, &catalogue));
        let tried = design.copper.tried;
        println!("{what}: {allocations} allocations, {tried} devices tried");
        assert!(allocations <= most_allocations, "{what}: {allocations} allocations, at most {most_allocations}");
        assert!(tried <= most_tried, "{what}: {tried} devices tried, at most {most_tried}");
    }
    let former = design(&plan(&default, &catalogue), &catalogue);
    for (what, place, value, days, circuits) in edits() {
        let changed = set(&default, place, Some(&value)).unwrap();
        let plan = plan(&changed, &catalogue);
        let (after, allocations) = counted(|| design_after(&former, &plan, &catalogue));
        let took = (after.kept.took_days(&former.kept), after.kept.took_sizes(&former.kept));
        println!("{what}: {allocations} allocations");
        assert_eq!(took, (days, circuits), "{what}: days and sizes taken from the former design");
    }
}

/// An edit, and whether it leaves the days of use and the sizes as they were.
type Touched = (&'static str, Place, Value, bool, bool);

fn edits() -> [Touched; 5] {
    let of = |section, index, key| Place { section, index, key };
    [
        ("a length", of(Section::Run, 0, "length_m"), Value::Number(1.3), true, false),
        ("hours a day", of(Section::Load, 5, "duty.hours_a_day"), Value::Number(0.31), false, true),
        ("a title", of(Section::Job, 0, "title"), Value::Text("other".into()), true, true),
        ("a rim", of(Section::HoldDown, 0, "rim_mm"), Value::Number(26.0), true, true),
        ("a power", of(Section::Load, 0, "power_w"), Value::Number(46.0), false, false),
    ]
}
