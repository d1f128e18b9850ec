//! Rules of the trade as data: drop classes, fuse placement, and the named numbers with their sources.
//!
//! The named numbers are one table, `rules!` below: the field that the engine
//! reads, the key in the file, the unit, the range that is believed. A rule's
//! value and its source travel together ([`Rule`]).

use super::faults::Faults;
use super::provenance::Provenance;
use super::row::{Part, Row, row};
use super::sourced::{Shown, Value};
use crate::quantity::*;
use serde::Deserialize;

row! {
    /// One drop class.
    DropClass, DropClassFrom by key {
        /// `critical`, `ordinary`, `tolerant`.
        key: String => text,
        /// What belongs into it.
        about: String,
    }
    values {
        /// Largest drop as a share of the nominal 12 V.
        limit: Share = "limit" => within(0.001, 0.5),
    }
}

row! {
    /// How far from the source the fuse may sit.
    Placement, PlacementFrom by key {
        /// `33-cfr-183-455`, `iso-13590`, …
        key: String => text,
    }
    values of row {
        /// Bare cable.
        bare: Metres = "bare_m" => within(0.0, 5.0),
        /// Sheathed or enclosed the whole way.
        enclosed: Metres = "enclosed_m" => within(row.bare.get(), 20.0),
    }
}

/// One named number of the trade with where it comes from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rule<T> {
    /// The number in its unit.
    pub value: T,
    /// What it is, in the words of the profile.
    pub about: String,
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// A `[[number]]` row of a profile.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct NumberRow {
    /// Which rule.
    pub key: String,
    /// Its value, in the unit of the table below.
    pub value: f64,
    /// What it is and its unit.
    pub about: String,
    #[serde(flatten)]
    pub from: Provenance,
}

/// What a `[[number]]` row must be.
pub(super) struct NumberSpec {
    /// Its key in the file.
    pub key: &'static str,
    /// The file of `profiles/` that it belongs into.
    pub file: &'static str,
    /// Least value that is believed.
    pub low: f64,
    /// Largest value that is believed.
    pub high: f64,
}

/// Numbers that the program once asked for. Profiles that still hold them are read; they count for nothing.
const RETIRED: [&str; 2] = ["joint-share", "source-scatter"];

/// A named number as it is listed.
pub struct Numbered<'a> {
    /// Its key, value and source.
    pub value: Value<'a>,
    /// What it is.
    pub about: &'a str,
}

impl<T: Quantity> Rule<T> {
    fn of(row: &NumberRow) -> Self {
        Rule { value: T::of(row.value), about: row.about.clone(), from: row.from.clone() }
    }

