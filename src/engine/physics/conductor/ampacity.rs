//! How much may a conductor carry for good: by the published table and by the heat balance?
//!
//! Both are shown, the smaller is used. The table knows air and bundle; the
//! heat balance knows the place (tube, carpet) as well.

use crate::catalogue::{AmpacityTable, Cited, cite};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::conductor::laid::Laid;
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// Ampacity of one size as laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ampacity {
    /// By table, air and bundle; `None` where the table has no value.
    pub table: Option<Amps>,
    /// By heat balance.
    pub heat: Amps,
    /// While a load that comes and goes is on, as far as that is more than for ever.
    pub pulsed: Option<Amps>,
}

impl Ampacity {
    /// The smaller of both.
    pub fn for_ever(self) -> Amps {
        self.table.map_or(self.heat, |table| smaller(table, self.heat).value)
    }

    /// What counts: for ever, or for as long as its load is on.
    pub fn used(self) -> Amps {
        self.pulsed.map_or(self.for_ever(), |pulsed| while_on(self.for_ever(), pulsed).value)
    }
}

/// What counts where both methods have a value.
pub fn smaller(table: Amps, heat: Amps) -> Reckoned<Amps, 2> {
    reckon!(Amps: min(A, H), A: "by table and factors" = table, H: "by heat balance" = heat)
}

/// What counts where a load comes and goes.
pub fn while_on(for_ever: Amps, pulsed: Amps) -> Reckoned<Amps, 2> {
    reckon!(Amps: max(E, P),
        E: "for ever" = for_ever,
        P: "while a load that comes and goes is on, its peaks within the insulation's limit" = pulsed)
}

/// The table's value in this air and bundle.
pub fn by_table(base: Amps, air: f64, bundle: f64) -> Reckoned<Amps, 3> {
    reckon!(Amps: B * a * b,
        B: "table" = base,
        a: "factor for the air" = Figure::number(air),
        b: "factor for the bundle" = Figure::number(bundle))
}

/// The table's factors for one way of laying.
#[derive(Clone, Debug)]
pub struct TableFactors {
    /// For the air.
    pub air: Cited<f64>,
    /// For the bundle.
    pub bundle: Cited<f64>,
}

impl TableFactors {
    /// Of a cable laid so.
    pub fn of(table: &AmpacityTable, laid: &Laid) -> Self {
        TableFactors {
            // The column read is not above the insulation's own limit; the factor must be the column's.
            air: table.ambient_factor(laid.insulation.column, laid.air),
            bundle: table.bundle_factor(laid.conductors),
        }
    }

    /// Both ampacities of a cable; `base` is the table's value at its own ambient.
    pub fn ampacity(&self, cable: &Cable, laid: &Laid, base: Option<Amps>) -> Ampacity {
        self.ampacity_by(&HeatPath::new(cable, laid, self.bundle.value), laid, base)
    }

    /// The same where the way of the heat is known.
    pub fn ampacity_by(&self, path: &HeatPath, laid: &Laid, base: Option<Amps>) -> Ampacity {
        ampacity(path, laid.insulation.max, base, self.air.value, self.bundle.value)
    }
}

/// Where the ampacity that counts comes from: the table with the factors that
/// lower it, or the heat balance with what the insulation stands.
pub fn words(table: &AmpacityTable, laid: &Laid, ampacity: Ampacity) -> String {
    if ampacity.table.is_none_or(|by_table| ampacity.heat < by_table) {
        let place = laid.place.map(|p| &p.from.cooling);
        let heat = cite(std::iter::once(&laid.insulation.from.max).chain(place));
        return format!("heat balance up to {}: {heat}", laid.insulation.max);
    }
    let TableFactors { air, bundle } = TableFactors::of(table, laid);
    let lowering = [air, bundle].into_iter().filter(|factor| factor.value < 1.0).map(|factor| factor.source);
    let mut all = vec![table.from.row.words()];
    for source in lowering {
        if !all.contains(&source) {
            all.push(source);
        }
    }
    all.join("; ")
}

/// Both ampacities of a cable by the values of the factors alone, its insulation at its hottest.
pub fn ampacity(path: &HeatPath, hottest: Celsius, base: Option<Amps>, air: f64, bundle: f64) -> Ampacity {
    let heat = path.ampacity(hottest);
    Ampacity { table: base.map(|base| by_table(base, air, bundle).value), heat, pulsed: None }
}
