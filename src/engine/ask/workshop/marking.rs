//! Where is each piece of a carrier cut, bent and drilled, and how is it laid on bars?
//!
//! Flat blanks with ordinates from one end: where a bend begins, its middle, where it ends, the
//! line at which it is clamped; holes; the order of bends. All by the design's own bend allowance.
//! Left out: rods' holes, which follow the bar over the lid; relief holes; paint.

use crate::engine::design::Design;
use crate::engine::simulate::hold_down::result::{Blank, CarrierDesign, Piece, Shape, Strength, StudDesign};
use crate::engine::physics::steel::plate::HOOK;
use crate::plan::{Locking, RodFoot};
use crate::quantity::*;

/// A flat piece with everything that is marked on it; ordinates from its left end and lower edge.
#[derive(Clone, Debug, PartialEq)]
pub struct Marking {
    /// Which piece.
    pub piece: Piece,
    /// How many alike.
    pub count: u32,
    /// Flat length.
    pub length: Millimetres,
    /// Flat width.
    pub width: Millimetres,
    /// Thickness.
    pub thickness: Millimetres,
    /// Side of the square that is cut out of each corner.
    pub corner: Option<Millimetres>,
    /// Bends of 90°, in the order in which they are made.
    pub folds: Vec<Fold>,
    /// Holes.
    pub holes: Vec<Hole>,
}

/// A bend of 90°.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fold {
    /// Whether its line runs across the length; else along it.
    pub across: bool,
    /// Where it begins, from the left end or the lower edge.
    pub from: Millimetres,
    /// Its middle.
    pub middle: Millimetres,
    /// Where it ends.
    pub to: Millimetres,
    /// Where the edge of the clamp or beam lies, on the side of the blank's middle.
    pub clamp: Millimetres,
    /// Towards the marked face, which becomes the inside; else away from it.
    pub up: bool,
}

/// A hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hole {
    /// From the left end.
    pub along: Millimetres,
    /// From the lower edge.
    pub across: Millimetres,
    /// Of the last drill.
    pub diameter: Millimetres,
}

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

/// A bar of stock with the pieces that are sawn from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Its width.
    pub width: Millimetres,
    /// Its thickness.
    pub thickness: Millimetres,
    /// Pieces with their lengths.
    pub pieces: Vec<(Piece, Millimetres)>,
    /// What is left at its end.
    pub left: Millimetres,
}

/// The marking out of a design's carrier; empty without one, and where its bends do not fit.
pub fn marking(design: &Design) -> Vec<Marking> {
    let Some((carrier, shape)) = design.carrier.as_ref().and_then(|c| Some((c, c.shape.as_ref()?))) else {
        return Vec::new();
    };
    let hole = design.installation.catalogue.stud(&carrier.sizes.stud).map_or(Millimetres::ZERO, |s| s.hole);
    shape.blanks.iter().flat_map(|blank| marked(carrier, shape, blank, hole)).collect()
}

fn marked(carrier: &CarrierDesign, shape: &Shape, blank: &Blank, hole: Millimetres) -> Vec<Marking> {
    let plain = Marking {
        piece: blank.piece,
        count: blank.count,
        length: blank.length,
        width: blank.width,
        thickness: blank.thickness,
        corner: None,
        folds: Vec::new(),
        holes: Vec::new(),
    };
    let fold = |across: bool, middle: Millimetres, whole: Millimetres, up: bool| {
        let half = shape.bend_allowance / 2.0;
        let (from, to) = (middle - half, middle + half);
        Fold { across, from, middle, to, clamp: if middle < whole / 2.0 { to } else { from }, up }
    };
    let along = |up: bool| blank.marks.iter().map(move |m| fold(true, *m, blank.length, up));
    match blank.piece {
        Piece::CrossStrip => {
            // Ears first, away from the inside, while the strip is still flat beside them.
            let ears = [blank.marks.first(), blank.marks.last()].into_iter().flatten();
            let inner = blank.marks.iter().skip(1).take(blank.marks.len().saturating_sub(2));
            let folds = ears.map(|m| fold(true, *m, blank.length, false));
            let folds: Vec<Fold> = folds.chain(inner.map(|m| fold(true, *m, blank.length, true))).collect();
            strips(carrier.strength.as_ref(), blank, shape, hole, Marking { folds, ..plain })
        }
        Piece::Tray => {
            let corner = blank.marks.first().copied().unwrap_or_default();
            let sides = [corner, blank.width - corner].map(|m| fold(false, m, blank.width, true));
            let folds = along(true).chain(sides).collect();
            let holes = base(carrier.strength.as_ref(), blank, hole);
            vec![Marking { corner: Some(corner), folds, holes, ..plain }]
        }
        Piece::FloorAndLid => {
            let holes = base(carrier.strength.as_ref(), blank, hole);
            vec![Marking { count: 1, holes, ..plain.clone() }, Marking { count: 1, ..plain }]
        }
        Piece::LongStrip | Piece::WallWrap => vec![Marking { folds: along(true).collect(), ..plain }],
        Piece::SideStrap => vec![plain],
    }
}

