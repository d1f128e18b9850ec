//! How long does a year of use take, and ten thousand weeks?
//!
//! A year at one-minute steps must stay under 50 ms on one core, so that the
//! curve follows the keys; the draws run on all cores.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

use divan::{Bencher, black_box};
use loomwright::catalogue::Catalogue;
use loomwright::engine::simulate::chance::draw::Draws;
use loomwright::engine::{Design, Kinetic, Notes, Span, design, endurance, uncertainty};
use loomwright::plan::{Plan, default_example, read};
use loomwright::quantity::{AmpHours, Amps, Hours, Share};
use std::process::Command;
use std::time::Instant;

fn main() {
    beside_scipy();
    divan::main();
}

/// A year of the bare kinetic model, a step a minute, beside numpy and scipy on the same equations.
fn beside_scipy() {
    let kinetic = Kinetic { at_hand: Share::new(0.61), rate_per_h: 0.2305 };
    let load = |hour: f64| {
        let cycling = if hour % 1.0 < 1.0 / 3.0 { 6.0 } else { 0.0 };
        let charging = if (8.0..12.0).contains(&(hour % 24.0)) { 16.8 } else { 0.0 };
        Amps::new(0.8 + cycling - charging)
    };
    let begin = Instant::now();
    let step = kinetic.step(Hours::new(1.0 / 60.0));
    let mut wells = kinetic.rested(AmpHours::new(0.9 * 110.0));
    for minute in 0..365 * 24 * 60 {
        wells = step.after(wells, load((f64::from(minute) + 0.5) / 60.0));
    }
    let row =
        |name: &str, seconds: f64, y1: f64, y2: f64| println!("{name:<42}{seconds:>10.4} s  {y1:.6} Ah  {y2:.6} Ah");
    println!("a year of the kinetic model                      time    at hand       bound");
    row("this program, a step a minute", begin.elapsed().as_secs_f64(), wells.at_hand.get(), wells.bound.get());
    let python = std::env::var("LOOMWRIGHT_PYTHON").unwrap_or_else(|_| "python3".into());
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/scripts/year_battery.py");
    let said = Command::new(&python).arg(script).output().ok().filter(|o| o.status.success());
    let Some(said) = said else { return println!("numpy and scipy: {python} has none") };
    for line in String::from_utf8_lossy(&said.stdout).lines() {
        let (name, rest) = line.split_once(';').unwrap_or((line, ""));
        let numbers: Vec<f64> = rest.split(';').filter_map(|n| n.trim().parse().ok()).collect();
        if let [seconds, y1, y2] = numbers[..] {
            row(name, seconds, y1, y2);
        }
    }
}

fn ready() -> (Plan, Catalogue, Design) {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = read(default_example().text, &catalogue).plan;
    let design = design(&plan, &catalogue);
    (plan, catalogue, design)
}

#[divan::bench]
fn whole_design(bencher: Bencher) {
    let (plan, catalogue, _) = ready();
    bencher.bench(|| design(black_box(&plan), &catalogue));
}

#[divan::bench(args = [7, 14, 365])]
fn days_of_use(bencher: Bencher, days: u32) {
    let (_, _, design) = ready();
    let span = Span { days, first_day: 1, from: Share::FULL, health: Share::FULL };
    bencher.bench(|| endurance(&design, black_box(span), &mut Notes::unkept()).unwrap());
}

#[divan::bench(args = [1, 2], sample_count = 1, sample_size = 1)]
fn thousand_draws_of_a_week(bencher: Bencher, threads: usize) {
    let (_, _, design) = ready();
    let draws = Draws::default();
    bencher.bench(|| uncertainty(&design, black_box(draws), threads, &|_| true).unwrap());
}
