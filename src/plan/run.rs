//! A run of the plan: a cable between two points, with its fuse.

use super::choice::ReturnPath;
use crate::quantity::*;

/// A cable between two points.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Run {
    pub name: String,
    pub from: String,
    pub to: String,
    /// One way, along the loom.
    pub length: Metres,
    /// Size as given: `6 mm2`, `10 AWG`, a trade label; chosen when absent.
    pub size: Option<String>,
    pub insulation: String,
    pub surroundings: String,
    /// Air along it; from the surroundings when absent.
    pub air: Option<Celsius>,
    /// Other loaded cables in the same bundle.
    pub bundled_with: u32,
    pub return_path: ReturnPath,
    /// Has a fuse of its own at its source end.
    pub own_fuse: bool,
    /// Rating of its fuse; chosen when absent.
    pub fuse: Option<Amps>,
    pub fuse_style: Option<String>,
    /// Distance of the fuse from its source along the cable.
    pub fuse_distance: Metres,
    /// Crimped joints in the whole loop.
    pub joints: u32,
    /// Switches, isolators and plugs in the run.
    pub switch_mohm: Milliohms,
    /// Current to size for; from the loads when absent.
    pub current: Option<Amps>,
    /// Anything to remember in the workshop.
    pub note: String,
    /// Is not to be changed by what mends the plan.
    pub keep: bool,
}

impl Default for Run {
    fn default() -> Self {
        Run {
            name: String::new(),
            from: String::new(),
            to: String::new(),
            length: Metres::new(1.0),
            size: None,
            insulation: "pvc-105".into(),
            surroundings: "cabin".into(),
            air: None,
            bundled_with: 0,
            return_path: ReturnPath::Cable,
            own_fuse: true,
            fuse: None,
            fuse_style: None,
            fuse_distance: Metres::new(0.15),
            joints: 4,
            switch_mohm: Milliohms::ZERO,
            current: None,
            note: String::new(),
            keep: false,
        }
    }
}
