//! What is commonly bought and run: typical loads, and the standard sizes of chargers and cut-off devices.

use super::sourced::row;
use crate::quantity::*;
use serde::Deserialize;

row! {
    /// A typical load to pick.
    TypicalLoad, TypicalLoadFrom {
        /// Name as shown and as first given to the load.
        name: String,
        /// Group in the pick list: `cooling`, `light`, `water`, …
        group: String,
        /// `constant-power`, `constant-current`, `resistance`.
        kind: String,
        /// Drop class.
        drop: String,
        /// Whether it needs mains voltage from an inverter.
        #[serde(default)]
        inverter: bool,
    }
    values {
        /// Power while on.
        power: Watts = "power_w",
        /// Share of its on-hours it really draws (thermostat); 1 if always.
        share_on: Share = "share_on",
        /// Hours a day it is switched on.
        hours: Hours = "hours_a_day",
        /// Start current in multiples of the running current; 1 if none.
        start_times: f64 = "start_times" in "× running current",
        /// How long the start lasts.
        start: Seconds = "start_s",
        /// Lowest voltage it works at, if it has one.
        lowest: Option<Volts> = "lowest_v",
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
        sizes: Vec<Amps> = "sizes_a",
    }
}
