//! How long does a year of use take, and ten thousand weeks?
//!
//! A year at one-minute steps must stay under 50 ms on one core, so that the
//! curve follows the keys; the draws run on all cores.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

use divan::{Bencher, black_box};
use loomwright::catalogue::Catalogue;
use loomwright::engine::uncertainty::{Draws, uncertainty};
use loomwright::engine::{Book, Design, Span, design, endurance};
use loomwright::plan::{Plan, default_example, read};
use loomwright::quantity::Share;

fn main() {
    divan::main();
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
    let (plan, catalogue, design) = ready();
    let span = Span { days, first_day: 1, from: Share::FULL, health: Share::FULL };
    bencher.bench(|| endurance(&plan, &catalogue, &design, black_box(span), &mut Book::default()).unwrap());
}

#[divan::bench(args = [1, 2], sample_count = 1, sample_size = 1)]
fn thousand_draws_of_a_week(bencher: Bencher, threads: usize) {
    let (plan, catalogue, design) = ready();
    let draws = Draws::default();
    bencher.bench(|| uncertainty(&plan, &catalogue, &design, black_box(draws), threads, &|_| true).unwrap());
}
