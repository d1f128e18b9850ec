//! How much of a keystroke is the fuses?
//!
//! One choice for one cable (asked for every size of every run), and all fuses of a plan.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

#[path = "../tests/generated/plan.rs"]
mod generated_plan;

use divan::{Bencher, black_box};
use loomwright::catalogue::Catalogue;
use loomwright::engine::choose::fuse::protect;
use loomwright::engine::installation::working::Notes;
use loomwright::engine::judge::fuse::check;
use loomwright::engine::judge::fuse::limits::FuseLimits;
use loomwright::engine::simulate::fault::fuse::FuseNeed;
use loomwright::engine::simulate::fault::loops::FaultLoops;
use loomwright::engine::{Starts, design};
use loomwright::plan::{Plan, default_example, read};
use loomwright::quantity::*;

fn main() {
    divan::main();
}

fn need(steady: f64, prospective: f64) -> FuseNeed {
    FuseNeed {
        loading: Share::new(0.8),
        air: Celsius::new(50.0),
        steady: Amps::new(steady),
        starts: Starts::one(Amps::new(3.0 * steady), Seconds::new(0.5)),
        ampacity: Amps::new(10.0 * steady),
        prospective: Amps::new(prospective),
        circuit: Volts::new(14.6),
        ..FuseNeed::default()
    }
}

/// The first style does, and the last one does.
#[divan::bench(args = [900.0, 15_000.0])]
fn fuse_for_one_cable(bencher: Bencher, prospective: f64) {
    let catalogue = Catalogue::embedded().unwrap();
    let need = need(8.0, prospective);
    bencher.bench(|| FuseLimits::of(&catalogue).first(None, black_box(&need)).map(|c| c.rating));
}

fn all_fuses(bencher: Bencher, plan: &Plan, catalogue: &Catalogue) {
    let sized = design(plan, catalogue);
    bencher.with_inputs(|| sized.runs.clone()).bench_values(|mut runs| {
        let (site, battery, charger) = (black_box(&sized.installation), &sized.battery, &sized.charger);
        let fuses = protect(site, battery, charger, &mut runs, &mut Notes::unkept());
        let findings = check(&FaultLoops::new(site, battery, charger, &runs), &fuses, &[]);
        (runs, findings)
    });
}

#[divan::bench]
fn fuses_of_the_default_plan(bencher: Bencher) {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = read(default_example().text, &catalogue).plan;
    all_fuses(bencher, &plan, &catalogue);
}

#[divan::bench(args = [20, 200])]
fn fuses_of_runs(bencher: Bencher, runs: usize) {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = generated_plan::plan(1, runs, false, &catalogue);
    all_fuses(bencher, &plan, &catalogue);
}
