//! How much energy does a run turn into heat in a day?
//!
//! Loss = 24 h × R × mean of I². The ends beyond switch on and off
//! independently of each other (an approximation): the mean square is then the
//! square of the sum of the means plus the sum of the spreads p (1 - p) I².

use crate::engine::installation::Installation;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::circuit::demand::{End, Terminal};
use crate::quantity::*;

/// Mean over a day of the square of the current through each branch, A².
pub fn mean_squares(site: &Installation, budget: &Budget, terminals: &[Terminal]) -> Vec<f64> {
    let hours = SourceHours::of(site);
    let mut sums = vec![(0.0, 0.0); site.circuits.branches.len()];
    for terminal in terminals {
        let (mean, spread) = pulses(site, budget, &hours, terminal);
        let mut at = terminal.branch;
        while let Some(branch) = at {
            sums[branch].0 += mean;
            sums[branch].1 += spread;
            at = site.circuits.branches[branch].parent;
        }
    }
    sums.into_iter().map(|(mean, spread)| mean * mean + spread).collect()
}

/// Hours a day the sources feed.
struct SourceHours {
    driving: f64,
    mains: f64,
    /// Full output for the hours of sun that would give the day's yield.
    sun: f64,
}

impl SourceHours {
    fn of(site: &Installation) -> Self {
        SourceHours {
            driving: f64::from(site.vehicle.driving.minutes()) / 60.0,
            mains: f64::from(site.mains.windows.minutes()) / 60.0,
            sun: site.solar.sun_hours.map_or(4.0, SunHours::get),
        }
    }
}

/// Mean current and its spread; what feeds counts against what draws.
fn pulses(site: &Installation, budget: &Budget, hours: &SourceHours, terminal: &Terminal) -> (f64, f64) {
    let pulse = |hours: f64, current: Amps| {
        let (share, i) = ((hours / 24.0).clamp(0.0, 1.0), current.get());
        (share * i, share * (1.0 - share) * i * i)
    };
    let load = |i: usize| budget.loads.get(i).map_or((0.0, 0.0), |b| pulse(b.hours.get() * b.share.get(), b.running));
    match terminal.end {
        End::Load(i) => load(i),
        End::Inverter => {
            let plugged = (0..site.loads.len()).filter(|i| site.loads[*i].inverter);
            plugged.map(load).fold((0.0, 0.0), |sum, one| (sum.0 + one.0, sum.1 + one.1))
        }
        End::ChargerInput => pulse(hours.driving, terminal.current),
        End::ChargerOutput => back(pulse(hours.driving, terminal.current)),
        End::Mains => back(pulse(hours.mains, terminal.current)),
        End::Solar => back(pulse(hours.sun, terminal.current)),
    }
}

fn back((mean, spread): (f64, f64)) -> (f64, f64) {
    (-mean, spread)
}
