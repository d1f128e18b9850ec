//! How much energy does a run turn into heat in a day?
//!
//! Loss = 24 h × R × mean of I². The ends beyond switch on and off
//! independently of each other (an approximation): the mean square is then the
//! square of the sum of the means plus the sum of the spreads p (1 - p) I².

use super::demand::{End, Terminal};
use crate::engine::budget::Budget;
use crate::plan::Plan;
use crate::quantity::*;

/// Mean over a day of the square of the current through a run with these ends beyond, A².
pub fn mean_square<'a>(plan: &Plan, budget: &Budget, terminals: impl Iterator<Item = &'a Terminal>) -> f64 {
    let (mut mean, mut spread) = (0.0, 0.0);
    for terminal in terminals {
        for (share, current) in pulses(plan, budget, terminal) {
            let sign = if terminal.end.feeds() { -1.0 } else { 1.0 };
            mean += sign * share * current.get();
            spread += share * (1.0 - share) * current.get().powi(2);
        }
    }
    mean * mean + spread
}

/// Share of the day it is on, and its current then.
fn pulses(plan: &Plan, budget: &Budget, terminal: &Terminal) -> Vec<(f64, Amps)> {
    let load = |i: usize| budget.loads.get(i).map(|b| (on(b.hours.get() * b.share.get()), b.running));
    let driving = on(f64::from(plan.vehicle.driving.minutes()) / 60.0);
    match terminal.end {
        End::Load(i) => load(i).into_iter().collect(),
        End::Inverter => (0..plan.loads.len()).filter(|i| plan.loads[*i].inverter).filter_map(load).collect(),
        End::ChargerOutput | End::ChargerInput => vec![(driving, terminal.current)],
        End::Mains => vec![(on(f64::from(plan.mains.windows.minutes()) / 60.0), terminal.current)],
        // Full output for the hours of sun that would give the day's yield.
        End::Solar => vec![(on(plan.solar.sun_hours.map_or(4.0, |h| h.get())), terminal.current)],
    }
}

fn on(hours: f64) -> f64 {
    (hours / 24.0).clamp(0.0, 1.0)
}
