//! Cut-off, reconnect and delay, in the device's steps.

use crate::engine::choose::cut_off::{AtCurrent, Case, CutOffDesign, Device, USUAL};
use crate::engine::simulate::cut_off::curve::{curve, trips_at};
use crate::quantity::*;

/// How far the reconnect voltage must at least stand above the rebound.
/// Common practice, no source.
pub(crate) const ABOVE_REBOUND: Volts = Volts::new(0.1);

/// How much longer than the start the delay should be. Common practice, no source.
pub(crate) const DELAY_TIMES: f64 = 2.0;

/// Shortest delay that is chosen, so that a contact's bounce or a spike does not count.
/// Common practice, no source.
const SHORTEST: Seconds = Seconds::new(5.0);

pub(crate) fn settle(case: &Case<'_>) -> CutOffDesign {
    let (_, usual, held) = case.currents[USUAL];
    let exact = case.sensing(case.reserve, usual, held);
    let cut = case.device.cut.unwrap_or_else(|| up(exact, case.device));
    let at_currents: Vec<AtCurrent> = case
        .currents
        .iter()
        .map(|&(name, current, held)| AtCurrent {
            name,
            current,
            held,
            posts: case.posts(case.reserve, current, held),
            sensing: case.sensing(case.reserve, current, held),
            trips_at: trips_at(case, current, held, cut),
        })
        .collect();
    let rebound = rebound(case, &at_currents);
    let surge_voltage = case.sensing(case.reserve, case.surge, Hours::ZERO);
    let surges = case.start.get() > 0.0 && surge_voltage.get() < cut.get();
    let delay_needed = if surges { Seconds::new((case.start.get() * DELAY_TIMES).ceil()) } else { Seconds::ZERO };
    let hysteresis_needed = (rebound + ABOVE_REBOUND - cut).max(case.device.step);
    let reconnect = case.device.reconnect.unwrap_or_else(|| reconnect(case, cut + hysteresis_needed, cut));
    let delay = case.device.delay.unwrap_or_else(|| delay_needed.max(SHORTEST).min(case.device.longest_delay));
    CutOffDesign {
        cut,
        exact,
        reconnect,
        hysteresis_needed,
        delay,
        delay_needed,
        reserve: case.reserve,
        between: case.path.resistance * case.path.share.get(),
        usual: USUAL,
        curve: curve(case),
        rebound,
        charging: case.charging,
        surge_voltage,
        after: case.after,
        days_to_harm: crate::engine::simulate::cut_off::rest::days_to_harm(
            case,
            at_currents.get(USUAL).and_then(|a| a.trips_at),
        ),
        at_currents,
        ..CutOffDesign::default()
    }
}

/// After the load has gone the posts come back to rest at whatever charge the
/// cut happened. The heavier the current, the higher that is; half of the gap
/// between resting after charge and after discharge is added.
fn rebound(case: &Case<'_>, at: &[AtCurrent]) -> Volts {
    let highest = at.iter().filter_map(|a| a.trips_at).fold(case.reserve, Share::max);
    case.store.resting_most(highest, case.air) + case.store.chemistry.resting.hysteresis
}

/// Rounded up to a step and kept within what can be set: rounding up keeps more in the battery.
pub(crate) fn up(volts: Volts, device: Device) -> Volts {
    within(step_up(volts, device.step), device)
}

/// The next step at or above, without the dust of binary fractions.
pub(crate) fn step_up(volts: Volts, step: Volts) -> Volts {
    let step = step.get().max(0.001);
    tidy((volts.get() / step - 1e-6).ceil() * step)
}

fn step_down(volts: Volts, step: Volts) -> Volts {
    let step = step.get().max(0.001);
    tidy((volts.get() / step + 1e-6).floor() * step)
}

fn tidy(volts: f64) -> Volts {
    Volts::new((volts * 1e4).round() / 1e4)
}

fn within(volts: Volts, device: Device) -> Volts {
    volts.max(device.lowest).min(device.highest.max(device.lowest))
}

/// Above the rebound; where charging does not reach that, one step under what it reaches.
fn reconnect(case: &Case<'_>, wanted: Volts, cut: Volts) -> Volts {
    let stepped = step_up(wanted, case.device.step);
    let reachable = step_down(case.charging - Volts::new(0.1), case.device.step);
    // A device has its own range for this setting; it is not known, so only the
    // cut-off voltage bounds it from below.
    stepped.min(reachable).max(step_up(cut + case.device.step, case.device.step))
}
