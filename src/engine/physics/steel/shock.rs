//! Which forces does a shock put on the carrier?
//!
//! Force = mass × multiple of standard gravity, one direction at a time, with
//! the weight always there. Levels come from the catalogue, with their source.
//! Left out: directions at once, and the swing of a battery that can move.

use crate::catalogue::Axis;
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// Standard gravity, m/s² (exact by definition, CGPM 1901).
const GRAVITY: f64 = 9.806_65;

/// Where the battery is thrown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Thrown {
    Forward,
    Backward,
    Left,
    Right,
    Up,
    Down,
}

impl Thrown {
    /// All of them, in the order shown.
    pub const ALL: [Thrown; 6] =
        [Thrown::Forward, Thrown::Backward, Thrown::Left, Thrown::Right, Thrown::Up, Thrown::Down];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            Thrown::Forward => "forward",
            Thrown::Backward => "backward",
            Thrown::Left => "left",
            Thrown::Right => "right",
            Thrown::Up => "up",
            Thrown::Down => "down",
        }
    }

    /// The axis of that direction.
    pub fn axis(self) -> Axis {
        match self {
            Thrown::Forward | Thrown::Backward => Axis::Along,
            Thrown::Left | Thrown::Right => Axis::Across,
            Thrown::Up | Thrown::Down => Axis::Upright,
        }
    }

    /// 1 forward, to the right and up; -1 the other ways.
    fn sign(self) -> Figure {
        Figure::number(if matches!(self, Thrown::Forward | Thrown::Right | Thrown::Up) { 1.0 } else { -1.0 })
    }
}

/// The force of a mass that is thrown one way, as it comes on the studs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Force {
    /// Which way.
    pub thrown: Thrown,
    /// How hard.
    pub level: Gravities,
    /// Forward positive.
    pub along: Newtons,
    /// To the right positive.
    pub across: Newtons,
    /// Up positive, weight included.
    pub upright: Newtons,
}

impl Force {
    /// From what [`force_when`] gives and the weight, which acts downward whatever else does.
    pub(crate) fn of(thrown: Thrown, level: Gravities, force: Newtons, weight: Newtons) -> Self {
        let on = |axis, otherwise| if thrown.axis() == axis { force } else { otherwise };
        Force {
            thrown,
            level,
            along: on(Axis::Along, Newtons::ZERO),
            across: on(Axis::Across, Newtons::ZERO),
            upright: on(Axis::Upright, -weight),
        }
    }
}

/// Weight of a mass: m × g.
pub(crate) fn weight(mass: Kilograms) -> Newtons {
    Newtons::new(mass.get() * GRAVITY)
}

/// The force along the axis in which a mass is thrown; upright the weight is in it.
pub(crate) fn force_when(thrown: Thrown, level: Gravities, mass: Kilograms) -> Reckoned<Newtons, 4> {
    let (gravity, sign) = (Figure::number(GRAVITY), thrown.sign());
    match thrown.axis() {
        Axis::Upright => reckon!(Newtons: m * g * (sign * level - 1.0),
            m: "battery and steel" = mass, g: "standard gravity, m/s²" = gravity,
            sign: "direction" = sign, level: "shock level" = level),
        Axis::Along | Axis::Across => reckon!(Newtons: m * g * sign * level,
            m: "battery and steel" = mass, g: "standard gravity, m/s²" = gravity,
            sign: "direction" = sign, level: "shock level" = level),
    }
}
