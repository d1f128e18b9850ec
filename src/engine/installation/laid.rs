//! Where does a cable lie: which air, which place, how many neighbours, which insulation?

use crate::catalogue::{Air, CablePlace, Catalogue, Insulation};
use crate::plan::{ReturnPath, Run, Surroundings};
use crate::quantity::*;

/// A cable's surroundings, settled from plan and catalogue.
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

impl<'a> Laid<'a> {
    /// Of a run. `None` when the catalogue has no insulation class at all.
    ///
    /// A key the catalogue does not know falls back to the insulation with the
    /// lowest temperature: the plan's reader has reported it already.
    pub fn of(catalogue: &'a Catalogue, surroundings: &Surroundings, run: &Run) -> Option<Self> {
        let coolest = || catalogue.insulations.iter().min_by(|a, b| a.max.get().total_cmp(&b.max.get()));
        let insulation = catalogue.insulation(&run.insulation).or_else(coolest)?;
        let place = catalogue.place(&run.surroundings);
        let base = match place.map(|p| p.air) {
            Some(Air::EngineBay) => surroundings.engine_bay,
            _ => surroundings.hottest,
        };
        let air = run.air.unwrap_or(base + place.map_or(Kelvins::ZERO, |p| p.warmer));
        let own = if run.return_path == ReturnPath::Cable { 2 } else { 1 };
        Some(Laid { insulation, place, air, conductors: own + 2 * run.bundled_with })
    }

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
