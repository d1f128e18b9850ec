//! How hard is a crimp pulled to be proven?

use crate::catalogue::Conductor;
use crate::engine::ask::workshop::cut::CutList;
use crate::engine::ask::workshop::piece::Cut;
use crate::engine::design::Design;
use crate::engine::physics::conductor::cable::Cable;
use crate::quantity::*;

/// What a trial crimp of one size must stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull {
    /// Conductor label, e.g. `10 mm²`.
    pub size: String,
    /// For a minute, along the cable.
    pub least: Newtons,
    /// Where that comes from.
    pub source: String,
}

/// One for each size of a cut list that is thick enough to have a figure, by growing copper.
pub fn pulls(design: &Design, list: &CutList) -> Vec<Pull> {
    let catalogue = &design.installation.catalogue;
    let cable = |cut: &Cut| Cable::labelled(catalogue, &cut.size).map(|cable| cable.conductor.into_owned());
    let mut conductors: Vec<Conductor> = list.cuts.iter().filter_map(cable).collect();
    conductors.sort_by(|a, b| a.area.get().total_cmp(&b.area.get()));
    conductors.dedup_by(|a, b| a.label == b.label);
    let pull = |conductor: Conductor| {
        let row = catalogue.workshop.pulls.iter().rev().find(|p| p.area <= conductor.area)?;
        Some(Pull { size: conductor.label, least: row.least, source: row.from.least.words() })
    };
    conductors.into_iter().filter_map(pull).collect()
}
