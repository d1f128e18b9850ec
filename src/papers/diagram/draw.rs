//! A sheet of the wiring diagram as it is drawn: black on white, in millimetres.

use super::place::{FUSE, LINE, Placed, load_lines, place, words, words_width};
use super::sheet::Sheet;
use super::symbol;
use super::tree::{Kind, Layout, Wire};
use crate::papers::pen::{Anchor, Pen, Picture};

/// White around the drawing.
const MARGIN: f64 = 2.0;
/// Above it: the title. Below it: the key.
const HEAD: f64 = 14.0;
const KEY: f64 = 24.0;
/// The key needs this much.
const NARROWEST: f64 = 178.0;

/// Draw one sheet of `count`.
pub fn draw(layout: &Layout, sheet: &Sheet, number: usize, count: usize) -> Picture {
    let placement = place(&sheet.trees);
    let mut pen = Pen::default();
    for placed in &placement.placed {
        lines(&mut pen, placed);
    }
    for placed in &placement.placed {
        node(&mut pen, placed);
    }
    let loose = if number == 1 { layout.loose.as_slice() } else { &[] };
    let foot = loose.len() as f64 * LINE;
    let width = placement.width.max(NARROWEST) + 2.0 * MARGIN;
    let height = placement.height + HEAD + KEY + foot + MARGIN;
    let mut around = Pen::default();
    let sheets = if count > 1 { format!(", sheet {number} of {count}") } else { String::new() };
    around.text(MARGIN, MARGIN + 3.0, &format!("{} – wiring diagram{sheets}", layout.title), Anchor::Start, true);
    around.text(MARGIN, MARGIN + 3.0 + 1.3 * LINE, "Date / revision: ____________________", Anchor::Start, false);
    key(&mut around, MARGIN, height - KEY - foot + 2.0);
    for (n, run) in loose.iter().enumerate() {
        let y = height - MARGIN - foot + (n as f64 + 1.0) * LINE;
        around.text(MARGIN, y, &format!("Not connected, not drawn: {run}"), Anchor::Start, false);
    }
    around.group(MARGIN, HEAD, pen);
    around.picture(width, height, &format!("Wiring diagram{sheets}"))
}

/// The lines to a node's children, and its own run with words and fuses.
fn lines(pen: &mut Pen, p: &Placed) {
    let left = match p.node.kind {
        Kind::Point | Kind::Continued => p.x + 1.0,
        Kind::Battery => p.x + symbol_width() / 2.0,
        _ => p.x + symbol_width(),
    };
    if let Some(low) = p.trunk_to {
        pen.line(left, p.y, p.out_x, p.y);
        pen.line(p.out_x, p.y, p.out_x, low);
        if low > p.y {
            pen.dot(p.out_x, p.y);
        }
    }
    if let Some(span) = p.loads {
        pen.line(left, p.y, span.left, p.y);
        pen.rect(span.left, span.top, span.right - span.left, span.bottom - span.top);
        for (n, load) in load_lines(&p.node).iter().enumerate() {
            pen.text(span.left + 1.5, p.y + 0.9 + n as f64 * LINE, load, Anchor::Start, false);
        }
    }
    if let (Some(wire), Some((from, y))) = (&p.node.wire, p.wire_from) {
        run(pen, wire, from, p, y);
    }
}

fn symbol_width() -> f64 {
    super::place::SYMBOL
}

/// How far a line reaches into a symbol's width.
fn into(p: &Placed) -> f64 {
    match p.node.kind {
        Kind::Point | Kind::Continued => 1.0,
        Kind::Battery => symbol_width() / 2.0,
        _ => 0.0,
    }
}

fn run(pen: &mut Pen, wire: &Wire, from: f64, p: &Placed, y: f64) {
    pen.line(from, y, p.x + into(p), y);
    if !wire.has_words() {
        return;
    }
    let mut left = from + 1.5;
    if let Some(rating) = &wire.fuse_left {
        symbol::fuse(pen, left + 0.5, y, rating);
        left += FUSE;
    }
    let mut right = p.x - 1.2;
    if let Some(rating) = &wire.fuse_right {
        right -= FUSE;
        symbol::fuse(pen, right + 2.0, y, rating);
    }
    let [above, below] = wire.words();
    pen.text(left + 0.5, y - 1.2, &above, Anchor::Start, false);
    pen.text(left + 0.5, y + 3.0, &below, Anchor::Start, false);
    if wire.own_leads.is_some() {
        return;
    }
    if wire.chassis {
        let x = left + 2.5 + words_width(&below);
        symbol::frame(pen, x.min(right - 2.2), y);
    } else {
        symbol::two_conductors(pen, right - 1.6, y);
    }
}

/// Symbol, name and words of a node.
fn node(pen: &mut Pen, p: &Placed) {
    let (x, y) = (p.x, p.y);
    let mut above = symbol_width() / 2.0;
    let mut words_at = (x, y + symbol_width() / 2.0 + 0.5);
    match p.node.kind {
        Kind::Alternator => symbol::machine(pen, x, y, "G"),
        Kind::Battery => {
            symbol::battery(pen, x, y);
            above = 1.5;
            words_at = (x + symbol_width(), y + 2.0);
        }
        Kind::DcDc => symbol::converter(pen, x, y, false, false),
        Kind::Inverter => symbol::converter(pen, x, y, false, true),
        Kind::Mains => symbol::converter(pen, x, y, true, false),
        Kind::Relay => symbol::relay(pen, x, y),
        Kind::CutOff => {
            symbol::cut_off(pen, x, y);
            above = 9.0;
            words_at = (x, y + 2.0);
        }
        Kind::Solar => symbol::solar(pen, x, y),
        Kind::Point | Kind::Continued => {
            pen.dot(x + 1.0, y);
            above = 1.5;
            words_at = (x, y + 1.5);
        }
    }
    let lowest = y - above - 0.6;
    for (n, line) in p.name.iter().rev().enumerate() {
        pen.text(x, lowest - n as f64 * LINE, line, Anchor::Start, true);
    }
    let details = p.node.said();
    let details = details.iter().flat_map(|d| words(d));
    for (n, line) in details.enumerate() {
        pen.text(words_at.0, words_at.1 + LINE * 0.8 + n as f64 * LINE, &line, Anchor::Start, false);
    }
}

/// What the symbols and words mean.
fn key(pen: &mut Pen, x: f64, y: f64) {
    pen.line(x, y - 3.0, x + NARROWEST, y - 3.0);
    symbol::fuse(pen, x, y + 3.0, "20 A");
    pen.text(x + 8.0, y + 3.8, "fuse, at the end where its source is", Anchor::Start, false);
    symbol::two_conductors(pen, x + 76.0, y + 3.0);
    pen.line(x + 72.0, y + 3.0, x + 80.0, y + 3.0);
    pen.text(x + 82.0, y + 3.8, "two conductors, out and back", Anchor::Start, false);
    symbol::frame(pen, x + 140.0, y + 1.0);
    pen.line(x + 136.0, y + 1.0, x + 144.0, y + 1.0);
    pen.text(x + 146.0, y + 3.8, "back by the body", Anchor::Start, false);
    let about = [
        "Single-line diagram: each line is one run. On it: number and copper size; under it: length one way, steady current.",
        "Symbols after IEC 60617. Boxes hold the loads of a point. Isolate both batteries before work on any of this.",
    ];
    for (n, line) in about.iter().enumerate() {
        pen.text(x, y + 9.5 + n as f64 * LINE, line, Anchor::Start, false);
    }
}
