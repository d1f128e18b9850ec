//! Which number does a cable bear?
//!
//! A number is on sleeves and labels for years: it stays with its cable. Those the plan gives are kept; all others
//! take the lowest that are free, runs first, then leads, in the order of the plan. A shared way is no cable: its number
//! names its fuse, and it takes what is left.

use crate::plan::Run;
use std::collections::BTreeSet;

/// Number of a run on papers, drawings, labels and screens: `R3`.
pub fn run_number(runs: &[Run], run: usize) -> String {
    format!("R{}", runs.get(run).and_then(|r| r.number).map_or(run + 1, |n| n as usize))
}

/// Give every run a number, none of those that are kept free. `devices` says of the last runs which are no cable.
pub fn number(runs: &mut [Run], devices: &[bool], kept: impl Iterator<Item = u32>) {
    let given: BTreeSet<u32> = runs.iter().filter_map(|r| r.number).chain(kept).collect();
    let mut free = (1..).filter(|n| !given.contains(n));
    let own = runs.len().saturating_sub(devices.len());
    let is_device = |run: usize| run.checked_sub(own).and_then(|n| devices.get(n)).copied().unwrap_or(false);
    for last in [false, true] {
        let these = runs.iter_mut().enumerate().filter(|(i, r)| r.number.is_none() && is_device(*i) == last);
        these.for_each(|(_, run)| run.number = free.next());
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn numbered(given: &[Option<u32>], devices: &[bool]) -> Vec<Option<u32>> {
        let mut runs: Vec<Run> = given.iter().map(|&number| Run { number, ..Run::default() }).collect();
        number(&mut runs, devices, std::iter::empty());
        runs.iter().map(|r| r.number).collect()
    }

    #[test]
    fn given_numbers_stay_and_others_take_the_lowest_free() {
        assert_eq!(numbered(&[None, None, None], &[]), [Some(1), Some(2), Some(3)]);
        assert_eq!(numbered(&[Some(3), None, Some(1), None], &[]), [Some(3), Some(2), Some(1), Some(4)]);
    }

    #[test]
    fn what_is_no_cable_takes_no_number_from_one() {
        assert_eq!(numbered(&[None, None, None, None], &[true, false, false]), [Some(1), Some(4), Some(2), Some(3)]);
    }
}
