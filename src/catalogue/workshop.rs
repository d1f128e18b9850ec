//! How cable is cut, ended, coloured and sold, from `profiles/workshop.toml`.

use super::provenance::Provenance;
use crate::quantity::*;
use serde::Deserialize;

/// Everything about cutting and buying.
#[derive(Clone, Debug, Default)]
pub struct Workshop {
    /// Colour of each conductor.
    pub colours: Vec<ConductorColour>,
    /// Lug studs by conductor area, ascending.
    pub lugs: Vec<LugStud>,
    /// Points whose stud is known.
    pub posts: Vec<PostStud>,
    /// Shrink sleeves, ascending.
    pub sleeves: Vec<Sleeve>,
    /// Words of points that take the terminals of their own device.
    pub pins: Vec<PinWord>,
    /// How things are sold.
    pub sales: Vec<Sale>,
}

/// Colour of a conductor.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ConductorColour {
    /// `positive` or `negative`.
    pub conductor: String,
    /// The colour of its insulation.
    pub colour: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// Stud of a lug where nothing else is known.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LugStud {
    /// For conductors up to this area.
    #[serde(rename = "up_to_mm2")]
    pub up_to: SquareMillimetres,
    /// `M6`.
    pub stud: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// A point whose stud is usually the same.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PostStud {
    /// Name of the point.
    pub point: String,
    /// `M8`.
    pub stud: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// A point whose name has this word takes pins of its own make, no ring lugs.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PinWord {
    /// `plug`.
    pub word: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// A shrink sleeve.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sleeve {
    /// Inside diameter as bought.
    #[serde(rename = "expanded_mm")]
    pub expanded: Millimetres,
    /// Inside diameter shrunk with nothing in it.
    #[serde(rename = "shrunk_mm")]
    pub shrunk: Millimetres,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// In which quantity something is sold.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sale {
    /// `cable`, `lug`, `large lug`, `sleeve`, `fuse`.
    pub what: String,
    /// Quantity in one pack, in `unit`.
    pub pack: f64,
    /// `m` or `piece`.
    pub unit: String,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

impl Workshop {
    /// Colour of `positive` or `negative`; empty where none is set.
    pub fn colour(&self, conductor: &str) -> &str {
        self.colours.iter().find(|c| c.conductor == conductor).map_or("", |c| c.colour.as_str())
    }

    /// Quantity in one pack; 1 where nothing is said.
    pub fn pack(&self, what: &str) -> f64 {
        self.sales.iter().find(|s| s.what == what).map_or(1.0, |s| s.pack)
    }

    /// Whether a point takes pins of its own make.
    pub fn takes_pins(&self, point: &str) -> bool {
        let point = point.to_lowercase();
        self.pins.iter().any(|p| point.contains(&p.word))
    }
}
