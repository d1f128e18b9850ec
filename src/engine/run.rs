//! What follows for each run and each load: size, drop, heat, fuse.

use crate::quantity::*;

/// One run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RunDesign {
    /// Index of the run in the plan.
    pub run: usize,
    /// Index of its branch in the topology; `None` when it hangs together with nothing.
    pub branch: Option<usize>,
    /// Largest steady current.
    pub current: Amps,
    /// Largest short current (a start on top of the rest).
    pub surge: Amps,
    /// How long that lasts.
    pub surge_lasts: Seconds,
    /// Hottest air along it.
    pub air: Celsius,
    /// The size used: pinned by the plan, or chosen.
    pub size: Option<SizeRow>,
    /// Whether the plan pins it.
    pub pinned: bool,
    /// What decided the size, in words: `voltage drop`, `heat`, `fuse`, `smallest size`, `given`.
    pub ruling: &'static str,
    /// Every size of the family side by side, by growing area, the used one among them.
    pub sizes: Vec<SizeRow>,
    /// Its fuses: one at each end that has a source.
    pub fuses: Vec<FuseDesign>,
    /// Largest drop this run may have so that each load beyond keeps its class, the other runs as they are;
    /// zero when no load lies beyond.
    pub drop_allowed: Volts,
    /// What the usual sharing by length and current would allow it.
    pub equal_share: Option<Volts>,
    /// Voltage at its near and far end, all steady loads on, battery at the cut-off.
    pub near_voltage: Volts,
    /// See `near_voltage`.
    pub far_voltage: Volts,
    /// Longest length at this size, and what stops it.
    pub longest: Option<(Metres, &'static str)>,
    /// Biggest steady current at this size and length, and what stops it.
    pub biggest: Option<(Amps, &'static str)>,
    /// Warmest air at this size, and what stops it.
    pub warmest: Option<(Celsius, &'static str)>,
}

/// One size for one run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SizeRow {
    /// Catalogue label.
    pub label: String,
    /// Copper as sold.
    pub area: SquareMillimetres,
    /// Resistance of the loop, hot, joints included.
    pub resistance: Ohms,
    /// Drop of this run at its steady current.
    pub drop: Volts,
    /// The same as a share of 12 V.
    pub drop_share: Share,
    /// Conductor temperature at its steady current.
    pub temperature: Celsius,
    /// Ampacity by table and factors.
    pub ampacity_table: Option<Amps>,
    /// Ampacity by heat balance.
    pub ampacity_heat: Option<Amps>,
    /// The smaller of both: what is used.
    pub ampacity: Amps,
    /// Fuse that would protect it, if any fits.
    pub fuse: Option<Amps>,
    /// Mass of copper, out and back.
    pub mass: Kilograms,
    /// Energy lost a day.
    pub loss: WattHours,
    /// What it fails, in words; empty when it passes all.
    pub fails: Vec<&'static str>,
    /// Whether this is the size used.
    pub used: bool,
}

/// One fuse.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FuseDesign {
    /// The point whose source it guards against.
    pub at: String,
    /// Style key and name.
    pub style: String,
    /// Style name as shown.
    pub style_name: String,
    /// Rating; `None` when nothing fits.
    pub rating: Option<Amps>,
    /// Whether the plan pins it.
    pub pinned: bool,
    /// Least rating: steady current over loading, re-rated for its air.
    pub at_least: Amps,
    /// Most: ampacity of the thinnest conductor it protects.
    pub at_most: Amps,
    /// Largest fault current at its place.
    pub prospective: Amps,
    /// Breaking capacity of the style at the battery's voltage.
    pub breaking: Amps,
    /// Smallest fault current at the far end.
    pub far_fault: Amps,
    /// Longest time it may take to open then; `None` when unknown or never.
    pub opens_within: Option<Seconds>,
    /// Which rule set the rating, in words.
    pub ruling: &'static str,
    /// How far from the source it may sit.
    pub within: Metres,
}

/// The copper of all runs together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CopperDesign {
    /// As sized.
    pub mass: Kilograms,
    /// With the path's drop shared by length and current; `None` where that breaks a limit.
    pub equal_share: Option<Kilograms>,
    /// Whether no choice that keeps every rule is lighter (pinned sizes stay).
    pub least: bool,
    /// The different sizes to buy, by growing area.
    pub labels: Vec<String>,
}

/// What one load gets.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadSupply {
    /// Voltage at its terminals, all steady loads on, battery at the cut-off; `None` when it cannot be fed.
    pub voltage: Option<Volts>,
    /// Voltage while the worst start happens.
    pub surge_voltage: Option<Volts>,
    /// Voltage while charging with little load.
    pub charging_voltage: Option<Volts>,
    /// Drop from the battery posts, out and back.
    pub drop: Volts,
    /// The same as a share of 12 V.
    pub drop_share: Share,
    /// Limit of its class.
    pub limit: Share,
    /// Whether it keeps its class and its lowest voltage.
    pub fits: bool,
}
