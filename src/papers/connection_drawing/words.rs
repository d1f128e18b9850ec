//! How do words stay within their box?

use crate::papers::columns::wrap;
use crate::papers::pen::{Anchor, Pen};

/// From line to line.
pub const LINE: f64 = 3.2;
/// Width of a usual letter; a bold one takes more.
const LETTER: f64 = 1.38;
const BOLD: f64 = 1.5;

/// Words in a line, squeezed where they would not fit.
pub fn fit(pen: &mut Pen, x: f64, y: f64, width: f64, words: &str, bold: bool) {
    let wide = words.chars().count() as f64 * if bold { BOLD } else { LETTER };
    if wide > width {
        pen.squeezed(x, y, width, words, bold);
    } else {
        pen.text(x, y, words, Anchor::Start, bold);
    }
}

/// Words broken into lines of a width, a number with its unit.
pub fn wrapped(words: &str, width: f64) -> Vec<String> {
    let letters = (width / BOLD).floor().max(4.0) as usize;
    wrap(words, letters)
}
