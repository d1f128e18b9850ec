//! Conductors, insulation, ampacity tables, surroundings and misleading trade labels.

use super::faults::Faults;
use super::row::row;
use super::sourced::{Show, Shown};
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
    /// Sizes of road-vehicle cable, ISO 6722-1 and ISO 19642.
    RoadVehicle,
}

row! {
    /// One conductor size: stranded copper, plain or tinned.
    Conductor, ConductorFrom by label {
        /// `6 mm²`, `6 mm² tinned` or `10 AWG`.
        label: String => text,
        /// Metric, tinned metric or AWG.
        family: Family,
    }
    values {
        /// Nominal area.
        area: SquareMillimetres = "area_mm2" => within(0.05, 1000.0),
        /// Direct-current resistance at 20 °C.
        resistance: OhmsPerKm = "ohm_per_km_20c" => within(0.01, 400.0),
        /// Outside diameter of the insulated cable (thin or ordinary wall).
        outside: Millimetres = "outside_mm" => within(0.5, 100.0),
        /// What its maker says it carries; it counts where it is less than the table gives.
        carries: Option<Amps> = "carries_a" => within(0.1, 2000.0),
    }
    and check_label
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

    fn check_label(&self, faults: &mut Faults) {
        let (copper, area) = (self.copper(), self.area);
        if !(0.6..=1.1).contains(&(copper / area)) && (copper / area).is_finite() {
            faults.add(
                "ohm_per_km_20c",
                format!(
                    "means {copper} of copper for a label of {area}; check the unit (ohms per kilometre at 20 °C) and \
                     the area"
                ),
            );
        }
        let is_gauge = self.label.strip_suffix("AWG").and_then(awg_number).is_some();
        faults.need(self.family != Family::Awg || is_gauge, "label", "is no gauge; write it as `10 AWG` or `2/0 AWG`");
    }
}

row! {
    /// An insulation class.
    Insulation, InsulationFrom by key {
        /// Key in plan files: `pvc-70`, `pvc-105`, `xlpe-125`, `silicone-200`, …
        key: String => text,
        /// Name as shown.
        name: String => text,
    }
    values of row {
        /// Highest continuous conductor temperature.
        max: Celsius = "max_c" => within(40.0, 400.0),
        /// Column of the ampacity table to read (not above `max`).
        column: Celsius = "table_column_c" => within(40.0, row.max.get()),
        /// Adiabatic constant k in A √s / mm².
        adiabatic_k: f64 = "adiabatic_k" in "A √s/mm²" => within(20.0, 200.0),
        /// Thermal conductivity in W/(m K).
        conductivity_w_per_mk: f64 = "conductivity_w_per_mk" in "W/(m K)" => within(0.05, 2.0),
        /// Emissivity of the surface, 0 to 1.
        emissivity: f64 = "emissivity" => within(0.1, 1.0),
        /// Heat capacity by volume in J/(m³ K); that of PVC, which warms fastest, where it is absent.
        heat_store: Option<f64> = "heat_j_per_m3k" in "J/(m³ K)" => within(0.5e6, 5e6),
    }
}

row! {
    /// Ampacity by conductor area and insulation temperature, with its factors.
    #[derive(Default)]
    AmpacityTable, AmpacityTableFrom {
        /// Ambient the table is for.
        ambient: Celsius = "ambient_c" => within(0.0, 60.0),
        /// Insulation temperatures of the columns.
        columns_c: Vec<Celsius> => ascending,
        /// Factors by number of loaded conductors in one bundle, ascending `from_n`.
        bundle: Vec<BundleFactor>,
        /// Factors for the hot air of engine spaces, as the table prints them.
        engine_space: EngineSpace,
    }
    values {
        /// One row a size, by growing area.
        row: Vec<AmpacityRow> = "row",
    }
    and check_table
    holds "bundle" of BundleFactor, "engine_space" of EngineSpace
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
        ambient: Celsius = "ambient_c",
    }
    values {
        /// Multiply the ampacity by this, in the order of the columns.
        factors: Vec<f64> = "factors" => within(0.0, 1.0),
    }
}

row! {
    /// One step of the bundle factor.
    BundleFactor, BundleFactorFrom {
        /// From this many loaded conductors on.
        from_n: u32 => at_least(2),
    }
    values {
        /// Multiply the ampacity by this.
        factor: f64 = "factor" => within(0.05, 1.0),
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
    CablePlace, CablePlaceFrom by key {
        /// Key in plan files: `cabin`, `under-floor`, `engine-bay`, `loom-tube`, …
        key: String => text,
        /// Name as shown.
        name: String => text,
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
        warmer: Kelvins = "warmer_k" => within(0.0, 100.0),
        /// Multiplies the surface heat transfer: 1 in free still air, less in tube or under carpet.
        cooling: f64 = "cooling" => within(0.05, 1.0),
    }
}

row! {
    /// A label cable is sold by that is not its copper area.
    TradeLabel, TradeLabelFrom by label {
        /// As written on the reel, e.g. `6 mm auto`.
        label: String => text,
        /// Why it misleads, in one sentence.
        trap: String => text,
    }
    values {
        /// What the copper really is.
        copper: SquareMillimetres = "copper_mm2" => within(0.05, 1000.0),
    }
}
