//! Which pieces of steel make the carrier, how long are they flat, what do they weigh?
//!
//! - Strip basket: a cross strip at each row of studs, bent down from its ears,
//!   under the battery and up again (four bends), and one long strip under
//!   them, up at both ends (two bends).
//! - Tray: one sheet with a rim bent up on four sides.
//! - Cabinet: walls wrapped from one sheet (four bends), floor and lid flat.
//!
//! Left out: holes, welds, laps, hinges and paint; the corners of a tray are cut out.

use crate::engine::physics::steel::bend::Bends;
use crate::engine::simulate::hold_down::result::{Blank, Box3};
use crate::plan::{HoldDown, HoldDownStyle};
use crate::quantity::*;

/// The pieces; `None` when a straight part between bends would be shorter than nothing.
pub(crate) fn blanks(carrier: &HoldDown, inside: &Box3, bends: &Bends, density: f64) -> Option<Vec<Blank>> {
    match carrier.style {
        HoldDownStyle::None => Some(Vec::new()),
        HoldDownStyle::StripBasket => basket(carrier, inside, bends, density),
        HoldDownStyle::Tray => tray(carrier, inside, bends, density),
        HoldDownStyle::Cabinet => cabinet(carrier, inside, bends, density),
    }
}

fn basket(carrier: &HoldDown, inside: &Box3, bends: &Bends, density: f64) -> Option<Vec<Blank>> {
    let (r, t) = (bends.radius, bends.thickness);
    let ear = carrier.rim - r;
    // The ear's upper face lies on the deck: the leg ends at the outer radius of its bend.
    let leg = inside.upright - 2.0 * r - t;
    let (cross, cross_marks) = bends.flat(&[ear, leg, inside.across - 2.0 * r, leg, ear])?;
    let up = inside.upright - r;
    let (long, long_marks) = bends.flat(&[up, inside.along - 2.0 * r, up])?;
    let piece = |name, count, length, marks| strip(carrier, density, name, count, (length, carrier.strip_width), marks);
    Some(vec![piece("cross strip", carrier.studs_along, cross, cross_marks), piece("long strip", 1, long, long_marks)])
}

fn tray(carrier: &HoldDown, inside: &Box3, bends: &Bends, density: f64) -> Option<Vec<Blank>> {
    let rim = carrier.rim - bends.radius;
    let (length, marks) = bends.flat(&[rim, inside.along - 2.0 * bends.radius, rim])?;
    let (width, _) = bends.flat(&[rim, inside.across - 2.0 * bends.radius, rim])?;
    let mut sheet = strip(carrier, density, "tray", 1, (length, width), marks);
    let corner = rim + bends.allowance / 2.0;
    sheet.mass -= steel(density, 4.0 * corner.get() * corner.get(), carrier.thickness);
    Some(vec![sheet])
}

fn cabinet(carrier: &HoldDown, inside: &Box3, bends: &Bends, density: f64) -> Option<Vec<Blank>> {
    let (r, t) = (bends.radius, carrier.thickness);
    let (along, across) = (inside.along - 2.0 * r, inside.across - 2.0 * r);
    // Begun and ended in the middle of a long wall, where it is welded.
    let (wrap, marks) = bends.flat(&[along / 2.0, across, along, across, along / 2.0])?;
    let panel = (inside.along + 2.0 * t, inside.across + 2.0 * t);
    Some(vec![
        strip(carrier, density, "wall wrap", 1, (wrap, inside.upright), marks),
        strip(carrier, density, "floor and lid", 2, panel, Vec::new()),
    ])
}

fn strip(
    carrier: &HoldDown,
    density: f64,
    name: &'static str,
    count: u32,
    flat: (Millimetres, Millimetres),
    marks: Vec<Millimetres>,
) -> Blank {
    let (length, width) = flat;
    let area = f64::from(count) * length.get() * width.get();
    let mass = steel(density, area, carrier.thickness);
    Blank { name, count, length, width, thickness: carrier.thickness, marks, mass }
}

/// Mass of `area` mm² of sheet: ρ × area × thickness, ρ in kg/m³.
fn steel(density: f64, area: f64, thickness: Millimetres) -> Kilograms {
    Kilograms::new(density * area * thickness.get() * 1e-9)
}
