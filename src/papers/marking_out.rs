//! Marking out: how what holds the battery is cut, bent and drilled.

use super::document::{Block, Document, Drawing, Table};
use super::dxf::lines;
use super::facts::Columns;
use super::job::Job;
use super::pen::{Anchor, Pen, Picture};
use crate::engine::simulate::hold_down::nest::Stock;
use crate::engine::simulate::hold_down::result::{Box3, BuiltHole, CarrierDesign, Shape, StudDesign};
use crate::engine::{Fold, Hole, Laid, LaidPiece, Marking, RodCut, laid, marking, rod_cut};
use crate::plan::HoldDownStyle;
use crate::quantity::Millimetres;

/// The paper; `None` where nothing is bent or cut.
pub fn marking_out(job: &Job) -> Option<Document> {
    let carrier = job.design.carrier.as_ref()?;
    let shape = carrier.shape.as_ref()?;
    let pieces = marking(job.design);
    if pieces.is_empty() {
        return None;
    }
    let mut paper = Document::new(format!("Marking out – {}", job.title()));
    paper.metric = true;
    paper.paragraph(NOT);
    paper.paragraph(
        "All ordinates are in millimetres from the left end and the lower edge of the flat blank, on the face that \
         becomes the inside: scribe the arrow there as it is drawn, write beside it where it points in the vehicle, and \
         number parts and studs, so that everything goes back as it was drilled. There is no drawing at full size to lay on: a printer stretches \
         paper by a millimetre or two, and damp does the rest, where a scriber along a steel rule is right to half a \
         millimetre. Who has a cutting machine takes the DXF.",
    );
    paper.facts(bend(job, carrier, shape));
    for (n, piece) in pieces.iter().enumerate() {
        section(&mut paper, n + 1, piece);
    }
    paper.heading(1, "Bends and holes");
    paper.table(folds(&pieces));
    paper.table(holes(&pieces));
    straps(carrier, &pieces, &mut paper);
    if let Some(apart) = carrier.strength.as_ref().and_then(|s| pitch(&s.studs)) {
        paper.paragraph(apart);
    }
    let bought = laid(job.design);
    if !bought.is_empty() {
        paper.heading(1, "Sawing from bars and sheets");
        paper.table(nested(&bought, job));
    }
    as_built(job, carrier, &mut paper);
    plates(job, carrier, &mut paper);
    paper.heading(1, "Before a hole is drilled (distances: common practice, no source)");
    paper.list(super::raising::place(job));
    paper.heading(1, "Order of work");
    paper.steps(order(carrier));
    Some(paper)
}

/// Said before any figure.
const NOT: &str = "This is a sizing aid and no approval: vehicle law may ask for a test or an engineer's certificate.";

fn bend(job: &Job, carrier: &CarrierDesign, shape: &Shape) -> Vec<(&'static str, String)> {
    let wanted = &job.design.installation.hold_down;
    let by = match (wanted.k_factor, wanted.trial_flat.and(wanted.trial_legs)) {
        (Some(_), _) => "as entered",
        (None, Some(_)) => "by your trial strip",
        (None, None) => "by DIN 6935 (from memory, verify); bend a trial strip first and enter it: all marks follow",
    };
    vec![
        ("Inside", format!("{} × {} × {} high", shape.inside.along, shape.inside.across, shape.inside.upright)),
        ("Bends", format!("90°, inside radius {}", carrier.sizes.bend_radius)),
        ("Length in a bend", format!("{} of the blank, {by}", tenth(shape.bend_allowance))),
    ]
}

/// To a tenth of a millimetre, as far as a scriber goes.
fn tenth(length: Millimetres) -> String {
    format!("{:.1} mm", length.get())
}

fn section(paper: &mut Document, number: usize, piece: &Marking) {
    let name = piece.piece.words();
    paper.heading(1, format!("{number}. {} × {name}", piece.count));
    let (length, width, thick) = (tenth(piece.length), tenth(piece.width), piece.thickness);
    let corner = piece.corner.map_or(String::new(), |c| format!("; a square of {} cut out of each corner", tenth(c)));
    let caption = if piece.mitre.is_some() {
        paper.paragraph(format!(
            "Saw {length} of equal angle {width} × {width}, {thick} thick, as long as its free edge; both ends mitred, shorter \
             at the back."
        ));
        format!("{name}, seen on the leg that points out: free edge above, back below")
    } else {
        paper.paragraph(format!("Cut {length} × {width}, {thick} thick{corner}."));
        format!("{name}, flat: heavy cut, dashed middle of a bend, thin clamp")
    };
    let text = "the drawing is beside this paper, as SVG and as DXF".into();
    paper.blocks.push(Block::Drawing(Drawing { caption, picture: Some(drawing(piece)), text }));
}

