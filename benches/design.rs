//! How long does a keystroke wait for the whole design?
//!
//! The default plan and generated plans of 20 and 200 runs: sizes, cases, fuses, findings, workings.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

#[path = "../tests/generated/plan.rs"]
mod generated_plan;

use divan::{Bencher, black_box};
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::assortments::assortments;
use loomwright::engine::ask::cable::{CableQuestion, cable_question};
use loomwright::engine::design;
use loomwright::plan::{Plan, default_example, read};

fn main() {
    divan::main();
}

fn default_plan(catalogue: &Catalogue) -> Plan {
    read(default_example().text, catalogue).plan
}

#[divan::bench]
fn design_of_the_default_plan(bencher: Bencher) {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = default_plan(&catalogue);
    bencher.bench(|| design(black_box(&plan), &catalogue));
}

#[divan::bench(args = [20, 200])]
fn design_of_runs(bencher: Bencher, runs: usize) {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = generated_plan::plan(1, runs, false, &catalogue);
    bencher.bench(|| design(black_box(&plan), &catalogue));
}

/// Boards with leads: a van with 3 boards and 25 leads, a large one with 60 and 300.
#[divan::bench(args = [(3, 25), (60, 300)])]
fn design_with_leads(bencher: Bencher, (boards, leads): (usize, usize)) {
    let catalogue = Catalogue::embedded().unwrap();
    let mut text = default_example().text.to_string();
    for board in 0..boards {
        text += &format!(
            "\n[[board]]\nname = \"board {board}\"\nstyle = \"blade-c\"\n[[run]]\nfrom = \"cut-off\"\nto = \"board {board}\"\nlength_m = {}\n",
            2 + board % 5
        );
    }
    for lead in 0..leads {
        text += &format!(
            "\n[[load]]\nname = \"load {lead}\"\nat = \"board {}\"\npower_w = {}\nlead_m = {}\nduty = {{ hours_a_day = 1 }}\n",
            lead % boards,
            3 + lead % 20,
            1 + lead % 4
        );
    }
    let plan = read(&text, &catalogue).plan;
    bencher.bench(|| design(black_box(&plan), &catalogue));
}

#[divan::bench(args = [2, 3])]
fn design_with_few_sizes(bencher: Bencher, most: u32) {
    let catalogue = Catalogue::embedded().unwrap();
    let mut plan = default_plan(&catalogue);
    plan.rules.most_sizes = Some(most);
    bencher.bench(|| design(black_box(&plan), &catalogue));
}

#[divan::bench]
fn assortments_of_the_default_plan(bencher: Bencher) {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = default_plan(&catalogue);
    let whole = design(&plan, &catalogue);
    bencher.bench(|| assortments(black_box(&whole)));
}

#[divan::bench]
fn one_cable_question(bencher: Bencher) {
    let catalogue = Catalogue::embedded().unwrap();
    bencher.bench(|| cable_question(&catalogue, black_box(&CableQuestion::default())));
}
