//! Where is each piece of a carrier cut, bent and drilled?
//!
//! Flat blanks with ordinates from one end: where a bend begins, its middle, where it ends, the
//! line at which it is clamped; holes; the order of bends. All by the design's own bend allowance. Angles are sawn and not
//! bent: where their mitres begin, on the free edge and on the back.
//! Left out: rods' holes, which follow the bar over the lid; relief holes; paint.

use crate::engine::installation::Installation;
use crate::engine::simulate::hold_down::result::{Blank, CarrierDesign, Piece, Shape, Strength, StudDesign};
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
    /// How much further in each end of an angle is sawn at its back, the lower edge, than at its free edge.
    pub mitre: Option<Millimetres>,
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

impl Fold {
    /// From where its ordinates are measured.
    pub fn measured(&self) -> &'static str {
        if self.across { "left end" } else { "lower edge" }
    }

    /// To which face it is bent.
    pub fn way(&self) -> &'static str {
        if self.up { "up, to the marked face" } else { "down, away from it" }
    }
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

/// The marking out of a carrier; empty where its bends do not fit.
pub(crate) fn marked_out(carrier: &CarrierDesign, site: &Installation) -> Vec<Marking> {
    let Some(shape) = carrier.shape.as_ref() else { return Vec::new() };
    let hole = site.catalogue.stud(&carrier.sizes.stud).map_or(Millimetres::ZERO, |s| s.hole);
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
        // At 45° as much further in as the leg is wide: four such ends close to a corner each.
        mitre: blank.piece.of_angle().then_some(blank.width),
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
        Piece::StrapAlong | Piece::StrapAcross | Piece::Spreader => vec![plain],
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
