//! How sure is it, and what matters most?
//!
//! The same days are simulated many times with draws over what nobody knows
//! beforehand: how much is really used, how warm it is, how much sun comes,
//! how old the battery is, how well charging while driving goes, how full it
//! starts. Each draw has its own stream of the seeded generator, so that the
//! result is the same on any number of cores. The tornado moves one input at a
//! time from its 10 % to its 90 % value, the others in the middle. Left out:
//! inputs that hang together (cold days are dark days).

pub mod draw;
pub mod tornado;

use crate::engine::simulate::chance::draw::{Draws, Input, MOST_DRAWS};
use crate::engine::simulate::chance::tornado::{Bar, tornado};
use crate::engine::simulate::days::midnight::run;
use crate::engine::simulate::days::run::Pace;
use crate::engine::simulate::days::scenario::Scenario;
use crate::engine::simulate::days::span::EnduranceError;
use crate::quantity::*;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

/// What the draws say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Uncertainty {
    /// How many draws there were; fewer than asked when cancelled.
    pub draws: u32,
    /// The seed they were made from.
    pub seed: u64,
    /// Chance of having been cut off in the night that ends on each day.
    pub cut_at_night: Vec<Share>,
    /// Chance of having been cut off at least once by the end of each day.
    pub cut_by: Vec<Share>,
    /// Chance of no cut in all the days.
    pub uncut: Share,
    /// Lowest state of charge: in one of twenty draws it is lower, in half, in nineteen of twenty.
    pub lowest: [Share; 3],
    /// Hours without power of all loads together, likewise.
    pub unserved: [Hours; 3],
    /// What matters most first: lowest charge at one input's 10 % and 90 % value.
    pub tornado: Vec<Bar>,
}

/// Why nothing could be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum UncertaintyError {
    /// So many draws are not made.
    Count(u32),
    /// A range has no numbers in it.
    Range(Input),
    /// The days cannot be simulated.
    Endurance(EnduranceError),
}

impl UncertaintyError {
    /// What is wrong, the accepted range and what to do, without a full stop.
    pub fn explain(&self) -> String {
        match self {
            UncertaintyError::Count(n) => {
                format!("{n} trials cannot be made; accepted are 1 to {MOST_DRAWS}, for example 1000")
            }
            UncertaintyError::Range(input) => format!(
                "the range of {} is not one: its low end must be a number not above its high end, within {}",
                input.words(),
                input.accepted()
            ),
            UncertaintyError::Endurance(e) => e.explain(),
        }
    }
}

/// What one draw leaves behind.
#[derive(Clone, Debug, Default, PartialEq)]
struct Outcome {
    lowest: f64,
    unserved: f64,
    nights: Vec<bool>,
    first_cut_day: Option<u32>,
}

/// Draw on `threads` cores. `watch` hears after each draw how many are done, on
/// whichever core did it; when it returns false the rest is left undone.
///
/// # Errors
/// When the count, a range or the span is outside what is accepted.
pub fn uncertainty(
    scenario: &Scenario<'_>,
    draws: Draws,
    threads: usize,
    watch: &(dyn Fn(u32) -> bool + Sync),
) -> Result<Uncertainty, UncertaintyError> {
    if draws.count == 0 || draws.count > MOST_DRAWS {
        return Err(UncertaintyError::Count(draws.count));
    }
    if let Some(input) = draws.ranges.broken() {
        return Err(UncertaintyError::Range(input));
    }
    draws.span.check().map_err(UncertaintyError::Endurance)?;
    let outcomes = all(scenario, &draws, threads.max(1), watch);
    let mut out = Uncertainty { seed: draws.seed, ..summed(&outcomes, draws.span.days) };
    out.tornado = tornado(scenario, draws.span, &draws.ranges);
    Ok(out)
}

/// Draws are taken one by one from a common counter and put back in their order.
fn all(scenario: &Scenario<'_>, draws: &Draws, threads: usize, watch: &(dyn Fn(u32) -> bool + Sync)) -> Vec<Outcome> {
    let (next, done, stop) = (AtomicU32::new(0), AtomicU32::new(0), AtomicBool::new(false));
    let work = || {
        let mut mine = Vec::new();
        while !stop.load(Ordering::Relaxed) {
            let index = next.fetch_add(1, Ordering::Relaxed);
            if index >= draws.count {
                break;
            }
            mine.push((index, one(scenario, draws, index)));
            if !watch(done.fetch_add(1, Ordering::Relaxed) + 1) {
                stop.store(true, Ordering::Relaxed);
            }
        }
        mine
    };
    let mut gathered: Vec<(u32, Outcome)> = std::thread::scope(|scope| {
        let others: Vec<_> = (1..threads).map(|_| scope.spawn(work)).collect();
        let mut all = work();
        // A core that failed leaves its draws out; the count says so.
        all.extend(others.into_iter().filter_map(|t| t.join().ok()).flatten());
        all
    });
    gathered.sort_by_key(|(index, _)| *index);
    gathered.into_iter().map(|(_, outcome)| outcome).collect()
}

fn one(scenario: &Scenario<'_>, draws: &Draws, index: u32) -> Outcome {
    let vary = draw::vary(draws, index);
    let out = run(scenario, draws.span, &vary, Pace::Minutes);
    Outcome {
        lowest: out.lowest.get(),
        unserved: out.loads.iter().map(|l| l.unserved.get()).sum(),
        nights: out.by_day.iter().map(|d| d.cut_at_night).collect(),
        first_cut_day: out.by_day.iter().position(|d| d.cut_hours.get() > 0.0).map(|d| d as u32),
    }
}

fn summed(outcomes: &[Outcome], days: u32) -> Uncertainty {
    let count = outcomes.len().max(1) as f64;
    let share = |hit: &dyn Fn(&Outcome) -> bool| Share::new(outcomes.iter().filter(|o| hit(o)).count() as f64 / count);
    let spread = |of: &dyn Fn(&Outcome) -> f64| {
        let mut values: Vec<f64> = outcomes.iter().map(of).collect();
        values.sort_by(f64::total_cmp);
        [0.05, 0.5, 0.95].map(|p| quantile(&values, p))
    };
    Uncertainty {
        draws: outcomes.len() as u32,
        seed: 0,
        cut_at_night: (0..days as usize).map(|d| share(&|o| o.nights.get(d) == Some(&true))).collect(),
        cut_by: (0..days).map(|d| share(&|o| o.first_cut_day.is_some_and(|f| f <= d))).collect(),
        uncut: share(&|o| o.first_cut_day.is_none()),
        lowest: spread(&|o| o.lowest).map(Share::new),
        unserved: spread(&|o| o.unserved).map(Hours::new),
        tornado: Vec::new(),
    }
}

/// The value under which a share of the sorted values lies, straight between neighbours; 0 for none.
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let at = share * sorted.len().saturating_sub(1) as f64;
    let below = at.floor();
    match (sorted.get(below as usize), sorted.get(below as usize + 1)) {
        (Some(a), Some(b)) => a + (b - a) * (at - below),
        (Some(a), None) => *a,
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numpy 2.4 `quantile` of 1, 2, 3, 4, 10 (linear): 5 % 1.2, 50 % 3, 95 % 8.8.
    #[test]
    fn quantiles_as_numpy_has_them() {
        let values = [1.0, 2.0, 3.0, 4.0, 10.0];
        for (share, expected) in [(0.05, 1.2), (0.5, 3.0), (0.95, 8.8)] {
            assert!((quantile(&values, share) - expected).abs() < 1e-12);
        }
        assert_eq!(quantile(&[], 0.5), 0.0);
    }
}
