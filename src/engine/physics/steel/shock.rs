//! Which forces does a shock put on the carrier?
//!
//! Force = mass × multiple of standard gravity, one direction at a time, with
//! the weight always there. Levels come from the catalogue, with their source.
//! Left out: directions at once, and the swing of a battery that can move.

use crate::catalogue::Shock;
use crate::quantity::*;

/// Standard gravity, m/s² (exact by definition, CGPM 1901).
pub const GRAVITY: f64 = 9.806_65;

/// A force along, across, upright.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Force {
    pub name: &'static str,
    pub level: Gravities,
    pub along: Newtons,
    pub across: Newtons,
    pub upright: Newtons,
}

/// Weight of a mass: m × g.
pub(crate) fn weight(mass: Kilograms) -> Newtons {
    Newtons::new(mass.get() * GRAVITY)
}

/// The six directions in which the battery may be thrown.
pub(crate) fn cases(mass: Kilograms, shock: &Shock) -> [Force; 6] {
    let weight = weight(mass);
    let case = |name, level: Gravities, along: f64, across: f64, upright: f64| Force {
        name,
        level,
        along: weight * (along * level.get()),
        across: weight * (across * level.get()),
        upright: weight * (upright * level.get() - 1.0),
    };
    [
        case("forward", shock.along, 1.0, 0.0, 0.0),
        case("backward", shock.along, -1.0, 0.0, 0.0),
        case("left", shock.across, 0.0, -1.0, 0.0),
        case("right", shock.across, 0.0, 1.0, 0.0),
        case("up", shock.vertical, 0.0, 0.0, 1.0),
        case("down", shock.vertical, 0.0, 0.0, -1.0),
    ]
}
