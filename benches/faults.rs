//! How long does the next step of a search for a fault take with thirty loads, for each symptom?
//!
//! Each search is followed to its end, a fault or two planted and read off as the program foresees them; printed are the slowest
//! step and the mean. What is asked: under 50 ms. `cargo bench --bench faults`
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

use loomwright::catalogue::Catalogue;
use loomwright::engine::{Belief, Cause, Fault, Faults, Symptom, Taken, Wired, design, next};
use loomwright::plan::read;
use std::fmt::Write as _;
use std::time::Instant;

const LOADS: usize = 30;
/// Readings after which a search is broken off.
const READINGS: usize = 12;

/// A van with two panels, fifteen loads on each.
fn plan() -> String {
    let mut text = String::from(
        "format = 1\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 200\n[charger]\ncurrent_a = 30\n\
         [meter]\nstep_v = 0.01\ndigits = 2\nerror = 0.005\n",
    );
    let mut run = |from: &str, to: &str, metres: f64| {
        write!(text, "[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = {metres}\n").unwrap();
    };
    run("starter battery", "charger", 4.0);
    run("service battery", "charger", 1.0);
    run("service battery", "cut-off", 0.5);
    run("cut-off", "panel", 2.0);
    run("panel", "rear panel", 4.0);
    for n in 0..LOADS {
        run(if n % 2 == 0 { "panel" } else { "rear panel" }, &format!("point {n}"), 1.0 + 0.1 * n as f64);
    }
    for n in 0..LOADS {
        let kind = ["constant-power", "constant-current", "resistance"][n % 3];
        write!(text, "[[load]]\nname = \"load {n}\"\nat = \"point {n}\"\npower_w = 30\nkind = \"{kind}\"\n").unwrap();
    }
    text
}

/// The slowest step and all of them, in milliseconds.
fn hunt(wired: &Wired<'_>, symptom: Symptom, faults: &Faults) -> Vec<f64> {
    let load = symptom.is_of_a_load().then_some(LOADS - 1);
    let (mut taken, mut steps): (Vec<Taken>, _) = (Vec::new(), Vec::new());
    while taken.len() < READINGS {
        let start = Instant::now();
        let belief = Belief::of(wired, symptom, load, &taken);
        let step = next(&belief, &[]);
        steps.push(start.elapsed().as_secs_f64() * 1000.0);
        let Some(step) = step else { break };
        let what = step.offer.what;
        let shown = wired.predict(faults, &wired.states(faults, what.on), &what, &belief.meter).value;
        taken.push(Taken { what, shown });
    }
    steps
}

fn main() {
    let catalogue = Catalogue::embedded().unwrap();
    let read = read(&plan(), &catalogue);
    assert!(read.problems.is_empty(), "{:?}", read.problems);
    let design = design(&read.plan, &catalogue);
    let wired = design.wired();
    let of = |cause, size| Some(Fault { cause, size });
    let way = wired.way_to(LOADS - 1).unwrap();
    let last = *wired.chain(*way.last().unwrap(), loomwright::engine::Pole::Minus).last().unwrap();
    let first = *wired.chain(way[0], loomwright::engine::Pole::Plus).first().unwrap();
    let planted = [
        [of(Cause::Part(last), 1e9), None],
        [of(Cause::Part(first), 0.3), of(Cause::Part(last), 2.0)],
        [of(Cause::LoadDead(LOADS - 1), 1.0), of(Cause::Part(first), 1e9)],
    ];
    let only = std::env::args().nth(1).filter(|word| !word.starts_with('-'));
    for symptom in Symptom::ALL.into_iter().filter(|s| only.as_ref().is_none_or(|o| o == s.word())) {
        let steps: Vec<f64> = planted.iter().flat_map(|faults| hunt(&wired, symptom, faults)).collect();
        let slowest = steps.iter().copied().fold(0.0, f64::max);
        let mean = steps.iter().sum::<f64>() / steps.len() as f64;
        println!(
            "{LOADS} loads, {:>9}: {} steps, slowest {slowest:.1} ms, mean {mean:.1} ms",
            symptom.word(),
            steps.len()
        );
    }
}
