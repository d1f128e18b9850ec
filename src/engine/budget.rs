//! How much energy and charge a day: per load and in all.

use crate::quantity::*;

/// The daily budget.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Budget {
    /// One for each load of the plan, in its order.
    pub loads: Vec<LoadBudget>,
    /// Standing draws of charger and cut-off a day.
    pub standing: AmpHours,
    /// The inverter's idle draw a day.
    pub inverter_idle: AmpHours,
    /// All of it a day, standing draws included.
    pub charge: AmpHours,
    /// All of it a day.
    pub energy: WattHours,
    /// Charge by day (06:00 to 18:00).
    pub by_day: AmpHours,
    /// Charge by night.
    pub by_night: AmpHours,
    /// Charge while driving.
    pub driving: AmpHours,
    /// Charge while parked.
    pub parked: AmpHours,
    /// Current of all that can be on together.
    pub peak: Amps,
    /// The worst start on top of the rest that can be on.
    pub surge: Amps,
    /// The load whose start is the worst.
    pub surge_load: Option<usize>,
    /// Mean current while parked at night: what usually flows when the cut-off acts.
    pub usual: Amps,
    /// Standing draws and the smallest steady load: the least that flows.
    pub light: Amps,
}

/// The budget of one load, all its items together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadBudget {
    /// Hours a day switched on.
    pub hours: Hours,
    /// Share of that time it draws, at the mean air.
    pub share: Share,
    /// Current at 12 V while it draws, taken from the 12 V side, through the inverter if AC.
    pub running: Amps,
    /// Highest current while it starts; the running current if it has no surge.
    pub starting: Amps,
    /// Charge a day.
    pub charge: AmpHours,
    /// Energy a day, taken from the battery.
    pub energy: WattHours,
    /// Charge by night.
    pub by_night: AmpHours,
    /// Charge while driving.
    pub driving: AmpHours,
}
