//! What the trade knows: chemistries, conductors, insulation, fuse-links, places, rules, typical loads.
//!
//! All of it is data in `profiles/*.toml`, embedded in the program; files of
//! the same shape in the user's folder replace or add rows (see [`load`]).
//! Every row says where it comes from ([`Provenance`]).

mod ampacity;
mod carrier;
mod check;
mod chemistry;
mod conductor;
mod curve;
mod folder;
mod fuse;
mod load;
mod provenance;
mod read;
mod rules;
mod sources;
#[cfg(test)]
mod tests;
mod whole;
mod workshop;

pub use ampacity::{Cited, LEAST_OF_GAUGE};
pub use carrier::*;
pub use chemistry::*;
pub use conductor::*;
pub use curve::Curve;
pub use folder::user_folder;
pub use fuse::*;
pub use load::Layer;
pub use provenance::{How, Provenance};
pub use read::CatalogueError;
pub use rules::*;
pub use workshop::*;

/// Everything the trade knows, in one value that is passed to the engine.
#[derive(Clone, Debug, Default)]
pub struct Catalogue {
    /// Battery chemistries, in the order shown.
    pub chemistries: Vec<Chemistry>,
    /// Conductor sizes of all families, each family by growing area.
    pub conductors: Vec<Conductor>,
    /// Insulation classes, by growing temperature.
    pub insulations: Vec<Insulation>,
    /// The ampacity table and its correction factors.
    pub ampacity: AmpacityTable,
    /// Trade labels that do not say what they seem to (cable sold by outside diameter).
    pub trade_labels: Vec<TradeLabel>,
    /// Fuse-link styles.
    pub fuse_styles: Vec<FuseStyle>,
    /// Surroundings a cable may run through.
    pub places: Vec<CablePlace>,
    /// Typical loads to pick from.
    pub loads: Vec<TypicalLoad>,
    /// Standard sizes of chargers and settings of cut-off devices.
    pub devices: Devices,
    /// How cable is cut, ended, coloured and sold.
    pub workshop: Workshop,
    /// Sizes of studs and bolts, by growing diameter.
    pub studs: Vec<StudSize>,
    /// Property classes of studs and bolts.
    pub stud_classes: Vec<StudClass>,
    /// Shock levels to hold a battery against.
    pub shocks: Vec<Shock>,
    /// Rules of the trade: drop classes, fuse loading, placement, joints.
    pub rules: Rules,
}

impl Catalogue {
    /// The chemistry with this key, e.g. `lithium-iron-phosphate`.
    pub fn chemistry(&self, key: &str) -> Option<&Chemistry> {
        self.chemistries.iter().find(|c| c.key == key)
    }
    /// The insulation class with this key, e.g. `pvc-105`.
    pub fn insulation(&self, key: &str) -> Option<&Insulation> {
        self.insulations.iter().find(|i| i.key == key)
    }
    /// The fuse style with this key, e.g. `blade`.
    pub fn fuse_style(&self, key: &str) -> Option<&FuseStyle> {
        self.fuse_styles.iter().find(|f| f.key == key)
    }
    /// The cable surroundings with this key, e.g. `under-floor`.
    pub fn place(&self, key: &str) -> Option<&CablePlace> {
        self.places.iter().find(|p| p.key == key)
    }
    /// The stud size with this key, e.g. `M8`.
    pub fn stud(&self, key: &str) -> Option<&StudSize> {
        self.studs.iter().find(|s| s.key == key)
    }
    /// The property class with this key, e.g. `8.8`.
    pub fn stud_class(&self, key: &str) -> Option<&StudClass> {
        self.stud_classes.iter().find(|c| c.key == key)
    }
    /// The shock level with this key, e.g. `road-crash`.
    pub fn shock(&self, key: &str) -> Option<&Shock> {
        self.shocks.iter().find(|s| s.key == key)
    }
    /// The conductor with this label, e.g. `6 mm²` or `10 AWG`.
    pub fn conductor(&self, label: &str) -> Option<&Conductor> {
        self.conductors.iter().find(|c| c.label == label)
    }
    /// The sizes of one family by growing area.
    pub fn sizes(&self, family: Family) -> impl Iterator<Item = &Conductor> {
        self.conductors.iter().filter(move |c| c.family == family)
    }
}