/// A piece's number and name, as the sections have it.
fn called(n: usize, piece: &Marking) -> String {
    format!("{}. {}", n + 1, piece.piece.words())
}

fn folds(pieces: &[Marking]) -> Table {
    let each = pieces.iter().enumerate().flat_map(|(n, piece)| {
        piece.folds.iter().enumerate().map(move |(step, fold)| (called(n, piece), step + 1, *fold))
    });
    let each: Vec<(String, usize, Fold)> = each.collect();
    Columns::new()
        .text("piece", "Piece", |f: &(String, usize, Fold)| &f.0)
        .words("step", "Bend", |f| f.1.to_string())
        .words("measured", "Measured from", |f| f.2.measured().into())
        .words("begins", "Begins", |f| tenth(f.2.from))
        .words("middle", "Middle", |f| tenth(f.2.middle))
        .words("ends", "Ends", |f| tenth(f.2.to))
        .words("clamp", "Clamp at", |f| tenth(f.2.clamp))
        .words("way", "Way", |f| f.2.way().into())
        .list("marking-bends", "Bends of 90° in their order", &each)
}

fn holes(pieces: &[Marking]) -> Table {
    let each =
        pieces.iter().enumerate().flat_map(|(n, piece)| piece.holes.iter().map(move |hole| (called(n, piece), *hole)));
    let each: Vec<(String, Hole)> = each.collect();
    Columns::new()
        .text("piece", "Piece", |h: &(String, Hole)| &h.0)
        .words("along", "From the left end", |h| tenth(h.1.along))
        .words("across", "From the lower edge", |h| tenth(h.1.across))
        .words("pilot", "Pilot", |_| "3.0 mm".into())
        .words("drill", "Last drill", |h| tenth(h.1.diameter))
        .list("marking-holes", "Holes", &each)
}

/// Each side strap's ends, and the frame to which its four sides close.
fn straps(carrier: &CarrierDesign, pieces: &[Marking], paper: &mut Document) {
    let mitred = |piece: &Marking| piece.mitre.map(|cut| (cut, piece.length));
    let ends = pieces.iter().enumerate().flat_map(|(n, piece)| {
        let (name, both) = (called(n, piece), mitred(piece));
        let ends = both
            .into_iter()
            .flat_map(|(cut, length)| [("left", Millimetres::ZERO, cut), ("right", length, length - cut)]);
        ends.map(move |(end, free, back)| (name.clone(), end, free, back))
    });
    let ends: Vec<(String, &str, Millimetres, Millimetres)> = ends.collect();
    let sides: Vec<(Millimetres, Millimetres)> =
        pieces.iter().filter_map(mitred).map(|(cut, length)| (length - 2.0 * cut, length)).collect();
    let [along, across] = sides[..] else { return };
    let columns = Columns::new()
        .text("piece", "Piece", |e: &(String, &str, Millimetres, Millimetres)| &e.0)
        .words("end", "End", |e| e.1.into())
        .words("free", "At the free edge", |e| tenth(e.2))
        .words("back", "At the back", |e| tenth(e.3))
        .words("angle", "Saw at", |_| "45°".into());
    paper.table(columns.list("marking-mitres", "Ends of the angles, from the left end of the free edge", &ends));
    let (sizes, inside) = (&carrier.sizes, (along.0.get(), across.0.get()));
    let diagonal = tenth(Millimetres::new(inside.0.hypot(inside.1)));
    paper.paragraph(format!(
        "Two sides along and two across close to one strap, {} × {} between its backs and {} × {} over its free edges: lay it \
         on a flat board, both diagonals between the backs {diagonal}, tack all four corners, measure again, then weld. Its \
         backs lie on the outside of the strips, the other leg points out, at the height of the battery's middle; more than \
         one stand evenly between bottom and ears (common practice, no source). Each weld, at a corner and at a strip, {} \
         long with a throat of {}.",
        tenth(along.0),
        tenth(across.0),
        tenth(along.1),
        tenth(across.1),
        sizes.weld_length,
        sizes.weld_throat
    ));
}

/// How far the studs stand apart: what is measured over the finished holes, with the diagonal that tells whether they
/// stand square.
fn pitch(studs: &[StudDesign]) -> Option<String> {
    let steps = |of: fn(&StudDesign) -> Millimetres| {
        let mut places: Vec<f64> = studs.iter().map(|s| of(s).get()).collect();
        places.sort_by(f64::total_cmp);
        places.dedup_by(|a, b| (*a - *b).abs() < 0.05);
        let mut steps: Vec<String> = places.windows(2).map(|p| tenth(Millimetres::new(p[1] - p[0]))).collect();
        steps.dedup();
        if steps.is_empty() { "in one line".to_string() } else { steps.join(", then ") }
    };
    let (first, last) = (studs.first()?, studs.last().filter(|_| studs.len() > 1)?);
    let far = (last.along - first.along).get().hypot((last.across - first.across).get());
    Some(format!(
        "Pitch of the studs: {} along, {} across; S1 to S{}, corner to corner, {}: measure both diagonals, alike they are \
         square.",
        steps(|s| s.along),
        steps(|s| s.across),
        studs.len(),
        tenth(Millimetres::new(far))
    ))
}

