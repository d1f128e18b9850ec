//! How does what holds the battery get into its place, by one person?

use crate::engine::design::Design;
use crate::engine::physics::lifting::{Lift, recommended};
use crate::engine::simulate::hold_down::mounted::borne;
use crate::plan::HoldDownStyle;
use crate::quantity::*;

/// What is raised or lifted, and how.
#[derive(Clone, Debug, PartialEq)]
pub struct Raising {
    /// Battery and metal together.
    pub whole: Kilograms,
    /// Of it the devices that the carrier bears.
    pub besides: Kilograms,
    /// The heaviest piece that hands lift: one block of the battery.
    pub piece: Kilograms,
    /// How many blocks it has.
    pub blocks: u32,
    /// What hands may lift of its size from floor to hip, by the NIOSH equation.
    pub by_hand: Kilograms,
    /// The piece over that; above 1 it is too much for one person's hands.
    pub index: f64,
    /// Height of the middle of the mass above the carrier's underside.
    pub middle: Millimetres,
    /// How far the mass lies ahead of the carrier's middle, and to the right.
    pub off: (Millimetres, Millimetres),
    /// Height of the whole carrier.
    pub high: Millimetres,
    /// Whether it goes up under a deck.
    pub under: bool,
    /// Studs by their numbers in the order in which they are tightened.
    pub order: Vec<usize>,
}

/// How the carrier of a design is raised; `None` without one, or without mass and size.
pub fn raising(design: &Design) -> Option<Raising> {
    let carrier = design.carrier.as_ref()?;
    let (shape, strength) = (carrier.shape.as_ref()?, carrier.strength.as_ref()?);
    let given = design.installation.service_battery.in_parallel;
    let blocks = given.or(design.battery.bank.as_ref().map(|b| b.blocks)).unwrap_or(1).max(1);
    let piece = carrier.battery_mass? / f64::from(blocks);
    let wanted = &design.installation.hold_down;
    let under = carrier.style == HoldDownStyle::StripBasket;
    let battery = shape.battery.unwrap_or(shape.inside);
    // Hands are half the load's narrower side and 20 cm from the ankles (NIOSH 94-110, from memory).
    let reach = battery.along.min(battery.across) / 2.0 + Millimetres::new(200.0);
    let by_hand = recommended(Lift { reach, begins: battery.upright, up: Millimetres::new(500.0) });
    let count = strength.studs.len();
    // From both ends inward: corner to corner.
    let order = (0..count).map(|n| if n % 2 == 0 { n / 2 + 1 } else { count - n / 2 }).collect();
    Some(Raising {
        whole: strength.total_mass,
        besides: borne(&design.installation),
        piece,
        blocks,
        by_hand,
        index: if by_hand.get() > 0.1 { (piece / by_hand).min(1000.0) } else { 1000.0 },
        middle: battery.upright / 2.0 + carrier.sizes.thickness,
        off: (wanted.offset_along, wanted.offset_across),
        high: shape.outside_height,
        under,
        order,
    })
}
