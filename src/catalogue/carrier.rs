//! Studs, property classes, shock levels and stock sizes, from `profiles/carrier.toml`.

use super::provenance::Provenance;
use super::row::row;
use crate::quantity::*;

row! {
    /// A stud or bolt size with coarse metric thread.
    StudSize, StudSizeFrom by key {
        /// `M8`.
        key: String => text,
    }
    values of row {
        /// Nominal diameter.
        diameter: Millimetres = "diameter_mm" => within(3.0, 36.0),
        /// Pitch of the coarse thread.
        pitch: Millimetres = "pitch_mm" => within(0.3, 5.0),
        /// Nominal stress area of the thread.
        stress_area: SquareMillimetres = "stress_area_mm2" => within((0.5 * row.shank()).floor(), row.shank().ceil()),
        /// Clearance hole for it.
        hole: Millimetres = "hole_mm" => within(row.diameter.get(), 1.5 * row.diameter.get()),
    }
}

row! {
    /// A property class of studs and bolts.
    StudClass, StudClassFrom by key {
        /// `8.8`, `A2-70`, as stamped on the head.
        key: String => text,
        /// Name as shown.
        name: String => text,
    }
    values of row {
        /// Stress it stands without lasting stretch.
        proof: Megapascals = "proof_mpa" => within(50.0, row.yields.get()),
        /// Yield, or 0.2 % proof stress.
        yields: Megapascals = "yield_mpa" => within(50.0, row.tensile.get()),
        /// Tensile strength.
        tensile: Megapascals = "tensile_mpa" => within(100.0, 1600.0),
        /// Shear strength through the thread over the tensile strength.
        shear_share: Share = "shear_share" => within(0.3, 0.7),
    }
}

impl StudSize {
    /// The plain shank's area in mm². The thread's lies between half of it and all of it: a diameter typed for an
    /// area is caught.
    fn shank(&self) -> f64 {
        std::f64::consts::FRAC_PI_4 * self.diameter.get().powi(2)
    }
}

/// The ways through a vehicle that a shock has a level for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// Forward and backward.
    Along,
    /// Left and right.
    Across,
    /// Up and down.
    Upright,
}

impl Shock {
    /// How hard it is along an axis, with the source of that.
    pub fn level(&self, axis: Axis) -> (Gravities, &Provenance) {
        match axis {
            Axis::Along => (self.along, &self.from.along),
            Axis::Across => (self.across, &self.from.across),
            Axis::Upright => (self.vertical, &self.from.vertical),
        }
    }
}

row! {
    /// Accelerations to hold a battery against, each direction on its own.
    Shock, ShockFrom by key {
        /// `road-crash`, `rough-track`.
        key: String => text,
        /// Name as shown.
        name: String => text,
    }
    values {
        /// Forward and backward.
        along: Gravities = "along_g" => within(0.5, 60.0),
        /// Left and right.
        across: Gravities = "across_g" => within(0.5, 60.0),
        /// Up and down, on top of the weight.
        vertical: Gravities = "vertical_g" => within(0.5, 60.0),
    }
}

row! {
    /// Sizes in which something for a carrier is sold or made, ascending.
    Stock, StockFrom by key {
        /// One of [`STOCKS`].
        key: String => one_of(STOCKS),
    }
    values {
        /// The sizes.
        sizes: Vec<Millimetres> = "sizes_mm" => ascending,
    }
}

/// What is sold or made in stock sizes.
pub const STOCKS: &[&str] =
    &[STRIP_WIDTH, STRIP_THICKNESS, SHEET_THICKNESS, SPREADER, SPREADER_THICKNESS, WELD_LENGTH, WELD_THROAT];
/// Widths of flat bar.
pub const STRIP_WIDTH: &str = "strip-width";
/// Thicknesses of flat bar.
pub const STRIP_THICKNESS: &str = "strip-thickness";
/// Thicknesses of sheet.
pub const SHEET_THICKNESS: &str = "sheet-thickness";
/// Sides of square spreader plates.
pub const SPREADER: &str = "spreader-side";
/// Their thicknesses.
pub const SPREADER_THICKNESS: &str = "spreader-thickness";
/// Lengths of a weld, in steps that can be measured.
pub const WELD_LENGTH: &str = "weld-length";
/// Throats of a weld.
pub const WELD_THROAT: &str = "weld-throat";

row! {
    /// An equal angle as sold.
    Angle, AngleFrom by key {
        /// `40 x 4`.
        key: String => text,
    }
    values of row {
        /// Each leg.
        leg: Millimetres = "leg_mm" => within(10.0, 150.0),
        /// Of both legs.
        thickness: Millimetres = "thickness_mm" => within(1.0, 0.5 * row.leg.get()),
    }
}
