//! Battery chemistries: everything the engine needs to know of one, per 12 V block.
//!
//! One file each in `profiles/chemistries/`. Voltages are for the whole block,
//! resistances for a block of 100 Ah (scaled by 100/Ah elsewhere).

use super::curve::Curve;
use super::provenance::Provenance;
use crate::quantity::*;
use serde::Deserialize;

/// Broad family, for the rules that differ between lead and lithium.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)]
pub enum Chemical {
    LeadAcid,
    Lithium,
    SodiumIon,
}

/// One battery chemistry.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chemistry {
    /// Key in plan files: `flooded`, `agm`, `gel`, `lithium-iron-phosphate`, `lithium-nmc`.
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Lead or lithium.
    pub chemical: Chemical,
    /// Cells in series in a 12 V block.
    pub cells: u32,
    /// Nominal block voltage.
    #[serde(rename = "nominal_v")]
    pub nominal: Volts,
    /// One sentence for the pick list.
    pub about: String,
    /// Cautions special to this chemistry, in plain words.
    pub cautions: Vec<String>,
    /// Resting voltage by state of charge.
    pub resting: Resting,
    /// Internal resistance.
    pub resistance: Resistance,
    /// What a faster discharge delivers.
    pub rate: Rate,
    /// What cold leaves of the capacity.
    pub cold: Cold,
    /// How deep to discharge, and how it wears.
    pub life: Life,
    /// How to charge it.
    pub charge: Charge,
    /// Temperatures it may be used at.
    pub limits: Limits,
    /// Mass and sizes sold.
    pub blocks: Blocks,
    /// Voltages at the low end.
    pub low: LowEnd,
}

/// Resting (open-circuit) block voltage at 25 °C.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Resting {
    /// State of charge (share of the rated-hour capacity) against volts.
    #[serde(rename = "soc_v")]
    pub curve: Curve<Share, Volts>,
    /// Change of the block's resting voltage with temperature, in volts per kelvin.
    pub v_per_k: f64,
    /// Half-width of the gap between resting after charge and after discharge.
    #[serde(rename = "hysteresis_v", default)]
    pub hysteresis: Volts,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// Internal resistance of a 100 Ah block, posts to posts, at 25 °C.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Resistance {
    /// Ohmic and slow polarisation together, new, at 50 % or fuller: milliohm for 100 Ah. Used for voltage under load.
    pub working_mohm: f64,
    /// Purely ohmic, new, full, warm: the least it can be; used for prospective fault current.
    pub fault_mohm: f64,
    /// Factor by state of charge.
    pub by_soc: Curve<Share, Share>,
    /// Factor by temperature.
    pub by_temperature: Curve<Celsius, Share>,
    /// Factor at end of life.
    pub aged_factor: f64,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// Delivered capacity against rate.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rate {
    /// Hours of the rating (20 for lead-acid, often 5 for lithium).
    #[serde(rename = "rated_h")]
    pub rated: Hours,
    /// Peukert exponent for currents above the rated one.
    pub peukert: f64,
    /// Kinetic battery model: share of the charge that is at hand at once.
    pub kinetic_c: f64,
    /// Kinetic battery model: rate constant k' per hour.
    pub kinetic_k_per_h: f64,
    /// Highest continuous discharge in multiples of the capacity per hour.
    pub max_c: f64,
    /// Highest discharge for ten seconds.
    pub max_short_c: f64,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// Capacity at a temperature as a share of that at 25 °C.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cold {
    /// Temperature against share of the capacity.
    pub capacity: Curve<Celsius, Share>,
    /// Freezing point of the electrolyte by state of charge, where it can freeze.
    #[serde(default)]
    pub freezing: Option<Curve<Share, Celsius>>,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// Depth, cycles, years.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Life {
    /// Depth of discharge to plan with.
    #[serde(rename = "depth")]
    pub depth: Share,
    /// Deepest that a plan may choose without a caution.
    pub deepest: Share,
    /// Share of the rated capacity left when it is replaced.
    pub end_of_life: Share,
    /// Depth of a daily cycle against cycles to that end of life.
    pub cycles: Curve<Share, CycleCount>,
    /// Years to end of life by calendar alone at 25 °C.
    #[serde(rename = "calendar_y")]
    pub calendar: Years,
    /// Self-discharge a month (30 days) at 25 °C.
    #[serde(rename = "self_discharge_month")]
    pub self_discharge: Share,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// Charging.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Charge {
    /// Constant-voltage (absorption) stage.
    #[serde(rename = "absorption_v")]
    pub absorption: Volts,
    /// Float stage, or the storage voltage where float is not wanted.
    #[serde(rename = "float_v")]
    pub float: Volts,
    /// Never above this at the posts.
    #[serde(rename = "max_v")]
    pub max: Volts,
    /// Temperature compensation, volts per kelvin for the whole block (negative or zero).
    pub v_per_k: f64,
    /// Lowest useful charge current in multiples of the capacity per hour.
    pub min_c: f64,
    /// Highest charge current to plan with.
    pub max_c: f64,
    /// State of charge where constant current ends at about 0.2 C.
    pub bulk_to: Share,
    /// Tail current that ends absorption.
    pub tail_c: f64,
    /// Charge put in per charge got back, as a share (0.9 means 10 % lost).
    pub coulombic: Share,
    /// Block voltage where gassing begins at 25 °C; absent where there is none.
    #[serde(rename = "gassing_v", default)]
    pub gassing: Option<Volts>,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// Temperature limits of the cells.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limits {
    /// Coldest at which it may be charged.
    #[serde(rename = "charge_min_c")]
    pub charge_min: Celsius,
    /// Hottest at which it may be charged.
    #[serde(rename = "charge_max_c")]
    pub charge_max: Celsius,
    /// Coldest at which it may be discharged.
    #[serde(rename = "discharge_min_c")]
    pub discharge_min: Celsius,
    /// Hottest at which it may be discharged.
    #[serde(rename = "discharge_max_c")]
    pub discharge_max: Celsius,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// Mass and the sizes sold.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Blocks {
    /// Mass of a 100 Ah block.
    #[serde(rename = "kg_per_100ah")]
    pub mass_100ah: Kilograms,
    /// Capacities sold as one block.
    #[serde(rename = "sizes_ah")]
    pub sizes: Vec<AmpHours>,
    /// Most blocks in parallel without a caution.
    pub max_parallel: u32,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// The low end: where harm begins.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LowEnd {
    /// Resting or lightly loaded voltage below which the block is harmed.
    #[serde(rename = "damage_v")]
    pub damage: Volts,
    /// Where the block's own protection opens, if it has one.
    #[serde(rename = "own_protection_v", default)]
    pub own_protection: Option<Volts>,
    /// State of charge below which leaving it standing harms it.
    pub stand_above: Share,
    /// Reserve left at the cut-off if the plan does not say.
    pub reserve: Share,
    /// Current of the block's own electronics for 100 Ah.
    #[serde(rename = "own_draw_a", default)]
    pub own_draw: Amps,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Source,
}

/// [`Provenance`] as flattened into a row.
pub type Source = Provenance;