/// The blank as large as a page allows, with the ordinate of each line across it.
fn drawing(piece: &Marking) -> Picture {
    let (left, top, most) = (6.0, 16.0, 168.0);
    let (length, width) = (piece.length.get().max(1.0), piece.width.get().max(1.0));
    let scale = (most / length).min(110.0 / width).min(1.0);
    let at = |(x, y): (f64, f64)| (left + x * scale, top + (width - y) * scale);
    let mut pen = Pen::default();
    for (layer, from, to) in lines(piece) {
        let ((x1, y1), (x2, y2)) = (at(from), at(to));
        match layer {
            "CUT" => pen.heavy(x1, y1, x2, y2),
            "BEND" => pen.dashed(x1, y1, x2, y2),
            _ => pen.thin(x1, y1, x2, y2),
        }
    }
    for hole in &piece.holes {
        let (x, y) = at((hole.along.get(), hole.across.get()));
        pen.circle(x, y, (hole.diameter.get() / 2.0 * scale).max(0.8));
        pen.line(x - 2.0, y, x + 2.0, y);
        pen.line(x, y - 2.0, x, y + 2.0);
    }
    let folds = piece.folds.iter().filter(|f| f.across).map(|f| f.middle.get());
    let holes = piece.holes.iter().map(|h| h.along.get());
    let mut marks: Vec<f64> = [0.0, piece.length.get()].into_iter().chain(folds).chain(holes).collect();
    marks.sort_by(f64::total_cmp);
    marks.dedup_by(|a, b| (*a - *b).abs() < 0.05);
    for (n, mark) in marks.iter().enumerate() {
        let (x, y) = at((*mark, width));
        let row = top - 2.0 - 3.4 * (n % 4) as f64;
        pen.thin(x, y, x, row);
        pen.text(x, row, &format!("{mark:.1}"), Anchor::Middle, false);
    }
    let back = piece.mitre.map_or(Vec::new(), |cut| vec![cut.get(), length - cut.get()]);
    let low = if back.is_empty() { 6.0 } else { 12.0 };
    for mark in back {
        let (x, y) = at((mark, 0.0));
        pen.thin(x, y, x, y + 3.0);
        pen.text(x, y + 6.5, &format!("{mark:.1}"), Anchor::Middle, false);
    }
    pen.picture(most + 18.0, top + width * scale + low, &format!("{}, flat", piece.piece.words()))
}

/// Each bar, angle or sheet to buy, with what is cut from it in its order.
fn nested(bought: &[Laid], job: &Job) -> Table {
    let pieces = |l: &Laid| {
        let one = |p: &LaidPiece| match l.stock {
            Stock::Sheet => {
                let (x, y) = (tenth(p.along), tenth(p.across));
                format!("{} {} × {} at {x}, {y}", p.piece.words(), tenth(p.length), tenth(p.width))
            }
            _ => format!("{} {}", p.piece.words(), tenth(p.length)),
        };
        l.pieces.iter().map(one).collect::<Vec<_>>().join("; ")
    };
    let size = |l: &Laid| format!("{} {} × {}, {} long", l.stock.words(), l.width, l.thickness, l.length);
    Columns::new()
        .words("stock", "To buy", size)
        .words("pieces", "Pieces", pieces)
        .fact(Laid::MASS)
        .fact(Laid::WASTE)
        .fact_or(Laid::PRICE, "no price given")
        .table(
            "marking-stock",
            "A saw cut is taken off after each piece; stock as the catalogue has it",
            bought,
            job.at(),
        )
}

/// What was measured of the built carrier, and what still fits.
fn as_built(job: &Job, carrier: &CarrierDesign, paper: &mut Document) {
    let Some(built) = &carrier.built else { return };
    paper.heading(1, "As built: what still fits");
    // Down to whole millimetres: a battery a hair larger would not go in.
    let largest = |q: Millimetres| Millimetres::new((q.get() + 1e-6).floor());
    paper.facts(vec![
        ("Inside", format!("{} × {} × {} high", built.inside.along, built.inside.across, built.inside.upright)),
        (
            "Fits",
            format!(
                "a battery of {} × {} × {} high at most, with the clearance wanted",
                largest(built.largest.along),
                largest(built.largest.across),
                largest(built.largest.upright)
            ),
        ),
    ]);
    if !built.holes.is_empty() {
        let columns = Columns::new()
            .fact(BuiltHole::STUD)
            .fact(BuiltHole::OFF)
            .fact(BuiltHole::PLAY)
            .fact_or(BuiltHole::OPEN, "look at its number");
        let caption = "Holes as drilled, the whole laid on as well as it can be";
        paper.table(columns.table("marking-built", caption, &built.holes, job.at()));
    }
}

