//! What is commonly bought and run: typical loads, the standard sizes of chargers and cut-off devices, and chargers by name.

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

row! {
    /// A charger by name, as its data sheet has it. None comes with the program: they are the user's own.
    BoughtCharger, BoughtChargerFrom by key {
        /// Key by which it is asked for.
        key: String => text,
        /// Name as shown.
        name: String => text,
        /// `dc-dc` or `mains`.
        kind: String => one_of(CHARGER_KINDS),
    }
    values {
        /// Rated output.
        output: Amps = "output_a" => within(0.5, 500.0),
        /// Charge voltage at its output.
        charge: Option<Volts> = "charge_v" => within(11.0, 18.0),
        /// Output power over input power.
        efficiency: Option<Share> = "efficiency" => within(0.5, 1.0),
        /// Lowest voltage at its input that it works with.
        lowest_input: Option<Volts> = "lowest_input_v" => within(8.0, 14.0),
        /// Most current that its input takes.
        input: Option<Amps> = "input_a" => within(0.5, 1000.0),
        /// What it takes from the battery while off.
        standing_draw: Option<Amps> = "standing_draw_a" => within(0.0, 2.0),
    }
}

/// What a [`BoughtCharger`] may be.
pub const CHARGER_KINDS: &[&str] = &["dc-dc", "mains"];
