//! How hard is a crimp pulled to be proven?

use crate::engine::ask::workshop::cut::CutList;
use crate::engine::design::Design;
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
    let mut conductors: Vec<_> = list.cuts.iter().filter_map(|c| catalogue.conductor(&c.size)).collect();
    conductors.sort_by(|a, b| a.area.get().total_cmp(&b.area.get()));
    conductors.dedup_by(|a, b| a.label == b.label);
    let pull = |conductor: &crate::catalogue::Conductor| {
        let row = catalogue.workshop.pulls.iter().rev().find(|p| p.area <= conductor.area)?;
        Some(Pull { size: conductor.label.clone(), least: row.least, source: row.from.least.words() })
    };
    conductors.into_iter().filter_map(pull).collect()
}