/// Cross strips with the holes of their ears; those alike together.
fn strips(
    strength: Option<&Strength>,
    blank: &Blank,
    shape: &Shape,
    hole: Millimetres,
    plain: Marking,
) -> Vec<Marking> {
    let mut rows: Vec<(Millimetres, Vec<Hole>)> = Vec::new();
    for stud in strength.iter().flat_map(|s| &s.studs) {
        // The bottom's middle is the blank's middle. From there the strip goes out, up the leg and out along the ear:
        // the ear's tip is as far from the stud flat as it is bent.
        let tip = shape.inside.across / 2.0 + shape.ear_reach;
        let end = tip - stud.across.abs();
        let along = if stud.across.get() < 0.0 { end } else { blank.length - end };
        let hole = Hole { along, across: blank.width / 2.0, diameter: hole };
        match rows.iter_mut().find(|(at, _)| (*at - stud.along).abs().get() < 1.0) {
            Some((_, holes)) => holes.push(hole),
            None => rows.push((stud.along, vec![hole])),
        }
    }
    // Studs that are not in as many rows as there are strips are marked from the deck.
    if rows.len() != blank.count as usize {
        return vec![plain];
    }
    let mut all: Vec<Marking> = Vec::new();
    for (_, holes) in rows {
        match all.iter_mut().find(|m| m.holes == holes) {
            Some(known) => known.count += 1,
            None => all.push(Marking { count: 1, holes, ..plain.clone() }),
        }
    }
    all
}

/// Holes of a flat base, whose middle is the blank's.
fn base(strength: Option<&Strength>, blank: &Blank, hole: Millimetres) -> Vec<Hole> {
    let at = |s: &StudDesign| Hole {
        along: blank.length / 2.0 + s.along,
        across: blank.width / 2.0 + s.across,
        diameter: hole,
    };
    strength.iter().flat_map(|s| &s.studs).map(at).collect()
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

/// Strips laid on bars of the stock length, the longest first, each where it fits first.
pub fn bars(design: &Design, markings: &[Marking]) -> Vec<Bar> {
    let rules = &design.installation.catalogue.rules;
    let (whole, kerf) = (rules.bar_length.value, rules.saw_kerf.value);
    let strip = |m: &&Marking| matches!(m.piece, Piece::CrossStrip | Piece::LongStrip);
    let each = markings.iter().filter(strip).flat_map(|m| (0..m.count).map(move |_| m));
    let mut pieces: Vec<&Marking> = each.filter(|m| m.length <= whole).collect();
    pieces.sort_by(|a, b| b.length.get().total_cmp(&a.length.get()));
    let mut bars: Vec<Bar> = Vec::new();
    for m in pieces {
        let fits = |bar: &&mut Bar| bar.width == m.width && bar.thickness == m.thickness && bar.left >= m.length;
        let piece = (m.piece, m.length);
        let rest = |left: Millimetres| (left - m.length - kerf).max(Millimetres::ZERO);
        match bars.iter_mut().find(fits) {
            Some(bar) => {
                bar.left = rest(bar.left);
                bar.pieces.push(piece);
            }
            None => {
                bars.push(Bar { width: m.width, thickness: m.thickness, pieces: vec![piece], left: rest(whole) });
            }
        }
    }
    bars
}
