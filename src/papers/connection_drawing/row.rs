//! How is a run drawn: two places, and between them the plus above the minus?

use super::chain::{Element, Piece, Row};
use super::words::{LINE, fit, wrapped};
use crate::engine::{Part, Terminal};
use crate::papers::diagram::symbol;
use crate::papers::pen::Pen;

/// Width of a sheet.
pub const WIDTH: f64 = 178.0;
/// Width of the place at the left and at the right.
const NEAR: f64 = 34.0;
const FAR: f64 = 46.0;
/// Width of a fuse with its words.
const FUSE: f64 = 15.0;
/// From the plus down to the minus, at least: two lines of words below one and one above the other.
const APART: f64 = 12.5;
/// Between rows.
const GAP: f64 = 2.5;

/// Where everything of a row stands.
pub struct Laid<'a> {
    row: &'a Row,
    near: Vec<String>,
    far: Vec<String>,
    hangs: Vec<String>,
    /// Sheets on which the places at its ends go on.
    pub on: [Option<usize>; 2],
}

impl<'a> Laid<'a> {
    /// Of a row.
    pub fn of(row: &'a Row) -> Laid<'a> {
        let [near, far] = names(row).map(|name| name.unwrap_or_default());
        let hangs = row.hangs.iter().flat_map(|words| wrapped(words, FAR - 3.0)).collect();
        Laid { row, near: wrapped(near, NEAR - 3.0), far: wrapped(far, FAR - 3.0), hangs, on: [None, None] }
    }

    fn plus_y(&self) -> f64 {
        self.near.len().max(self.far.len()) as f64 * LINE + 5.0
    }

    fn minus_y(&self) -> f64 {
        // One line more says on which sheet it goes on.
        self.plus_y() + APART.max((self.hangs.len() + 2) as f64 * LINE + 1.5)
    }

    /// Where the places at its ends end: a minus of several pieces has words below it too.
    fn bottom(&self) -> f64 {
        self.minus_y() + 2.0 + if self.row.minus.len() > 1 { 2.0 * LINE } else { 0.0 }
    }

    /// Its height with the gap below it.
    pub fn height(&self) -> f64 {
        self.bottom() + GAP
    }

    /// Draw it; `letter` names a style of fuse.
    pub fn draw(&self, letter: &dyn Fn(&str) -> String) -> Pen {
        let mut pen = Pen::default();
        let (plus, minus, right) = (self.plus_y(), self.minus_y(), WIDTH - FAR);
        self.place(&mut pen, 0.0, NEAR, 0);
        self.place(&mut pen, right, FAR, 1);
        if !self.row.plus.is_empty() {
            self.chain(&mut pen, &self.row.plus, [NEAR, right], plus, letter);
        }
        let body = |n: usize| self.row.back.as_ref().is_some_and(|back| back[n].part == Part::Earth);
        let from = if body(0) { NEAR + 8.0 } else { NEAR };
        let to = if body(1) { right - 8.0 } else { right };
        if self.row.minus.len() > 1 {
            self.chain(&mut pen, &self.row.minus, [from, to], minus, letter);
        } else if let Some(Element::Piece(piece)) = self.row.minus.first() {
            pen.line(from, minus, to, minus);
            let words = format!("{}, {}, {}", piece.name, piece.size, piece.lugs);
            fit(&mut pen, NEAR + 10.0, minus - 1.2, right - NEAR - 20.0, &words, false);
        }
        for (_, x) in [(0, from), (1, to)].into_iter().filter(|(n, _)| body(*n) && !self.row.minus.is_empty()) {
            symbol::frame(&mut pen, x, minus);
        }
        pen
    }

    /// A conductor with its devices: pieces share what those leave.
    fn chain(&self, pen: &mut Pen, line: &[Element], ends: [f64; 2], y: f64, letter: &dyn Fn(&str) -> String) {
        let [left, right] = ends;
        let is_piece = |e: &&Element| matches!(e, Element::Piece(_));
        let pieces = line.iter().filter(is_piece).count().max(1) as f64;
        let devices = line.iter().filter(|e| !is_piece(e)).count() as f64;
        let each = (right - left - devices * FUSE) / pieces;
        let mut x = left;
        for element in line {
            match element {
                Element::Piece(Piece { name, size, lugs }) => {
                    pen.line(x, y, x + each, y);
                    for (dy, words) in [(-1.2, name), (LINE, size), (2.0 * LINE, lugs)] {
                        fit(pen, x + 1.5, y + dy, each - 3.0, words, false);
                    }
                    x += each;
                }
                Element::Device(name, rating, style) => {
                    pen.line(x, y, x + FUSE, y);
                    symbol::fuse(pen, x + 4.0, y, "");
                    fit(pen, x + 1.0, y - 2.0, FUSE - 2.0, name, true);
                    fit(pen, x + 1.0, y + LINE + 1.2, FUSE - 2.0, &format!("{rating} ({})", letter(style)), true);
                    x += FUSE;
                }
                Element::Bridge(name) => {
                    pen.line(x, y, x + FUSE, y);
                    fit(pen, x + 1.0, y - 1.2, FUSE - 2.0, name, false);
                    x += FUSE;
                }
            }
        }
        // Where the pieces end a stud takes over.
        [left, right].into_iter().for_each(|x| pen.dot(x, y));
    }

    fn place(&self, pen: &mut Pen, x: f64, width: f64, n: usize) {
        pen.rect(x, 0.0, width, self.bottom());
        let inside = width - 3.0;
        for (k, words) in (if n == 0 { &self.near } else { &self.far }).iter().enumerate() {
            fit(pen, x + 1.5, LINE * (k as f64 + 1.0), inside, words, true);
        }
        let mut y = self.plus_y() + 1.0;
        if let Some(ends) = &self.row.ends {
            let way = self.row.way.iter().filter(|_| n == 0).map(|way| format!(", {way}"));
            let mark = std::iter::once(ends[n].mark()).chain(way).collect::<String>();
            fit(pen, x + 1.5, y, inside, &mark, false);
        }
        for words in self.hangs.iter().filter(|_| n == 1) {
            y += LINE;
            fit(pen, x + 1.5, y, inside, words, false);
        }
        if let Some(sheet) = self.on[n] {
            fit(pen, x + 1.5, y + LINE, inside, &format!("→ sheet {sheet}"), false);
        }
        if let Some(back) = self.row.back.as_ref().filter(|back| back[n].part != Part::Earth) {
            let plus = self.row.ends.as_ref().map(|ends| ends[n].at.as_str());
            fit(pen, x + 1.5, self.minus_y() + 1.0, inside, &back_words(&back[n], plus), false);
        }
    }
}

/// Names of the places at both ends.
pub fn names(row: &Row) -> [Option<&str>; 2] {
    let of = |n: usize| row.ends.as_ref().or(row.back.as_ref()).map(|ends| ends[n].at.as_str());
    [of(0), of(1)]
}

/// The minus of a place: short where it is that of the same one.
fn back_words(back: &Terminal, plus: Option<&str>) -> String {
    match (back.at.strip_prefix("negative bar at "), plus) {
        (Some(at), Some(plus)) if at == plus => format!("negative bar {}", back.mark()),
        (None, Some(plus)) if plus == back.at => back.mark(),
        _ => back.to_string(),
    }
}
