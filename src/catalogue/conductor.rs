//! Conductors, insulation, ampacity tables, surroundings and misleading trade labels.

use super::sourced::{Show, Shown, row};
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

row! {
    /// One conductor size: stranded copper, plain or tinned.
    Conductor, ConductorFrom {
        /// `6 mm²`, `6 mm² tinned` or `10 AWG`.
        label: String,
        /// Metric, tinned metric or AWG.
        family: Family,
    }
    values {
        /// Nominal area.
        area: SquareMillimetres = "area_mm2",
        /// Direct-current resistance at 20 °C.
        resistance: OhmsPerKm = "ohm_per_km_20c",
        /// Outside diameter of the insulated cable (thin or ordinary wall).
        outside: Millimetres = "outside_mm",
    }
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

row! {
    /// An insulation class.
    Insulation, InsulationFrom {
        /// Key in plan files: `pvc-70`, `pvc-105`, `xlpe-125`, `silicone-200`, …
        key: String,
        /// Name as shown.
        name: String,
    }
    values {
        /// Highest continuous conductor temperature.
        max: Celsius = "max_c",
        /// Column of the ampacity table to read (not above `max`).
        column: Celsius = "table_column_c",
        /// Adiabatic constant k in A √s / mm².
        adiabatic_k: f64 = "adiabatic_k" in "A √s/mm²",
        /// Thermal conductivity in W/(m K).
        conductivity_w_per_mk: f64 = "conductivity_w_per_mk" in "W/(m K)",
        /// Emissivity of the surface, 0 to 1.
        emissivity: f64 = "emissivity",
        /// Heat capacity by volume in J/(m³ K); that of PVC, which warms fastest, where it is absent.
        heat_store: Option<f64> = "heat_j_per_m3k" in "J/(m³ K)",
    }
}

row! {
    /// Ampacity by conductor area and insulation temperature, with its factors.
    #[derive(Default)]
    AmpacityTable, AmpacityTableFrom {
        /// Ambient the table is for.
        #[serde(rename = "ambient_c")]
        ambient: Celsius,
        /// Insulation temperatures of the columns.
        columns_c: Vec<Celsius>,
        /// Factors by number of loaded conductors in one bundle, ascending `from_n`.
        bundle: Vec<BundleFactor>,
        /// Factors for the hot air of engine spaces, as the table prints them.
        engine_space: EngineSpace,
    }
    values {
        /// One row a size, by growing area.
        row: Vec<AmpacityRow> = "row",
    }
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

row! {
    /// The table's own factors for one hotter ambient.
    #[derive(Default)]
    EngineSpace, EngineSpaceFrom {
        /// Ambient they are for.
        #[serde(rename = "ambient_c")]
        ambient: Celsius,
    }
    values {
        /// Multiply the ampacity by this, in the order of the columns.
        factors: Vec<f64> = "factors",
    }
}

row! {
    /// One step of the bundle factor.
    BundleFactor, BundleFactorFrom {
        /// From this many loaded conductors on.
        from_n: u32,
    }
    values {
        /// Multiply the ampacity by this.
        factor: f64 = "factor",
    }
}

impl Show for Vec<AmpacityRow> {
    fn shown(&self, _unit: &'static str) -> Option<Shown> {
        let row = |r: &AmpacityRow| {
            let amps: Vec<String> = r.amps.iter().map(|a| a.get().to_string()).collect();
            format!("{} AWG: {} A", r.awg, amps.join(", "))
        };
        Some(Shown::Words(self.iter().map(row).collect::<Vec<_>>().join("; ")))
    }
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

row! {
    /// Surroundings a cable runs through.
    CablePlace, CablePlaceFrom {
        /// Key in plan files: `cabin`, `under-floor`, `engine-bay`, `loom-tube`, …
        key: String,
        /// Name as shown.
        name: String,
        /// Which air temperature of the plan applies.
        air: Air,
        /// Whether the cable counts as sheathed or enclosed throughout.
        #[serde(default)]
        enclosed: bool,
    }
    values {
        /// What to mind there.
        caution: Option<String> = "caution",
        /// Added to that air temperature.
        #[serde(default)]
        warmer: Kelvins = "warmer_k",
        /// Multiplies the surface heat transfer: 1 in free still air, less in tube or under carpet.
        cooling: f64 = "cooling",
    }
}

row! {
    /// A label cable is sold by that is not its copper area.
    TradeLabel, TradeLabelFrom {
        /// As written on the reel, e.g. `6 mm auto`.
        label: String,
        /// Why it misleads, in one sentence.
        trap: String,
    }
    values {
        /// What the copper really is.
        copper: SquareMillimetres = "copper_mm2",
    }
}
