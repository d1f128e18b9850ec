//! Of which sizes is a carrier made?

use crate::quantity::*;

/// The sizes of a carrier: as the plan gives them, or as chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizes {
    /// Studs, `M8`.
    pub stud: String,
    /// Rows of studs along the vehicle; a basket has one cross strip at each.
    pub rows: u32,
    /// Width of a basket's strips.
    pub strip_width: Millimetres,
    /// Thickness of strips or sheet.
    pub thickness: Millimetres,
    /// Inside radius of the bends.
    pub bend_radius: Millimetres,
    /// Leg of a strap's angle.
    pub strap_leg: Millimetres,
    /// Thickness of a strap's angle.
    pub strap_thickness: Millimetres,
    /// Length of each weld.
    pub weld_length: Millimetres,
    /// Throat of each weld.
    pub weld_throat: Millimetres,
    /// Rods over the battery, `M8`.
    pub rod: String,
    /// Length of the spacer around each stud; none in a plain sheet or board.
    pub spacer: Option<Millimetres>,
    /// Side of a spreader plate.
    pub spreader: Millimetres,
    /// Thickness of a spreader plate.
    pub spreader_thickness: Millimetres,
}
