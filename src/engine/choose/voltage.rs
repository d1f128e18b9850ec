//! At which voltage does the cut-off open?
//!
//! At the step that acts nearest to the reserve with the usual current, within a window: high enough to protect
//! the battery at a light current, low enough not to open at a heavy one while much more than the reserve is left.

use crate::engine::installation::cut_off::tidy;
use crate::engine::judge::cut_off::limits::{DEEPER, EARLY, OUT_OF_THE_RESERVE};
use crate::engine::physics::cell::store::Store;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::cut_off::case::Case;
use crate::engine::simulate::cut_off::curve::trips_at;
use crate::engine::simulate::cut_off::result::Window;
use crate::quantity::*;
use crate::reckon;

/// Largest bank looked at for one voltage that serves all currents, as a multiple of this one.
const LARGEST: f64 = 8.0;

/// The setting, within what the device can be set to.
pub(crate) fn setting(case: &Case<'_>) -> Reckoned<Volts, 4> {
    let device = case.device;
    let volts = match case.counter {
        None => within(&window(case), nearest(case), device.step),
        Some(_) => floor(case),
    };
    let steps = (volts.get() / device.step.get()).round();
    tidy(reckon!(Volts: min(max(n * d, L), H),
        n: "steps: those that act nearest to the reserve with the usual current, within the window; under a counter, as low as the heavy current and all that may be on ask for" = Figure::number(steps),
        d: "step of the device" = device.step,
        L: "lowest that it can be set to" = device.lowest,
        H: "highest that it can be set to" = device.highest.max(device.lowest)))
}

/// A floor under counted charge: where the heavy current has taken a stated share of the reserve, so that it guards a
/// counter that shows too much and does not open before one that is right, with all on that may be; never where harm
/// begins.
fn floor(case: &Case<'_>) -> Volts {
    let left = (case.reserve - OUT_OF_THE_RESERVE).max(Share::ZERO);
    let heavy = case.device.step_down(case.sensing(left, case.currents.heavy));
    let pulled = case.pulled.map_or(heavy, |pulled| case.device.step_down(pulled));
    heavy.min(pulled).min(nearest(case)).max(case.device.least_floor(case.store.chemistry))
}

/// The step that acts nearest to the reserve with the usual current; not far below it, nor where harm begins.
fn nearest(case: &Case<'_>) -> Volts {
    let (device, usual, reserve) = (case.device, case.currents.usual, case.reserve);
    let exact = case.sensing(reserve, usual);
    let (up, down) = (device.step_up(exact), device.step_down(exact));
    let acts = |volts| trips_at(case, usual, volts).unwrap_or(Share::ZERO);
    let under = reserve - acts(down);
    let harmless = down > case.store.chemistry.low.floor().0;
    if harmless && under <= DEEPER && under < acts(up) - reserve { down } else { up }
}

/// Between which voltages a setting serves both a light and a heavy current.
pub(crate) fn window(case: &Case<'_>) -> Window {
    let (reserve, currents) = (case.reserve, case.currents);
    let kept = |out: Share| (reserve - out).max(Share::ZERO);
    let harm = case.store.chemistry.low.floor().0 + case.device.step;
    let light = case.sensing(kept(OUT_OF_THE_RESERVE), currents.light);
    let usual = case.sensing(kept(DEEPER), currents.usual);
    let heavy = case.sensing((reserve + EARLY).min(Share::FULL), currents.heavy);
    Window { lowest: light.max(usual).max(harm), highest: heavy }
}

fn within(window: &Window, nearest: Volts, step: Volts) -> Volts {
    let steps = |volts: Volts| volts.get() / step.get();
    let (lowest, highest) = ((steps(window.lowest) - 1e-6).ceil(), (steps(window.highest) + 1e-6).floor());
    match lowest <= highest {
        true => step * steps(nearest).clamp(lowest, highest),
        false => nearest,
    }
}

/// The bank with which one voltage serves both, where none does with this one; in steps of a quarter.
pub(crate) fn served_by(case: &Case<'_>) -> Option<AmpHours> {
    let step = case.device.step;
    let open = |window: Window| (window.highest - window.lowest) >= step;
    let more = |n: i32| 1.25f64.powi(n);
    let banks = (1..).map(more).take_while(|times| *times <= LARGEST);
    let with = |times: f64| {
        let store = Store { capacity: case.store.capacity * times, base: case.store.base / times, ..case.store };
        open(window(&Case { store, ..case.clone() })).then_some(store.capacity)
    };
    if window(case).empty() { banks.into_iter().find_map(with) } else { None }
}
