//! Studs, property classes and shock levels, from `profiles/carrier.toml`.

use super::provenance::Provenance;
use crate::quantity::*;
use serde::Deserialize;

/// A stud or bolt size with coarse metric thread.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudSize {
    /// `M8`.
    pub key: String,
    /// Nominal diameter.
    #[serde(rename = "diameter_mm")]
    pub diameter: Millimetres,
    /// Pitch of the coarse thread.
    #[serde(rename = "pitch_mm")]
    pub pitch: Millimetres,
    /// Nominal stress area of the thread.
    #[serde(rename = "stress_area_mm2")]
    pub stress_area: SquareMillimetres,
    /// Clearance hole for it.
    #[serde(rename = "hole_mm")]
    pub hole: Millimetres,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// A property class of studs and bolts.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StudClass {
    /// `8.8`, `A2-70`, as stamped on the head.
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Stress it stands without lasting stretch.
    #[serde(rename = "proof_mpa")]
    pub proof: Megapascals,
    /// Yield, or 0.2 % proof stress.
    #[serde(rename = "yield_mpa")]
    pub yields: Megapascals,
    /// Tensile strength.
    #[serde(rename = "tensile_mpa")]
    pub tensile: Megapascals,
    /// Shear strength through the thread over the tensile strength.
    pub shear_share: Share,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}

/// Accelerations to hold a battery against, each direction on its own.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shock {
    /// `road-crash`, `rough-track`.
    pub key: String,
    /// Name as shown.
    pub name: String,
    /// Forward and backward.
    #[serde(rename = "along_g")]
    pub along: Gravities,
    /// Left and right.
    #[serde(rename = "across_g")]
    pub across: Gravities,
    /// Up and down, on top of the weight.
    #[serde(rename = "vertical_g")]
    pub vertical: Gravities,
    #[serde(flatten)]
    #[allow(missing_docs)]
    pub from: Provenance,
}
