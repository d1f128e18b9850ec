//! What holds the battery, as the user describes it.

use super::choice::{HoldDownStyle, Locking};
use crate::quantity::*;

/// The carrier: none unless its style is chosen.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct HoldDown {
    pub style: HoldDownStyle,
    /// Shock level to hold against, a key of the catalogue.
    pub shock: String,
    /// Stud size, a key of the catalogue.
    pub stud: String,
    /// Property class of studs, a key of the catalogue.
    pub stud_class: String,
    /// Rows of studs along the vehicle; a basket has one strip at each.
    pub studs_along: u32,
    /// Rows of studs across the vehicle.
    pub studs_across: u32,
    /// Distance of neighbouring studs along; from the inside length when absent.
    pub spacing_along: Option<Millimetres>,
    /// Distance of neighbouring studs across; from the inside width when absent.
    pub spacing_across: Option<Millimetres>,
    /// Centre of the mass ahead of the middle of the carrier.
    pub offset_along: Millimetres,
    /// Centre of the mass to the right of the middle of the carrier.
    pub offset_across: Millimetres,
    /// Centre of the mass above (tray, cabinet) or below (basket) the plane of the studs.
    pub centre: Option<Millimetres>,
    /// Inside, along the vehicle.
    pub length: Option<Millimetres>,
    /// Inside, across the vehicle.
    pub width: Option<Millimetres>,
    /// Inside, upright.
    pub height: Option<Millimetres>,
    pub battery_length: Option<Millimetres>,
    pub battery_width: Option<Millimetres>,
    pub battery_height: Option<Millimetres>,
    /// Gap wanted at each side and above.
    pub clearance: Millimetres,
    pub strip_width: Millimetres,
    /// Of strip or sheet.
    pub thickness: Millimetres,
    /// Inside radius of the bends.
    pub bend_radius: Millimetres,
    /// Neutral line within the thickness; from radius and thickness when absent.
    pub k_factor: Option<Share>,
    /// Length of a basket's ears beyond its legs, or height of a tray's rim.
    pub rim: Millimetres,
    /// Height that is free; not checked when absent.
    pub free_height: Option<Millimetres>,
    /// Rods that press the battery into a tray or cabinet from above.
    pub rods: u32,
    /// Size of those rods.
    pub rod: String,
    /// Tightening torque of the studs; chosen when absent.
    pub torque: Option<NewtonMetres>,
    pub locking: Locking,
}

impl Default for HoldDown {
    fn default() -> Self {
        HoldDown {
            style: HoldDownStyle::None,
            shock: "road-crash".into(),
            stud: "M8".into(),
            stud_class: "8.8".into(),
            studs_along: 2,
            studs_across: 2,
            spacing_along: None,
            spacing_across: None,
            offset_along: Millimetres::ZERO,
            offset_across: Millimetres::ZERO,
            centre: None,
            length: None,
            width: None,
            height: None,
            battery_length: None,
            battery_width: None,
            battery_height: None,
            clearance: Millimetres::new(5.0),
            strip_width: Millimetres::new(40.0),
            thickness: Millimetres::new(4.0),
            bend_radius: Millimetres::new(6.0),
            k_factor: None,
            rim: Millimetres::new(40.0),
            free_height: None,
            rods: 2,
            rod: "M8".into(),
            torque: None,
            locking: Locking::None,
        }
    }
}

/// One stud at a place of its own; any given replace the even pattern of the carrier.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Stud {
    /// Ahead of the middle of the carrier.
    pub along: Millimetres,
    /// To the right of the middle of the carrier.
    pub across: Millimetres,
}
