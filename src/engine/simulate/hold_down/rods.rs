//! What pulls at the rods that press a battery into its tray or cabinet?
//!
//! Up: (level - 1) × weight, shared by the rods. Sideways: the battery tips
//! over its lower edge, held by its weight and by rods over its middle:
//! pull × b/2 = weight × (level × h/2 - b/2), with h its height and b its
//! width in that direction. The tray's rim is not counted, which is safe.

use crate::catalogue::{Axis, Shock};
use crate::engine::physics::steel::shock::weight;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::result::{Box3, Rods};
use crate::quantity::*;

/// The worst pull in one of `rods` (1 or more).
pub(crate) fn hold_down(rods: u32, mass: Kilograms, size: &Box3, shock: &Shock, rod: &Strengths) -> Rods {
    let weight = weight(mass);
    let tipping = |level: Gravities, width: Millimetres| (level.get() * (size.upright / width) - 1.0).max(0.0);
    let cases = [
        (Axis::Upright, (shock.vertical.get() - 1.0).max(0.0)),
        (Axis::Along, tipping(shock.along, size.along)),
        (Axis::Across, tipping(shock.across, size.across)),
    ];
    let worst = cases.into_iter().fold((Axis::Upright, 0.0), |w, c| if c.1 > w.1 { c } else { w });
    let tension = weight * worst.1 / f64::from(rods.max(1));
    Rods { rods, tension, axis: worst.0, utilisation: rod.used(tension, Newtons::ZERO) }
}
