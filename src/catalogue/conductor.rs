//! Conductors, insulation, ampacity tables, surroundings and misleading trade labels.

use super::provenance::Provenance;
use crate::quantity::*;
use serde::Deserialize;

/// Family of sizes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// IEC 60228 metric sizes.
    #[default]
    Metric,
    /// The same with every strand tinned, which damp and salt do not eat: the standard's own column for
    /// metal-coated wires.
    Tinned,
    /// American Wire Gauge, the same as Brown & Sharpe.
    Awg,
}

/// One conductor size: stranded copper, plain or tinned.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Conductor {
    /// `6 mm²`, `6 mm² tinned` or `10 AWG`.
    pub label: String,
    /// Metric, tinned metric or AWG.
    pub family: Family,
    /// Nominal area.
    #[serde(rename = "area_mm2")]
    pub area: SquareMillimetres,
    /// Direct-current resistance at 20 °C.
    #[serde(rename = "ohm_per_km_20c")]
    pub resistance: OhmsPerKm,
    /// Outside diameter of the insulated cable (thin or ordinary wall).
    #[serde(rename = "outside_mm")]
    pub outside: Millimetres,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// Resistivity of copper at 20 °C, 100 % IACS: 1.7241e-8 Ωm. NBS Handbook 100.
pub const COPPER_OHM_MM2_PER_KM: f64 = 17.241;
/// Density of copper in kg/m³. NBS Handbook 100.
pub const COPPER_DENSITY: f64 = 8890.0;

impl Conductor {
    /// Area of copper that gives the published resistance at 100 % IACS: what
    /// carries the current whatever the label says. S = ρ20 / R'.
    pub fn copper(&self) -> SquareMillimetres {
        SquareMillimetres::new(COPPER_OHM_MM2_PER_KM / self.resistance.get())
    }

    /// Mass of copper per length, from [`Conductor::copper`]: m' = S × density.
    pub fn copper_mass(&self) -> KilogramsPerKm {
        KilogramsPerKm::new(self.copper().get() * COPPER_DENSITY / 1000.0)
    }
}

/// An insulation class.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Insulation {
    /// Key in plan files: `pvc-70`, `pvc-105`, `xlpe-125`, `silicone-200`, …
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Highest continuous conductor temperature.
    #[serde(rename = "max_c")]
    pub max: Celsius,
    /// Column of the ampacity table to read (not above `max`).
    #[serde(rename = "table_column_c")]
    pub column: Celsius,
    /// Adiabatic constant k in A √s / mm².
    pub adiabatic_k: f64,
    /// Thermal conductivity in W/(m K).
    pub conductivity_w_per_mk: f64,
    /// Emissivity of the surface, 0 to 1.
    pub emissivity: f64,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// Ampacity by conductor area and insulation temperature, with its factors.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AmpacityTable {
    /// Ambient the table is for.
    #[serde(rename = "ambient_c")]
    pub ambient: Celsius,
    /// Insulation temperatures of the columns.
    pub columns_c: Vec<Celsius>,
    /// One row a size, by growing area.
    pub row: Vec<AmpacityRow>,
    /// Factors by number of loaded conductors in one bundle, ascending `from_n`.
    pub bundle: Vec<BundleFactor>,
    /// Factors for the hot air of engine spaces, as the table prints them.
    pub engine_space: EngineSpace,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// One row of [`AmpacityTable`].
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AmpacityRow {
    /// AWG label, e.g. `10` or `2/0`.
    pub awg: String,
    /// Amps in the order of the columns.
    pub amps: Vec<Amps>,
}

/// The table's own factors for one hotter ambient.
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EngineSpace {
    /// Ambient they are for.
    #[serde(rename = "ambient_c")]
    pub ambient: Celsius,
    /// Multiply the ampacity by this, in the order of the columns.
    pub factors: Vec<f64>,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// One step of the bundle factor.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BundleFactor {
    /// From this many loaded conductors on.
    pub from_n: u32,
    /// Multiply the ampacity by this.
    pub factor: f64,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// Which air a place has.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Air {
    /// The hottest air of the plan (`hottest_c`).
    Hottest,
    /// The engine bay (`engine_bay_c`).
    EngineBay,
}

/// Surroundings a cable runs through.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CablePlace {
    /// Key in plan files: `cabin`, `under-floor`, `engine-bay`, `loom-tube`, …
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Which air temperature of the plan applies.
    pub air: Air,
    /// Added to that air temperature.
    #[serde(rename = "warmer_k", default)]
    pub warmer: Kelvins,
    /// Multiplies the surface heat transfer: 1 in free still air, less in tube or under carpet.
    pub cooling: f64,
    /// Whether the cable counts as sheathed or enclosed throughout.
    #[serde(default)]
    pub enclosed: bool,
    /// What to mind there.
    #[serde(default)]
    pub caution: Option<String>,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// A label cable is sold by that is not its copper area.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TradeLabel {
    /// As written on the reel, e.g. `6 mm auto`.
    pub label: String,
    /// What the copper really is.
    #[serde(rename = "copper_mm2")]
    pub copper: SquareMillimetres,
    /// Why it misleads, in one sentence.
    pub trap: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}
