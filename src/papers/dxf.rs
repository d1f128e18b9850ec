//! A marked-out piece as a drawing for a cutting machine: DXF in its oldest plain form, millimetres.
//!
//! Layers: `CUT`, `BEND` (the middle of each bend), `CLAMP`, `DRILL`, `MARK` (an arrow). The lower left corner is at 0, 0.

use crate::engine::Marking;
use std::fmt::Write;

/// The text of the file.
pub fn dxf(marking: &Marking) -> String {
    let mut out = String::new();
    let mut put = |code: u32, value: &str| {
        let _ = writeln!(out, "{code}\n{value}");
    };
    // $ACADVER of release 12; $INSUNITS 4 is millimetres.
    for (code, value) in [
        (0, "SECTION"),
        (2, "HEADER"),
        (9, "$ACADVER"),
        (1, "AC1009"),
        (9, "$INSUNITS"),
        (70, "4"),
        (0, "ENDSEC"),
        (0, "SECTION"),
        (2, "ENTITIES"),
    ] {
        put(code, value);
    }
    for (layer, from, to) in lines(marking) {
        put(0, "LINE");
        put(8, layer);
        for (code, value) in [(10, from.0), (20, from.1), (11, to.0), (21, to.1)] {
            put(code, &format!("{value:.3}"));
        }
    }
    for hole in &marking.holes {
        put(0, "CIRCLE");
        put(8, "DRILL");
        for (code, value) in [(10, hole.along.get()), (20, hole.across.get()), (40, hole.diameter.get() / 2.0)] {
            put(code, &format!("{value:.3}"));
        }
    }
    put(0, "ENDSEC");
    put(0, "EOF");
    out
}

/// A place on the blank.
pub type Place = (f64, f64);

/// Each line of a piece: its layer and both ends.
pub fn lines(marking: &Marking) -> Vec<(&'static str, Place, Place)> {
    let (l, w) = (marking.length.get(), marking.width.get());
    let c = marking.corner.map_or(0.0, |c| c.get());
    let m = marking.mitre.map_or(0.0, |m| m.get().min(l / 2.0));
    let outline = if c > 0.0 {
        vec![
            (c, 0.0),
            (l - c, 0.0),
            (l - c, c),
            (l, c),
            (l, w - c),
            (l - c, w - c),
            (l - c, w),
            (c, w),
            (c, w - c),
            (0.0, w - c),
            (0.0, c),
            (c, c),
        ]
    } else {
        vec![(m, 0.0), (l - m, 0.0), (l, w), (0.0, w)]
    };
    let ends = outline.iter().zip(outline.iter().cycle().skip(1));
    let mut all: Vec<_> = ends.map(|(from, to)| ("CUT", *from, *to)).collect();
    for fold in &marking.folds {
        for (layer, at) in [("BEND", fold.middle.get()), ("CLAMP", fold.clamp.get())] {
            let (from, to) = if fold.across { ((at, c), (at, w - c)) } else { ((c, at), (l - c, at)) };
            all.push((layer, from, to));
        }
    }
    all.extend(arrow((l, w)));
    all
}

/// Towards the right end, clear of the lines that are in the middle of a strip: whoever scribes it sees which way round
/// and which face up a piece was drilled.
fn arrow((l, w): Place) -> [(&'static str, Place, Place); 3] {
    let (half, head) = ((l / 12.0).min(25.0), (w / 10.0).min(6.0));
    let (tip, tail) = ((l / 2.0 + half, w / 4.0), (l / 2.0 - half, w / 4.0));
    let barb = |side: f64| ("MARK", tip, (tip.0 - 1.5 * head, tip.1 + side * head));
    [("MARK", tail, tip), barb(1.0), barb(-1.0)]
}
