//! How long does a keystroke wait for the whole design?
//!
//! The default plan and generated plans of 20 and 200 runs: sizes, cases, fuses, findings, workings.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

#[path = "../tests/generated/plan.rs"]
mod generated_plan;
#[path = "../tests/generated/leads.rs"]
mod leads;

use divan::{Bencher, black_box};
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::assortments::assortments;
use loomwright::engine::ask::cable::{CableQuestion, cable_question};
use loomwright::engine::choose::battery::ahead::path_ahead;
use loomwright::engine::choose::battery::lasting::lasting_behind;
use loomwright::engine::design;
use loomwright::engine::simulate::days::scenario::CutSettings;
use loomwright::engine::simulate::promise::Trials;
use loomwright::plan::{Plan, default_example, read};
use std::time::{Duration, Instant};

fn main() {
    apart();
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

fn plan_with_leads(boards: usize, leads: usize, catalogue: &Catalogue) -> Plan {
    read(&leads::text(boards, leads), catalogue).plan
}

/// Boards with leads: a van with 3 boards and 25 leads, a large one with 60 and 300.
#[divan::bench(args = [(3, 25), (60, 300)])]
fn design_with_leads(bencher: Bencher, (boards, leads): (usize, usize)) {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = plan_with_leads(boards, leads, &catalogue);
    bencher.bench(|| design(black_box(&plan), &catalogue));
}

/// What a pass takes, what of it the promise takes, and so what it would take without.
fn apart() {
    let catalogue = Catalogue::embedded().unwrap();
    for (boards, leads) in [(0, 0), (3, 25), (60, 300)] {
        let plan = plan_with_leads(boards, leads, &catalogue);
        let whole = median(|| drop(black_box(design(&plan, &catalogue))));
        let known = design(&plan, &catalogue);
        let Some(bank) = &known.battery.bank else { continue };
        let uncut = Trials::new(&known.installation, bank, None).map(|mut trials| trials.uncut(bank)).unwrap();
        let promise = median(|| {
            let first = lasting_behind(&known.installation, path_ahead(&known.installation));
            let mut trials = Trials::new(&known.installation, bank, None).unwrap();
            let days = trials.days(bank, known.charger.steady, Some(uncut.clone()));
            let settings = CutSettings::of(&known.cut_off, bank.capacity);
            drop(black_box((first, trials.promise(&days, settings, false))));
        });
        let without = whole.saturating_sub(promise);
        println!(
            "{boards:2} boards, {leads:3} leads more: {whole:.2?}, of it the promise {promise:.2?}; without {without:.2?}"
        );
    }
}

fn median(mut work: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..41)
        .map(|_| {
            let begin = Instant::now();
            work();
            begin.elapsed()
        })
        .collect();
    times.sort();
    times[times.len() / 2]
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
