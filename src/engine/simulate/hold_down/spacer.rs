//! What does tightening do to a hollow or ribbed floor, with a spacer in it?
//!
//! The nut draws the two faces together until both lie on the spacer, and presses on nothing but the spacer from then
//! on. So each face is bent by its part of the difference: a round plate clamped at the ribs, under the spreader on
//! one side and under the carrier on the other. A tray's whole base lies on its face, which is taken not to give.
//! A stud's pull then bends the face under its plate further, and lets the other one off, as two springs share a force.
//! The ribs are pressed together by the same force. Left out: foam between the faces, which helps.

use crate::catalogue::{Rule, Rules};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::plate::{plate_stiffness, plate_stress, web_stands};
use crate::engine::simulate::hold_down::result::{Spacer, Torque};
use crate::plan::{Deck, HoldDown, HoldDownStyle};
use crate::quantity::*;
use crate::reckon;

/// Length of the spacers: as given, or a little shorter than a hollow floor is deep; none in a plain sheet or board.
pub(crate) fn length(wanted: &HoldDown, rules: &Rules) -> Option<Millimetres> {
    let chosen = |depth: Millimetres| (depth - rules.spacer_short.value).max(Millimetres::new(1.0));
    wanted.spacer.or(wanted.deck_depth.map(chosen))
}

/// Both faces of a hollow floor, drawn onto the spacers.
pub(crate) struct Faces<'a> {
    depth: Millimetres,
    length: Millimetres,
    /// That draws them together, no more than the preload.
    pub force: Newtons,
    /// Of the face under the smaller of both pads, for each newton, 1/mm².
    stress: f64,
    /// What of a stud's pull bends the face under its spreader besides, while both lie on the spacer.
    pub share: f64,
    /// What one rib stands, pressed between both plates; newtons.
    pub rib: f64,
    modulus: &'a Rule<Megapascals>,
    yields: &'a Rule<Megapascals>,
    factor: &'a Rule<f64>,
}

impl Faces<'_> {
    /// Of what the worse face stands, by tightening alone.
    pub fn used(&self) -> f64 {
        self.force.get() * self.stress * self.factor.value / self.yields.value.get()
    }
}

/// The faces of a floor whose depth is known.
pub(crate) fn faces<'a>(wanted: &HoldDown, sizes: &Sizes, rules: &'a Rules, torque: &Torque) -> Option<Faces<'a>> {
    let (depth, length) = wanted.deck_depth.zip(sizes.spacer)?;
    let (modulus, yields, factor) = match wanted.deck {
        Deck::SteelSheet => (&rules.steel_modulus, &rules.strip_yield, &rules.metal_partial),
        Deck::AluminiumSheet => (&rules.aluminium_modulus, &rules.aluminium_proof, &rules.metal_partial),
        Deck::Plywood => (&rules.plywood_modulus, &rules.plywood_bending, &rules.plywood_partial),
    };
    let (thick, span) = (wanted.deck_thickness.get(), wanted.deck_span.get());
    let (over, under) = (sizes.spreader.get(), sizes.strip_width.min(wanted.rim).get());
    let stiff = |pad: f64| plate_stiffness(modulus.value.get(), thick, span, pad);
    let hangs = wanted.style == HoldDownStyle::StripBasket;
    let gives = 1.0 / stiff(over) + if hangs { 1.0 / stiff(under) } else { 0.0 };
    // A face under a whole base gives less than one under a plate, so that under the plate gets less than half.
    let share = if hangs { 1.0 / stiff(under) / gives } else { 0.5 };
    let squeeze = (depth - length).max(Millimetres::ZERO);
    let force = Newtons::new((squeeze.get() / gives).min(torque.greatest.get()));
    let pad = if hangs { over.min(under) } else { over };
    let stress = plate_stress(thick, span, pad);
    let rib = rib(wanted, rules, modulus.value.get(), yields.value.get() / factor.value.max(1.0), pad);
    Some(Faces { depth, length, force, stress, share, rib, modulus, yields, factor })
}

/// What one rib stands between the plates over and under it. Ribs of wood are short and thick: they are crushed.
fn rib(wanted: &HoldDown, rules: &Rules, modulus: f64, yields: f64, pad: f64) -> f64 {
    let face = wanted.deck_thickness.get();
    let thick = wanted.deck_rib.unwrap_or(wanted.deck_thickness).get();
    let high = wanted.deck_depth.unwrap_or_default().get() - 2.0 * face;
    match wanted.deck {
        Deck::Plywood => pad * thick * rules.plywood_crush.value.get() / rules.plywood_partial.value.max(1.0),
        _ => web_stands(modulus, yields, thick, high, (pad, face)),
    }
}

/// The squeeze of a floor whose depth is known.
pub(crate) fn squeeze(
    wanted: &HoldDown,
    sizes: &Sizes,
    rules: &Rules,
    torque: &Torque,
    notes: &mut Notes,
) -> Option<Spacer> {
    let Faces { depth, length, force, stress, modulus, yields, factor, .. } = faces(wanted, sizes, rules, torque)?;
    let squeeze = (depth - length).max(Millimetres::ZERO);
    let used = reckon!(Share: F * s / (fy / g),
        F: "force that draws the faces together, no more than the preload" = force,
        s: "stress of a face for each newton, 1/mm²" = Figure::number(stress),
        fy: "strength of the floor's face" = yields.value,
        g: "partial factor" = Figure::number(factor.value));
    let used = notes.reckon(&Subject::Carrier, "squeeze", used, |r| {
        r.working("use of the floor's faces by the squeeze")
            .source("round plate with clamped edge (Timoshenko, Roark)")
            .note(format!("floor {depth} deep, spacer {length}: the faces are bent by {squeeze} together"))
    });
    Some(Spacer {
        length,
        depth,
        force,
        used,
        strength: [yields.from.clone(), factor.from.clone(), modulus.from.clone()],
    })
}
