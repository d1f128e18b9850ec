//! What is commonly bought and run: typical loads, and the standard sizes of chargers and cut-off devices.

use super::provenance::Provenance;
use crate::quantity::*;
use serde::Deserialize;

/// A typical load to pick.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TypicalLoad {
    /// Name as shown and as first given to the load.
    pub name: String,
    /// Group in the pick list: `cooling`, `light`, `water`, …
    pub group: String,
    /// Power while on.
    #[serde(rename = "power_w")]
    pub power: Watts,
    /// `constant-power`, `constant-current`, `resistance`.
    pub kind: String,
    /// Share of its on-hours it really draws (thermostat); 1 if always.
    pub share_on: Share,
    /// Hours a day it is switched on.
    #[serde(rename = "hours_a_day")]
    pub hours: Hours,
    /// Start current in multiples of the running current; 1 if none.
    pub start_times: f64,
    /// How long the start lasts.
    #[serde(rename = "start_s")]
    pub start: Seconds,
    /// Drop class.
    pub drop: String,
    /// Lowest voltage it works at, if it has one.
    #[serde(rename = "lowest_v", default)]
    pub lowest: Option<Volts>,
    /// Whether it needs mains voltage from an inverter.
    #[serde(default)]
    pub inverter: bool,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
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

/// A row of standard currents.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SizeRow {
    /// Ascending.
    #[serde(rename = "sizes_a")]
    pub sizes: Vec<Amps>,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}