/// Spreader plates, spacers and rods.
fn plates(job: &Job, carrier: &CarrierDesign, paper: &mut Document) {
    let sizes = &carrier.sizes;
    let studs = carrier.strength.as_ref().map_or(0, |s| s.studs.len());
    paper.heading(1, "Plates, spacers, rods");
    let mut all = vec![format!(
        "{studs} spreader plates {} × {}, {} thick: hole for {} in the middle, edges broken",
        sizes.spreader, sizes.spreader, sizes.spreader_thickness, sizes.stud
    )];
    if let Some(length) = sizes.spacer {
        let squeezed = carrier.spacer.as_ref();
        let squeeze = squeezed.map_or(String::new(), |s| format!("; the floor's faces are used to {} by it", s.used));
        all.push(format!(
            "{studs} spacers of tube, {} long: half a millimetre shorter than the floor is deep there, so that tightening \
             grips the floor and does not crush it (common practice, no source){squeeze}",
            tenth(length)
        ));
    }
    let hangs = carrier.style == HoldDownStyle::StripBasket;
    all.extend(carrier.shape.as_ref().and_then(|s| s.clearance.as_ref()).map(|gap| pads(gap, hangs)));
    if let Some(rod) = rod_cut(job.design) {
        all.extend(rods(&rod, &sizes.rod, job.design.installation.hold_down.pad));
    }
    paper.list(all);
}

/// What fills the gaps beside the battery, and above one that hangs; the rods' bar has a pad of its own.
fn pads(gap: &Box3, hangs: bool) -> String {
    let thick = |gap: Millimetres| tenth(gap.max(Millimetres::ZERO));
    let above = if hangs { format!(", {} above", thick(gap.upright)) } else { String::new() };
    format!(
        "pads of closed-cell rubber in the gaps, {} thick along, {} across{above}, glued to the metal and never to the \
         battery: contact adhesive on both faces, primed, rough and free of grease, left until dry to the touch, then pressed \
         (common practice, no source)",
        thick(gap.along),
        thick(gap.across)
    )
}

/// How the rods are cut, threaded and bent.
fn rods(rod: &RodCut, size: &str, pad: Millimetres) -> Vec<String> {
    let ends = if rod.hook.is_some() { "the upper end" } else { "both ends" };
    let mut all = vec![format!(
        "{} rods {size}, cut {} long from round bar of {}; thread of {} at {ends} with a die {size} × {} on a chamfered end, \
         with oil; holes of {} for them; a pad of {pad} of rubber glued under the bar",
        rod.count,
        tenth(rod.length),
        tenth(rod.diameter),
        tenth(rod.thread),
        rod.pitch.get(),
        tenth(rod.hole)
    )];
    if let Some(hook) = rod.hook {
        all.push(format!(
            "the lower {} of each rod is bent by 180° around {} inside: mark it {} from the lower end, thread first, bend \
             cold and slowly, and look for cracks; only mild steel bends so",
            tenth(hook),
            tenth(rod.radius),
            tenth(hook)
        ));
    }
    all
}

fn order(carrier: &CarrierDesign) -> Vec<String> {
    let mut steps = vec![
        "bend a trial strip of the same metal first, measure it, and enter it if it differs".to_string(),
        "saw, deburr, mark bends and holes on the face that becomes the inside; punch and drill the pilots while it is flat"
            .into(),
    ];
    steps.push(match carrier.style {
        HoldDownStyle::StripBasket => {
            "bend the ears down first, then the bottom up; lay cross strips and long strip over the battery to check, and \
             the straps around them before they are welded"
                .into()
        }
        _ => "bend in the order of the table; check the inside with the battery or a board of its size".into(),
    });
    steps.extend([
        "hold the part to its place, drill one pilot through the deck, bolt it, then the others; open each to the last \
         drill together with the deck, and mark the pair"
            .to_string(),
        "weld, grind nothing flush, look at each weld; paint with the studs' seats bare".into(),
        "where steel lies on aluminium, and where studs go through it: paint both, a sheet of plastic between, sleeves and \
         washers of plastic at the studs, sealant in the holes, or the aluminium goes"
            .into(),
    ]);
    steps
}
