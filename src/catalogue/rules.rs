//! Rules of the trade as data: drop classes, fuse loading and placement, joints, typical loads, device sizes.

use super::Provenance;
use crate::quantity::*;
use serde::Deserialize;

/// All rules, from `profiles/rules.toml`.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rules {
    /// Voltage-drop classes.
    pub drop_class: Vec<DropClass>,
    /// Distance-from-source rules; the first is the default.
    pub placement: Vec<Placement>,
    /// Plain numbers: see `profiles/rules.toml` for the keys.
    pub number: Vec<NumberRule>,
}

/// One drop class.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DropClass {
    /// `critical`, `ordinary`, `tolerant`.
    pub key: String,
    /// Largest drop as a share of the nominal 12 V.
    pub limit: Share,
    /// What belongs into it.
    pub about: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// How far from the source the fuse may sit.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Placement {
    /// `33-cfr-183-455`, `iso-13590`, …
    pub key: String,
    /// Bare cable.
    #[serde(rename = "bare_m")]
    pub bare: Metres,
    /// Sheathed or enclosed the whole way.
    #[serde(rename = "enclosed_m")]
    pub enclosed: Metres,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// A named number with its source, e.g. `fuse-loading = 0.8`.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NumberRule {
    /// Which rule.
    pub key: String,
    /// Its value, in the unit said in `about`.
    pub value: f64,
    /// What it is and its unit.
    pub about: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

impl Rules {
    /// The drop class with this key.
    pub fn class(&self, key: &str) -> Option<&DropClass> {
        self.drop_class.iter().find(|c| c.key == key)
    }

    /// A named number. The loader refuses a catalogue in which one of
    /// [`NUMBER_KEYS`] is missing, so the fallback of zero is never used.
    pub fn number(&self, key: &str) -> f64 {
        self.number.iter().find(|n| n.key == key).map_or(0.0, |n| n.value)
    }

    /// Source of a named number.
    pub fn number_source(&self, key: &str) -> String {
        self.number.iter().find(|n| n.key == key).map(|n| n.from.words()).unwrap_or_default()
    }
}

/// The numbers that must be present, by the file of `profiles/` they stand in.
pub const NUMBER_KEYS: &[&str] = &[
    // rules.toml
    "fuse-loading",              // continuous current / rating, share
    "fuse-air-c",                // air at the fuse holder above the hottest air, K
    "fault-open-s",              // a far-end fault must open the fuse within, s
    "joint-mohm",                // one crimped lug on its stud, small sizes, mΩ
    "joint-whole-mm2",           // largest copper whose lug still has all of that, mm²
    "joint-least-mohm",          // least of any lug, mΩ
    "switch-mohm",               // a switch, cut-off contact or isolator, mΩ
    "smallest-mm2",              // smallest copper for a run, mm²
    "alternator-idle-share",     // hot output at idle as a share of the rating
    "alternator-road-share",     // hot output at road speed as a share of the rating
    "charger-input-low-v",       // lowest voltage a charger may meet at its terminals, V
    "variable-alternator-low-v", // lowest steady voltage of a variable alternator, V
    "charge-below-v",            // charge voltage under the chemistry's own that still fills lead-acid, V
    "solar-derating-mppt",       // share of the array's rating that reaches the battery
    "solar-derating-shunt",      // the same for a shunt controller
    "overcharge-factor",         // Ah put in per Ah taken out, lead-acid
    "inverter-surge",            // what an inverter gives for a moment, over its rating
    "ampacity-fuse-share",       // largest fuse as a share of the cable's ampacity
    "selectivity-ratio",         // upstream rating / downstream rating for a nearest-only trip
    "start-pulse-share",         // share of a link's melting energy that each of many starts may use
    "limited-source-times",      // largest steady current of a charger or controller over its rating
    // carrier.toml
    "nut-factor",          // K of T = K d F
    "torque-scatter",      // preload lower or higher at the same torque, share
    "preload-share",       // preload aimed at, share of the proof load
    "joint-share",         // share of an outside pull that a preloaded stud takes
    "slip-friction",       // friction of the clamped faces
    "bolt-partial-factor", // on the tensile strength of a bolt
    "steel-density-kg-m3", // kg/m³
    "strip-yield-mpa",     // MPa
    "lift-one-kg",         // one person, kg
    "lift-two-kg",         // two people together, kg
    "play-mm",             // most that a battery may move in its holder, mm
    // test-sheet.toml
    "copper-below",   // copper may have this share less resistance than published
    "copper-above",   // and this share more
    "link-scatter",   // a fuse-link may have this share more or less, for its warmth too
    "joint-scatter",  // a sound joint may have this share more or less
    "source-scatter", // internal resistance of a battery, share more or less
    "load-scatter",   // current of a load that was not measured, share more or less
    "meter-reading",  // error of a voltmeter, share of the reading
    "meter-step-v",   // last digit of a voltmeter, V
    "meter-digits",   // error in last digits
    "clamp-reading",  // error of a clamp meter, share of the reading
    "clamp-zero-a",   // and A
    "test-spread-k",  // copper may be this much warmer or colder than the air entered, K
    "joint-heat-w",   // heat in one joint that harms, W
    "joint-k-per-w",  // warming of a bad joint for each watt, K/W
    // workshop.toml
    "cut-slack-share",  // length added for bends, share
    "cut-slack-end-m",  // length added at each end, m
    "cut-step-m",       // cut lengths rounded up to a multiple of this, m
    "earth-lead-m",     // lead to the body where it is the way back, m
    "sleeve-length-mm", // sleeve over each lug, mm
    "sleeve-over",      // sleeve wider than the cable by this factor
    "spare-fuses",      // of each style and rating
    "large-lug-mm2",    // from here lugs are sold singly
    "enable-wire-mm2",  // wire that switches the charger on
    "enable-fuse-a",    // and its fuse
];

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
