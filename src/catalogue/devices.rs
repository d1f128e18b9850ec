//! What is commonly bought and run: typical loads, and the standard sizes of chargers and cut-off devices.

use super::row::row;
use crate::quantity::*;
use serde::Deserialize;

row! {
    /// A typical load to pick.
    TypicalLoad, TypicalLoadFrom by name {
        /// Name as shown and as first given to the load.
        name: String => text,
        /// Group in the pick list: `cooling`, `light`, `water`, …
        group: String => text,
        /// `constant-power`, `constant-current`, `resistance`.
        kind: String => one_of(&["constant-power", "constant-current", "resistance"]),
        /// Drop class.
        drop: String,
        /// Whether it needs mains voltage from an inverter.
        #[serde(default)]
        inverter: bool,
    }
    values {
        /// Power while on.
        power: Watts = "power_w" => within(0.01, 10_000.0),
        /// Share of its on-hours it really draws (thermostat); 1 if always.
        share_on: Share = "share_on" => share,
        /// Hours a day it is switched on.
        hours: Hours = "hours_a_day" => within(0.0, 24.0),
        /// Start current in multiples of the running current; 1 if none.
        start_times: f64 = "start_times" in "× running current" => within(1.0, 20.0),
        /// How long the start lasts.
        start: Seconds = "start_s" => within(0.0, 600.0),
        /// On for at most, where it comes and goes.
        on: Option<Seconds> = "on_s" => within(0.5, 7200.0),
        /// Then off for at least.
        off: Option<Seconds> = "off_s" => within(0.0, 86_400.0),
        /// Lowest voltage it works at, if it has one.
        lowest: Option<Volts> = "lowest_v" => within(5.0, 14.0),
    }
}

/// Standard sizes of bought devices, from `profiles/devices.toml`.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Devices {
    /// DC-DC charger output currents.
    pub chargers: SizeRow,
    /// Mains charger output currents.
    pub mains_chargers: SizeRow,
    /// Cut-off device current ratings.
    pub cut_offs: SizeRow,
}

row! {
    /// A row of standard currents.
    #[derive(Default)]
    SizeRow, SizeRowFrom {}
    values {
        /// Ascending.
        sizes: Vec<Amps> = "sizes_a" => ascending,
    }
}
