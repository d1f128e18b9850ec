//! How far apart and how slow may the settings be?

use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// A setting may let so much of the reserve go at the usual current. Common practice, no source.
pub(crate) const DEEPER: Share = Share::new(0.05);

/// So much of the reserve may go at a light current, or where only that keeps the promised days. Common practice, no
/// source.
pub(crate) const OUT_OF_THE_RESERVE: Share = Share::new(0.1);

/// A heavy current may trip it so much before the reserve. Common practice, no source.
pub(crate) const EARLY: Share = Share::new(0.15);

/// How far the reconnect voltage must at least stand above the rebound.
/// Common practice, no source.
const ABOVE_REBOUND: Volts = Volts::new(0.1);

/// How far a reconnect voltage is chosen under what charging reaches. Common practice, no source.
pub(crate) const UNDER_CHARGING: Volts = Volts::new(0.1);

/// How much longer than the start the delay should be. Common practice, no source.
const TIMES_THE_START: f64 = 2.0;

/// Least distance from cut to reconnect that does not chatter.
pub(crate) fn hysteresis_needed(rebound: Volts, cut: Volts, step: Volts) -> Reckoned<Volts, 4> {
    reckon!(Volts: max(R + a - U, d),
        R: "posts after the loads have gone" = rebound,
        a: "room above that" = ABOVE_REBOUND,
        U: "cut-off voltage" = cut,
        d: "step of the device" = step)
}

/// The delay that outlasts a start.
pub(crate) fn outlasting(start: Seconds) -> Reckoned<Seconds, 2> {
    reckon!(Seconds: ceil(t * k),
        t: "longest start that would reach the setting" = start,
        k: "times as long" = Figure::number(TIMES_THE_START))
}
