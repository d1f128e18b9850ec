//! Studs, property classes and shock levels, from `profiles/carrier.toml`.

use super::provenance::Provenance;
use super::sourced::row;
use crate::quantity::*;

row! {
    /// A stud or bolt size with coarse metric thread.
    StudSize, StudSizeFrom {
        /// `M8`.
        key: String,
    }
    values {
        /// Nominal diameter.
        diameter: Millimetres = "diameter_mm",
        /// Pitch of the coarse thread.
        pitch: Millimetres = "pitch_mm",
        /// Nominal stress area of the thread.
        stress_area: SquareMillimetres = "stress_area_mm2",
        /// Clearance hole for it.
        hole: Millimetres = "hole_mm",
    }
}

row! {
    /// A property class of studs and bolts.
    StudClass, StudClassFrom {
        /// `8.8`, `A2-70`, as stamped on the head.
        key: String,
        /// Name as shown.
        name: String,
    }
    values {
        /// Stress it stands without lasting stretch.
        proof: Megapascals = "proof_mpa",
        /// Yield, or 0.2 % proof stress.
        yields: Megapascals = "yield_mpa",
        /// Tensile strength.
        tensile: Megapascals = "tensile_mpa",
        /// Shear strength through the thread over the tensile strength.
        shear_share: Share = "shear_share",
    }
}

impl Shock {
    /// Source of the level in the direction of a case: `forward`, `left`, `sideways`, `up`, …
    pub fn source(&self, thrown: &str) -> &Provenance {
        match thrown {
            "up" | "down" => &self.from.vertical,
            "left" | "right" | "sideways" => &self.from.across,
            _ => &self.from.along,
        }
    }
}

row! {
    /// Accelerations to hold a battery against, each direction on its own.
    Shock, ShockFrom {
        /// `road-crash`, `rough-track`.
        key: String,
        /// Name as shown.
        name: String,
    }
    values {
        /// Forward and backward.
        along: Gravities = "along_g",
        /// Left and right.
        across: Gravities = "across_g",
        /// Up and down, on top of the weight.
        vertical: Gravities = "vertical_g",
    }
}
