//! Which reading would tell the remaining candidates apart?
//!
//! Every load of the plan by itself with the meter at every point on its way, then a
//! test load at every point: for each, the drop that each candidate predicts.
//! The best tells most pairs apart by four standard errors of a new reading;
//! among equals the one with the widest gap.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::test_sheet::equation::{meter_variance, tolerance};
use crate::engine::simulate::test_sheet::flow::{ALL, Flow, On, Wiring};
use crate::engine::simulate::test_sheet::hypothesis::Excess;
use crate::engine::simulate::test_sheet::result::{MeterErrors, NextReading, Test};
use crate::quantity::*;

/// A guess: excesses that together explain the readings.
pub(crate) type Guess = Vec<Excess>;

/// Standard errors that a new reading must keep two guesses apart.
const APART: f64 = 4.0;

/// Candidates that are compared pair by pair; more would be slow to type by.
const MOST_GUESSES: usize = 24;

struct Offer {
    next: NextReading,
    pairs: usize,
    gap: f64,
}

/// The reading to take next; `None` when none would tell any two guesses apart.
pub(crate) fn next(
    wiring: &Wiring<'_>,
    meter: &MeterErrors,
    tests: &[(Test, Flow)],
    side: Side,
    guesses: &[Guess],
) -> Option<NextReading> {
    // Of very many candidates an even choice is enough to halve them.
    let all = guesses.len();
    let chosen: Vec<Guess> = guesses.iter().step_by(1 + all / MOST_GUESSES).cloned().collect();
    let guesses = chosen.as_slice();
    let pairs = guesses.len() * guesses.len().saturating_sub(1) / 2;
    let loads = tests.iter().filter(|(t, _)| t.side == side && t.with != ALL).map(|(t, f)| (t.with.clone(), f, false));
    let mut best: Option<Offer> = None;
    for (with, flow, test_load) in loads {
        offer(wiring, meter, guesses, (&with, flow, test_load), &mut best);
    }
    if best.as_ref().is_none_or(|b| b.pairs < pairs) {
        for (with, flow) in test_loads(wiring, side) {
            offer(wiring, meter, guesses, (&with, &flow, true), &mut best);
        }
    }
    best.filter(|b| b.pairs > 0).map(|b| NextReading { decides: b.pairs == pairs && guesses.len() == all, ..b.next })
}

/// A test load at each point of the side, as strong as the fuses on its way stand.
fn test_loads(wiring: &Wiring<'_>, side: Side) -> Vec<(String, Flow)> {
    let points = wiring.site.circuits.branches.iter().enumerate().filter(|(_, b)| b.side == side);
    points
        .filter_map(|(index, branch)| {
            let way = wiring.site.circuits.path_of(index);
            let most = way.iter().filter_map(|b| wiring.segments.get(*b)?.as_ref()).map(|s| s.most.get());
            let most = most.fold(f64::INFINITY, f64::min);
            if !most.is_finite() || most <= 0.0 {
                return None;
            }
            let flow = wiring.flow(&On::TestLoad(branch.far.clone(), side), Some(Amps::new(most)))?;
            Some((branch.far.clone(), flow))
        })
        .collect()
}

fn offer(
    wiring: &Wiring<'_>,
    meter: &MeterErrors,
    guesses: &[Guess],
    (with, flow, test_load): (&str, &Flow, bool),
    best: &mut Option<Offer>,
) {
    for branch in &flow.way {
        let currents = flow.along(&wiring.site.circuits.path_of(*branch));
        let base = crate::engine::simulate::test_sheet::equation::expected(wiring.segments, &currents);
        let drops: Vec<f64> = guesses.iter().map(|g| base + predicted(wiring, g, &currents)).collect();
        let largest = drops.iter().copied().fold(base, f64::max);
        // The current of the next reading will be measured.
        let variance =
            tolerance(wiring.segments, &currents, &currents) + meter_variance(meter, largest, flow.total.get(), true);
        let error = variance.sqrt().max(1e-9);
        let gaps = drops.iter().enumerate().flat_map(|(n, a)| drops.iter().skip(n + 1).map(move |b| (a - b).abs()));
        let gaps: Vec<f64> = gaps.map(|g| g / error).collect();
        let pairs = gaps.iter().filter(|g| **g >= APART).count();
        let gap = gaps.iter().copied().fold(f64::INFINITY, f64::min).min(1e6);
        if best.as_ref().is_none_or(|b| (pairs, gap) > (b.pairs, b.gap)) {
            let Some(here) = wiring.site.circuits.branches.get(*branch) else { continue };
            let named = guesses.iter().zip(&drops);
            let named = named.filter_map(|(g, d)| Some((wiring.run_of(g.first()?.run)?, Volts::new(*d))));
            let next = NextReading {
                at: here.far.clone(),
                with: with.into(),
                current: flow.total.abs(),
                test_load,
                drops: named.collect(),
                decides: false,
            };
            *best = Some(Offer { next, pairs, gap });
        }
    }
}

fn predicted(wiring: &Wiring<'_>, guess: &Guess, currents: &[f64]) -> f64 {
    debug_assert!(currents.len() == wiring.segments.len());
    guess.iter().filter_map(|e| Some(currents.get(e.run)? * e.ohms)).sum()
}
