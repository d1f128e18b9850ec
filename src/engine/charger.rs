//! Which charge current, what feeds it, how long to recover.

use crate::quantity::*;

/// The charger.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ChargerDesign {
    /// Output current: as given or as chosen; `None` when there is no charger.
    pub current: Option<Amps>,
    /// Charge voltage at its output.
    pub output: Volts,
    /// Current that puts a day's draw back in a day's driving.
    pub lower: Bound,
    /// What it may not exceed, each by itself.
    pub upper: Vec<Bound>,
    /// Charge it puts back on a day of driving.
    pub a_day: AmpHours,
    /// Worst-case input current with the feed's drop.
    pub input: Amps,
    /// Voltage at its input terminals then.
    pub input_voltage: Volts,
    /// Hot alternator at idle, less the vehicle's own draw.
    pub spare_idle: Amps,
    /// Hot alternator on the road, less the vehicle's own draw.
    pub spare_road: Amps,
    /// Charge from the sun on a usual day.
    pub solar_a_day: AmpHours,
    /// Charge from the mains on a usual day with it.
    pub mains_a_day: AmpHours,
    /// Driving time from the planned depth to each state of charge.
    pub recovery: Vec<Recovery>,
}

/// A bound on the charge current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bound {
    /// Short name, also the working's name: `day's draw`, `battery`, `alternator on the road`, …
    pub name: &'static str,
    /// The current.
    pub amps: Amps,
}

/// Time to come back to a state of charge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recovery {
    /// State of charge.
    pub to: Share,
    /// Hours of charging; `None` when it is never reached.
    pub hours: Option<Hours>,
}
