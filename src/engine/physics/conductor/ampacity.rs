//! How much may a conductor carry for good: by the published table and by the heat balance?
//!
//! Both are shown, the smaller is used. The table knows air and bundle; the
//! heat balance knows the place (tube, carpet) as well.

use crate::catalogue::{AmpacityTable, Cited};
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::heat::HeatPath;
use crate::engine::physics::conductor::laid::Laid;
use crate::quantity::*;

/// Ampacity of one size as laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ampacity {
    /// By table, air and bundle; `None` where the table has no value.
    pub table: Option<Amps>,
    /// By heat balance.
    pub heat: Amps,
}

impl Ampacity {
    /// The smaller of both.
    pub fn used(self) -> Amps {
        self.table.map_or(self.heat, |t| t.min(self.heat))
    }
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
        ampacity(cable, laid, base, self.air.value, self.bundle.value)
    }
}

/// Both ampacities of a cable by the values of the factors alone.
pub fn ampacity(cable: &Cable, laid: &Laid, base: Option<Amps>, air: f64, bundle: f64) -> Ampacity {
    let heat = HeatPath::new(cable, laid, bundle).ampacity(laid.insulation.max);
    Ampacity { table: base.map(|b| b * air * bundle), heat }
}
