//! Where does a cable lie: which air, which place, how many neighbours, which insulation?

use crate::catalogue::{CablePlace, Insulation};
use crate::quantity::*;

/// A cable's surroundings.
#[derive(Clone, Copy, Debug)]
pub struct Laid<'a> {
    /// Insulation class.
    pub insulation: &'a Insulation,
    /// What it runs through.
    pub place: Option<&'a CablePlace>,
    /// Hottest air along it.
    pub air: Celsius,
    /// Loaded conductors that lie together, its own way back counted.
    pub conductors: u32,
}

impl Laid<'_> {
    /// How well its surface is cooled by the place: 1 in free still air.
    pub fn cooling(&self) -> f64 {
        self.place.map_or(1.0, |p| p.cooling).clamp(0.01, 10.0)
    }

    /// Whether two cables are laid alike, so that one answer serves both.
    pub fn same(&self, other: &Laid) -> bool {
        std::ptr::eq(self.insulation, other.insulation)
            && self.cooling() == other.cooling()
            && self.air == other.air
            && self.conductors == other.conductors
    }
}
