//! The symbols, after the conventions of IEC 60617.
//!
//! Battery, fuse with its link drawn through, machine, converter, contact,
//! frame connection: shapes as drawn from memory of the convention, simplified
//! to a single line; the key on the drawing names each.

use super::place::SYMBOL;
use crate::papers::pen::{Anchor, Pen};

/// Battery: long plate plus, short plate minus; hangs on the line at `x + 5`.
pub fn battery(pen: &mut Pen, x: f64, y: f64) {
    let c = x + SYMBOL / 2.0;
    pen.dot(c, y);
    pen.line(c, y, c, y + 4.0);
    pen.line(c - 4.0, y + 4.0, c + 4.0, y + 4.0);
    pen.heavy(c - 2.0, y + 5.6, c + 2.0, y + 5.6);
    pen.dashed(c, y + 5.6, c, y + 8.0);
    pen.line(c - 4.0, y + 8.0, c + 4.0, y + 8.0);
    pen.heavy(c - 2.0, y + 9.6, c + 2.0, y + 9.6);
    pen.line(c, y + 9.6, c, y + 12.5);
    pen.text(c + 1.0, y + 3.2, "+", Anchor::Start, false);
    pen.text(c + 1.0, y + 12.6, "–", Anchor::Start, false);
}

/// Fuse: a rectangle with its link drawn through, at `x` on the line `y`.
pub fn fuse(pen: &mut Pen, x: f64, y: f64, rating: &str) {
    pen.rect(x, y - 1.2, 6.0, 2.4);
    pen.line(x, y, x + 6.0, y);
    pen.text(x + 3.0, y - 2.2, rating, Anchor::Middle, false);
}

/// Rotating machine: a circle with its letter.
pub fn machine(pen: &mut Pen, x: f64, y: f64, letter: &str) {
    pen.circle(x + SYMBOL / 2.0, y, SYMBOL / 2.0);
    pen.text(x + SYMBOL / 2.0, y + 0.2, letter, Anchor::Middle, true);
    direct(pen, x + SYMBOL / 2.0, y + 2.2);
}

/// Converter: a square with a diagonal, the kind of current on either side.
pub fn converter(pen: &mut Pen, x: f64, y: f64, from_ac: bool, to_ac: bool) {
    let (top, bottom, right) = (y - SYMBOL / 2.0, y + SYMBOL / 2.0, x + SYMBOL);
    pen.rect(x, top, SYMBOL, SYMBOL);
    pen.line(x, bottom, right, top);
    let mark = |pen: &mut Pen, ac: bool, x: f64, y: f64| if ac { alternating(pen, x, y) } else { direct(pen, x, y) };
    mark(pen, from_ac, x + 2.8, y - 2.6);
    mark(pen, to_ac, right - 2.8, y + 2.6);
}

/// Direct current: a line over a broken one.
fn direct(pen: &mut Pen, x: f64, y: f64) {
    pen.line(x - 1.6, y - 0.5, x + 1.6, y - 0.5);
    for k in [-1.6, -0.4, 0.8] {
        pen.line(x + k, y + 0.5, x + k + 0.8, y + 0.5);
    }
}

/// Alternating current: one wave.
fn alternating(pen: &mut Pen, x: f64, y: f64) {
    pen.wave(x, y);
}

/// A contact opened by low voltage: blade, and above it the coil marked `U<`.
pub fn cut_off(pen: &mut Pen, x: f64, y: f64) {
    contact(pen, x, y);
    pen.dashed(x + 5.0, y - 1.6, x + 5.0, y - 4.6);
    pen.rect(x + 1.8, y - 8.6, 6.4, 4.0);
    pen.text(x + 5.0, y - 5.6, "U<", Anchor::Middle, false);
}

/// A contact with its coil, joining two batteries.
pub fn relay(pen: &mut Pen, x: f64, y: f64) {
    contact(pen, x, y);
    pen.dashed(x + 5.0, y - 1.6, x + 5.0, y - 3.0);
    pen.rect(x + 2.0, y - 5.0, 6.0, 2.0);
}

fn contact(pen: &mut Pen, x: f64, y: f64) {
    pen.line(x, y, x + 2.5, y);
    pen.line(x + 2.5, y, x + 7.2, y - 2.6);
    pen.line(x + 7.5, y, x + SYMBOL, y);
}

/// Solar generator: a cell in a square and light falling on it.
pub fn solar(pen: &mut Pen, x: f64, y: f64) {
    pen.rect(x, y - SYMBOL / 2.0, SYMBOL, SYMBOL);
    pen.text(x + 3.2, y + 3.6, "G", Anchor::Middle, true);
    pen.line(x + 5.6, y + 2.6, x + 9.2, y + 2.6);
    pen.heavy(x + 6.6, y + 3.8, x + 8.2, y + 3.8);
    for k in [2.0, 4.4] {
        pen.line(x + k, y - 4.0, x + k + 2.6, y - 1.2);
        pen.line(x + k + 2.6, y - 1.2, x + k + 1.4, y - 1.4);
        pen.line(x + k + 2.6, y - 1.2, x + k + 2.3, y - 2.4);
    }
}

/// Return by the vehicle's body: the frame symbol under the line's right end.
pub fn frame(pen: &mut Pen, x: f64, y: f64) {
    pen.line(x, y, x, y + 2.2);
    pen.line(x - 2.0, y + 2.2, x + 2.0, y + 2.2);
    for k in [-2.0, 0.0, 2.0] {
        pen.line(x + k, y + 2.2, x + k - 1.0, y + 3.6);
    }
}

/// Two conductors in one line: two strokes across it.
pub fn two_conductors(pen: &mut Pen, x: f64, y: f64) {
    for k in [0.0, 0.9] {
        pen.line(x + k - 0.6, y + 1.1, x + k + 0.6, y - 1.1);
    }
}
