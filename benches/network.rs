//! How long does the network solution take from 10 to 1,000 branches, and next to ngspice?
//!
//! Prints the growth exponent (time ~ branches^exponent), and, where ngspice is
//! installed, the time of its process and of its analysis on the same networks.
#![allow(clippy::unwrap_used, clippy::expect_used, missing_docs)]

#[path = "../tests/generated/network.rs"]
mod generated_network;
#[path = "../tests/generated/spice.rs"]
mod spice;

use divan::{Bencher, black_box};
use generated_network::{Recipe, loaded_to, network, scaled};
use loomwright::engine::physics::network::circuit::Network;
use std::process::Command;
use std::time::{Duration, Instant};

fn main() {
    side_by_side();
    divan::main();
}

/// A network with warming copper and chargers, loaded to 80 % of what it can feed.
fn plan(branches: usize) -> Network {
    loaded_to(&network(Recipe { seed: 7, branches, warming: true, fed_in: true }), 0.8)
}

#[divan::bench(args = [10, 100, 1000])]
fn solve(bencher: Bencher, branches: usize) {
    let plan = plan(branches);
    bencher.bench(|| black_box(&plan).solve().unwrap());
}

/// Five times what can be fed: the search for the limit, twice, and its explanation.
#[divan::bench(args = [10, 100, 1000])]
fn explain_collapse(bencher: Bencher, branches: usize) {
    let plan = scaled(&plan(branches), 5.0);
    bencher.bench(|| black_box(&plan).solve().unwrap_err());
}

/// Median time of `repeats` runs.
fn median(repeats: usize, mut work: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..repeats)
        .map(|_| {
            let begin = Instant::now();
            work();
            begin.elapsed()
        })
        .collect();
    times.sort();
    times[repeats / 2]
}

fn side_by_side() {
    let sizes = [10usize, 30, 100, 300, 1000];
    let mut points = Vec::new();
    println!("branches   this program      ngspice -b (whole process)   ratio");
    for branches in sizes {
        let plan = plan(branches);
        let ours = median(201, || {
            black_box(black_box(&plan).solve().unwrap());
        });
        points.push(((branches as f64).ln(), ours.as_secs_f64().ln()));
        match ngspice(&plan) {
            Some(theirs) => {
                let ratio = theirs.as_secs_f64() / ours.as_secs_f64();
                println!("{branches:8}   {ours:>12.1?}   {theirs:>12.1?}                 {ratio:>8.0}");
            }
            None => println!("{branches:8}   {ours:>12.1?}   not installed"),
        }
    }
    println!("growth exponent from 10 to 1,000 branches: {:.2}", slope(&points));
}

/// Slope of the least-squares line.
fn slope(points: &[(f64, f64)]) -> f64 {
    let n = points.len() as f64;
    let (mx, my) = (points.iter().map(|p| p.0).sum::<f64>() / n, points.iter().map(|p| p.1).sum::<f64>() / n);
    let (top, bottom) =
        points.iter().fold((0.0, 0.0), |s, p| (s.0 + (p.0 - mx) * (p.1 - my), s.1 + (p.0 - mx).powi(2)));
    top / bottom
}

/// Time of one ngspice process on the network with the resistances as solved, or `None` when it is not installed.
fn ngspice(plan: &Network) -> Option<Duration> {
    let folder = tempfile::tempdir().ok()?;
    let file = folder.path().join("network.cir");
    std::fs::write(&file, spice::netlist(plan, Some(&plan.solve().ok()?))).ok()?;
    let run = || Command::new("ngspice").arg("-b").arg(&file).current_dir(folder.path()).output();
    let text = String::from_utf8_lossy(&run().ok()?.stdout).into_owned();
    assert!(text.contains("n0 ="), "ngspice solved nothing:\n{text}");
    Some(median(5, || {
        run().ok();
    }))
}
