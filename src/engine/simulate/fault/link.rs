//! What does one run put into the way of a fault current?
//!
//! Copper out and back by the published resistance of its size, at the coldest
//! air for the largest fault and at the insulation's own limit for the
//! smallest; joints, switches and the body's return as they are at any
//! temperature. The fuse-links are added elsewhere: the smallest fault passes
//! them by their drop at the rated current, the largest by the least that a cold
//! link has.

use crate::catalogue::Catalogue;
use crate::engine::installation::Installation;
use crate::engine::installation::run::ways;
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::copper::warmed;
use crate::engine::simulate::circuit::result::SizeRow;
use crate::plan::Run;
use crate::quantity::*;

/// One run as a conductor of fault current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Link {
    /// Length one way.
    pub length: Metres,
    /// Copper out and back, 20 °C; zero while no size is known.
    pub copper: Ohms,
    /// 2 with a conductor back, 1 where the body is the way back.
    pub ways: f64,
    /// Joints, switches, the body.
    pub fixed: Ohms,
    /// Hottest that its insulation stands.
    pub hottest: Celsius,
    /// Adiabatic constant of its insulation, A √s / mm².
    pub adiabatic_k: f64,
    /// Copper of the size.
    pub area: SquareMillimetres,
    /// What it carries, for ever or while a load that comes and goes is on; zero while no size is known.
    pub ampacity: Amps,
    /// What it carries for ever.
    pub for_ever: Amps,
}

impl Link {
    /// The run to the point `far`, with a size.
    pub fn with_size(site: &Installation, run: &Run, far: &str, size: Option<&SizeRow>) -> Self {
        let (insulation, ways) = (site.insulation_of(run), ways(run));
        let area = size.map_or(SquareMillimetres::ZERO, |s| s.area);
        Link {
            length: run.length,
            ways,
            copper: size.map_or(Ohms::ZERO, |s| per_km(&site.catalogue, s) * run.length * ways),
            fixed: site.besides_copper(run, far, area),
            hottest: insulation.map_or(Celsius::new(70.0), |i| i.max),
            adiabatic_k: insulation.map_or(0.0, |i| i.adiabatic_k),
            area,
            ampacity: size.map_or(Amps::ZERO, |s| s.ampacity),
            for_ever: size.map_or(Amps::ZERO, SizeRow::for_ever),
        }
    }

    /// One conductor for each metre, 20 °C.
    pub fn copper_per_metre(&self) -> Ohms {
        let metres = self.length.get() * self.ways;
        if metres > 0.0 { self.copper / metres } else { Ohms::ZERO }
    }

    /// Whether a size is known, so that a fuse can be chosen for it.
    pub fn is_sized(&self) -> bool {
        self.ampacity.get() > 0.0
    }

    /// Resistance in the cold, fuse-links left out.
    pub fn cold(&self, air: Celsius) -> Ohms {
        warmed(self.copper, air).max(Ohms::ZERO) + self.fixed
    }

    /// Resistance with the conductor as hot as its insulation stands, fuse-links left out.
    pub fn hot(&self) -> Ohms {
        warmed(self.copper, self.hottest) + self.fixed
    }

    /// Hot copper out and back for each metre of its length.
    pub fn hot_per_metre(&self) -> f64 {
        if self.length.get() > 0.0 { warmed(self.copper, self.hottest).get() / self.length.get() } else { 0.0 }
    }
}

/// Resistance of what is sold under a size's label.
fn per_km(catalogue: &Catalogue, size: &SizeRow) -> OhmsPerKm {
    match catalogue.conductor(&size.label) {
        Some(conductor) => conductor.resistance,
        None => Cable::labelled(catalogue, &size.label).map_or(OhmsPerKm::ZERO, |c| c.conductor.resistance),
    }
}
