//! How is what holds a battery cut, bent and laid on what is sold?

use crate::engine::design::Design;
use crate::engine::physics::steel::plate::HOOK;
use crate::engine::simulate::hold_down::marking::{Marking, marked_out};
use crate::engine::simulate::hold_down::nest::{Laid, laid_out};
use crate::plan::{Locking, RodFoot};
use crate::quantity::*;

/// A rod over the battery of a tray or cabinet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RodCut {
    /// How many.
    pub count: u32,
    /// Cut length: base, battery, pad, a bar of 6 mm, nuts and washer above, and the same or a hook below.
    pub length: Millimetres,
    /// Thread at each end, or at the upper one of a hooked rod.
    pub thread: Millimetres,
    /// What of its length is bent to a hook below; none where it has nut and washer there.
    pub hook: Option<Millimetres>,
    /// Inside radius of the hook.
    pub radius: Millimetres,
    /// Diameter of the rod, which is also that of its die.
    pub diameter: Millimetres,
    /// Pitch of the die.
    pub pitch: Millimetres,
    /// Last drill of the holes that it goes through.
    pub hole: Millimetres,
}

/// The marking out of a design's carrier; empty without one, and where its bends do not fit.
pub fn marking(design: &Design) -> Vec<Marking> {
    design.carrier.as_ref().map_or(Vec::new(), |carrier| marked_out(carrier, &design.installation))
}

/// Its pieces laid on bars and sheets as they are sold.
pub fn laid(design: &Design) -> Vec<Laid> {
    design.carrier.as_ref().map_or(Vec::new(), |carrier| laid_out(carrier, &design.installation))
}

/// How the rods of a tray or cabinet are cut.
pub fn rod_cut(design: &Design) -> Option<RodCut> {
    let carrier = design.carrier.as_ref()?;
    let rods = carrier.strength.as_ref()?.hold_down.as_ref()?;
    let shape = carrier.shape.as_ref()?;
    let (wanted, size) = (&design.installation.hold_down, design.installation.catalogue.stud(&carrier.sizes.rod)?);
    // A nut is 0.8 diameters high (ISO 4032), a washer 0.2; two threads stand out (common practice, no source).
    let nuts = if carrier.locking == Locking::DoubleNut { 2.0 } else { 1.0 };
    let end = size.diameter * (0.8 * nuts + 0.2) + size.pitch * 2.0;
    let high = shape.battery.unwrap_or(shape.inside).upright;
    let radius = size.diameter * HOOK;
    // The middle of a round rod keeps its length; beyond the half circle it goes on for two diameters.
    let hooked = (radius + size.diameter / 2.0) * std::f64::consts::PI + size.diameter * 2.0;
    let hook = (wanted.rod_foot == RodFoot::Hook).then_some(hooked);
    let length = carrier.sizes.thickness + high + wanted.pad + Millimetres::new(6.0) + end + hook.unwrap_or(end);
    let whole = |length: Millimetres| Millimetres::new(length.get().ceil());
    Some(RodCut {
        count: rods.rods,
        length: whole(length),
        thread: whole(end + Millimetres::new(10.0)),
        hook,
        radius,
        diameter: size.diameter,
        pitch: size.pitch,
        hole: size.hole,
    })
}