    fn numbered(&self, key: &'static str) -> Numbered<'_> {
        let shown = Shown::One(Figure::new(self.value.number(), T::UNIT), "");
        Numbered { value: Value { key, field: key, shown, from: &self.from }, about: &self.about }
    }
}

macro_rules! rules {
    ($($file:literal { $(#[doc = $doc:literal] $name:ident: $type:ty = $key:literal, $low:literal to $high:literal;)* })*) => {
        /// All rules, from `profiles/rules.toml` and the `[[number]]` rows of its neighbours.
        #[derive(Clone, Debug, Default)]
        pub struct Rules {
            /// Voltage-drop classes.
            pub drop_class: Vec<DropClass>,
            /// Distance-from-source rules; the first is the default.
            pub placement: Vec<Placement>,
            $($(#[doc = $doc] pub $name: Rule<$type>,)*)*
        }

        /// Every named number that a catalogue must have.
        pub(super) const NUMBERS: &[NumberSpec] = &[
            $($(NumberSpec { key: $key, file: $file, low: $low, high: $high },)*)*
        ];

        impl Rules {
            /// Fill in the named numbers. That none is missing is judged with the whole catalogue.
            pub(super) fn set(&mut self, rows: &[NumberRow]) {
                for row in rows {
                    match row.key.as_str() {
                        $($($key => self.$name = Rule::of(row),)*)*
                        _ => {}
                    }
                }
            }

            /// Every named number in the order of the table.
            pub fn numbers(&self) -> Vec<Numbered<'_>> {
                vec![$($(self.$name.numbered($key),)*)*]
            }
        }
    };
}

rules! {
"rules.toml" {
    /// Largest continuous current as a share of the fuse's rating, warm air allowed for separately.
    fuse_loading: Share = "fuse-loading", 0.3 to 1.0;
    /// Air at the fuse holder above the hottest air.
    fuse_air: Kelvins = "fuse-air-c", 0.0 to 60.0;
    /// A fault at the far end must open the fuse within this time.
    fault_open: Seconds = "fault-open-s", 0.01 to 60.0;
    /// Largest bank of blocks in parallel without a fuse at each of them.
    block_fuse: AmpHours = "block-fuse-ah", 10.0 to 10000.0;
    /// One crimped lug on its stud, small sizes.
    joint: Milliohms = "joint-mohm", 0.0 to 20.0;
    /// Largest copper whose lug still has all of `joint`; above it a joint falls as 1 / copper.
    joint_whole: SquareMillimetres = "joint-whole-mm2", 0.5 to 500.0;
    /// Least of any lug.
    joint_least: Milliohms = "joint-least-mohm", 0.0 to 20.0;
    /// A switch, cut-off contact or isolator with its two terminals.
    switch: Milliohms = "switch-mohm", 0.0 to 50.0;
    /// Smallest copper for a run.
    smallest: SquareMillimetres = "smallest-mm2", 0.1 to 10.0;
    /// Hot output at idle as a share of the alternator's rating.
    alternator_idle: Share = "alternator-idle-share", 0.0 to 1.0;
    /// Hot output at road speed as a share of the alternator's rating.
    alternator_road: Share = "alternator-road-share", 0.1 to 1.0;
    /// Lowest voltage a charger may meet at its terminals.
    charger_input_low: Volts = "charger-input-low-v", 8.0 to 14.0;
    /// Lowest steady voltage of a variable alternator.
    variable_alternator_low: Volts = "variable-alternator-low-v", 10.0 to 14.5;
    /// Charge voltage under the chemistry's own that still fills lead-acid.
    charge_below: Volts = "charge-below-v", 0.0 to 1.5;
    /// Share of the array's rating that reaches the battery through a tracking controller.
    solar_mppt: Share = "solar-derating-mppt", 0.1 to 1.0;
    /// The same for a shunt or series controller.
    solar_shunt: Share = "solar-derating-shunt", 0.1 to 1.0;
    /// Ampere-hours put in per ampere-hour taken out, lead-acid.
    overcharge: f64 = "overcharge-factor", 1.0 to 2.0;
    /// What an inverter gives for a moment, in multiples of its rating.
    inverter_surge: f64 = "inverter-surge", 1.0 to 10.0;
    /// Largest fuse as a share of the cable's ampacity.
    ampacity_fuse: Share = "ampacity-fuse-share", 0.3 to 1.5;
    /// Upstream rating over downstream rating for a nearest-only trip.
    selectivity: f64 = "selectivity-ratio", 1.0 to 10.0;
    /// Share of a link's melting energy that each of many starts may use.
    start_pulse: Share = "start-pulse-share", 0.05 to 1.0;
    /// Largest steady current of a charger or controller over its rating.
    limited_source: f64 = "limited-source-times", 1.0 to 3.0;
    /// Warming of a bad joint for each watt in it, K/W.
    joint_warming: f64 = "joint-k-per-w", 0.1 to 500.0;
}
"carrier.toml" {
    /// K of T = K d F.
    nut_factor: f64 = "nut-factor", 0.05 to 0.5;
    /// Preload lower or higher at the same torque, as a share.
    torque_scatter: Share = "torque-scatter", 0.0 to 0.6;
    /// Preload aimed at, as a share of the proof load.
    preload: Share = "preload-share", 0.1 to 0.95;
    /// Friction of the clamped faces.
    slip_friction: f64 = "slip-friction", 0.05 to 0.8;
    /// Partial factor on the tensile strength of a bolt.
    bolt_partial: f64 = "bolt-partial-factor", 1.0 to 3.0;
    /// Density of structural steel, kg/m³.
    steel_density: f64 = "steel-density-kg-m3", 1000.0 to 12000.0;
    /// Length of a bar of flat steel as sold.
    bar_length: Millimetres = "bar-length-mm", 500.0 to 12000.0;
    /// Long side of a sheet as sold.
    sheet_length: Millimetres = "sheet-length-mm", 500.0 to 6000.0;
    /// Short side of a sheet as sold.
    sheet_width: Millimetres = "sheet-width-mm", 300.0 to 3000.0;
    /// What a saw takes away.
    saw_kerf: Millimetres = "saw-kerf-mm", 0.5 to 10.0;
    /// Yield of plain structural steel strip.
    strip_yield: Megapascals = "strip-yield-mpa", 50.0 to 1500.0;
    /// Tensile strength of plain structural steel strip.
    strip_tensile: Megapascals = "strip-tensile-mpa", 100.0 to 2000.0;
    /// Partial factor on the yield of strip, sheet and plates.
    metal_partial: f64 = "metal-partial-factor", 1.0 to 3.0;
    /// Thickest throat of a fillet weld over the thinnest metal it joins.
    weld_throat_share: Share = "weld-throat-share", 0.3 to 1.0;
    /// Shortest weld that is counted on.
    weld_least: Millimetres = "weld-least-mm", 5.0 to 100.0;
    /// What must be left above the ground with the springs on their stops.
    ground_at_stops: Millimetres = "ground-at-stops-mm", 10.0 to 400.0;
    /// Way of the springs to their stops, where it is not given.
    spring_travel: Millimetres = "spring-travel-mm", 0.0 to 400.0;
    /// Nearest that an exhaust may come with nothing between.
    exhaust_bare: Millimetres = "exhaust-bare-mm", 50.0 to 1000.0;
    /// Nearest that an exhaust may come with a plate between.
    exhaust_shielded: Millimetres = "exhaust-shielded-mm", 20.0 to 1000.0;
    /// Nearest that shaft, springs, tyres, brake and fuel lines may come.
    moving_near: Millimetres = "moving-near-mm", 10.0 to 300.0;
    /// Free way that a device which gets warm leaves to the battery, and the air above it.
    mounted_gap: Millimetres = "mounted-gap-mm", 5.0 to 500.0;
    /// Hottest air in which a device gives all that it is rated for, where its sheet does not say.
    mounted_full_to: Celsius = "mounted-full-to-c", 0.0 to 120.0;
    /// Hottest air in which a device works at all, where its sheet does not say.
    mounted_hottest: Celsius = "mounted-hottest-c", 0.0 to 150.0;
    /// How much shorter a spacer is than the floor is deep.
    spacer_short: Millimetres = "spacer-short-mm", 0.0 to 3.0;
    /// Modulus of elasticity of steel.
    steel_modulus: Megapascals = "steel-modulus-mpa", 100000.0 to 300000.0;
    /// Modulus of elasticity of aluminium.
    aluminium_modulus: Megapascals = "aluminium-modulus-mpa", 40000.0 to 100000.0;
    /// Modulus of elasticity of plywood.
    plywood_modulus: Megapascals = "plywood-modulus-mpa", 1000.0 to 20000.0;
    /// Correlation factor of fillet welds.
    weld_correlation: f64 = "weld-correlation", 0.5 to 1.5;
    /// Proof stress of bent and welded aluminium sheet.
    aluminium_proof: Megapascals = "aluminium-proof-mpa", 20.0 to 600.0;
    /// Tensile strength of bent and welded aluminium sheet.
    aluminium_tensile: Megapascals = "aluminium-tensile-mpa", 50.0 to 700.0;
    /// Density of aluminium, kg/m³.
    aluminium_density: f64 = "aluminium-density-kg-m3", 2000.0 to 3500.0;
    /// Bending strength of plywood.
    plywood_bending: Megapascals = "plywood-bending-mpa", 2.0 to 150.0;
    /// Strength of plywood against a plate that is pulled through.
    plywood_shear: Megapascals = "plywood-shear-mpa", 0.2 to 20.0;
    /// Strength of plywood pressed across its face.
    plywood_crush: Megapascals = "plywood-crush-mpa", 0.2 to 20.0;
    /// Partial factor of plywood.
    plywood_partial: f64 = "plywood-partial-factor", 1.0 to 3.0;
    /// Most that a bar may press on the lid of a battery.
    lid_pressure: Megapascals = "lid-pressure-mpa", 0.01 to 50.0;
    /// Most that one person lifts.
    lift_one: Kilograms = "lift-one-kg", 5.0 to 60.0;
    /// Most that two people lift together.
    lift_two: Kilograms = "lift-two-kg", 10.0 to 120.0;
    /// Most that a battery may move in its holder.
    play: Millimetres = "play-mm", 0.0 to 100.0;
}
"test-sheet.toml" {
    /// Copper may have this share less resistance than published.
    copper_below: Share = "copper-below", 0.0 to 0.3;
    /// And this share more.
    copper_above: Share = "copper-above", 0.0 to 0.3;
    /// A sound fuse-link may have this share more or less, for its warmth too.
    link_scatter: Share = "link-scatter", 0.0 to 2.0;
    /// A sound joint may have this share more or less.
    joint_scatter: Share = "joint-scatter", 0.0 to 5.0;
    /// Current of a load that was not measured, share more or less.
    load_scatter: Share = "load-scatter", 0.0 to 1.0;
    /// Error of a voltmeter as a share of the reading.
    meter_reading: Share = "meter-reading", 0.0 to 0.1;
    /// Last digit of a voltmeter.
    meter_step: Volts = "meter-step-v", 0.0001 to 0.1;
    /// Error of a voltmeter in last digits.
    meter_digits: f64 = "meter-digits", 0.0 to 20.0;
    /// Error of a clamp meter as a share of the reading.
    clamp_reading: Share = "clamp-reading", 0.0 to 0.2;
    /// Error of a clamp meter near zero.
    clamp_zero: Amps = "clamp-zero-a", 0.0 to 5.0;
    /// Copper may be this much warmer or colder than the air entered.
    test_spread: Kelvins = "test-spread-k", 0.0 to 60.0;
    /// Heat in one joint that harms.
    joint_heat: Watts = "joint-heat-w", 0.1 to 100.0;
}
"workshop.toml" {
    /// Length added for bends, as a share.
    cut_slack: Share = "cut-slack-share", 0.0 to 1.0;
    /// Length added at each end.
    cut_end: Metres = "cut-slack-end-m", 0.0 to 2.0;
    /// Cut lengths are rounded up to a multiple of this.
    cut_step: Metres = "cut-step-m", 0.001 to 5.0;
    /// Lead to the body where the body is the way back.
    earth_lead: Metres = "earth-lead-m", 0.05 to 10.0;
    /// From clip to clip.
    clip_spacing: Metres = "clip-spacing-m", 0.05 to 2.0;
    /// Conduit at each place where a cable needs it.
    guard: Metres = "guard-m", 0.05 to 10.0;
    /// Sleeve over each lug.
    sleeve_length: Millimetres = "sleeve-length-mm", 5.0 to 500.0;
    /// A sleeve is wider than the cable by this factor.
    sleeve_over: f64 = "sleeve-over", 1.0 to 3.0;
    /// Spare fuse-links of each style and rating.
    spare_fuses: f64 = "spare-fuses", 0.0 to 20.0;
    /// From this copper on lugs are sold singly.
    large_lug: SquareMillimetres = "large-lug-mm2", 1.0 to 1000.0;
    /// Wire that switches the charger on.
    enable_wire: SquareMillimetres = "enable-wire-mm2", 0.2 to 6.0;
    /// Fuse of that wire.
    enable_fuse: Amps = "enable-fuse-a", 0.5 to 10.0;
}
}

impl Rules {
    /// The drop class with this key.
    pub fn class(&self, key: &str) -> Option<&DropClass> {
        self.drop_class.iter().find(|c| c.key == key)
    }
}

impl Part for NumberRow {
    fn check(&self, faults: &mut Faults) {
        match NUMBERS.iter().find(|n| n.key == self.key) {
            Some(known) => faults.within("value", &self.value, known.low, known.high),
            None if RETIRED.contains(&self.key.as_str()) => {}
            None => {
                let keys: Vec<&str> = NUMBERS.iter().map(|n| n.key).collect();
                faults.add("key", format!("is no number the program asks for; they are {}", keys.join(", ")));
            }
        }
        faults.text("about", &self.about);
        if self.from.is_nameless() {
            faults.nameless("how");
        }
    }
}

impl Row for NumberRow {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }
}
