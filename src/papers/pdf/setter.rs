//! With what is a paper set? Its letters, its measures, and the lines they make.

use super::face::{ABOVE, BELOW, Face, Faces};
use super::lines::Breaker;
use super::slab::{Item, Slab};
use super::style::Style;
use crate::papers::plain::Look;

/// Sets a paper.
pub struct Setter<'a> {
    /// Widths of letters.
    pub faces: &'a Faces,
    /// How text looks.
    pub look: &'a Look,
    /// Its measures.
    pub style: &'a Style,
    /// Width of a page less its margins.
    pub width: f64,
}

impl Setter<'_> {
    /// For lines of a size.
    pub fn breaker(&self, face: Face, size: f64) -> Breaker<'_> {
        Breaker { faces: self.faces, face, size }
    }

    /// A line of words, its upper left corner at the slab's.
    pub fn line<'a>(&self, text: String, face: Face, size: f64, leading: f64, x: f64) -> Slab<'a> {
        let height = size * leading;
        let y = (height - (ABOVE + BELOW) * size) / 2.0 + ABOVE * size;
        Slab { items: vec![Item::Words { x, y, face, size, text }], height, ..Slab::default() }
    }

    /// Lines of text below one another.
    pub fn lines<'a>(&self, text: &str, face: Face, size: f64, leading: f64, x: f64, width: f64) -> Vec<Slab<'a>> {
        let lines = self.breaker(face, size).lines(text, width);
        lines.into_iter().map(|line| self.line(line, face, size, leading, x)).collect()
    }
}

/// Lines as one slab.
pub fn pile(lines: Vec<Slab<'_>>) -> Slab<'_> {
    let mut all = Slab::default();
    for line in lines {
        let y = all.height;
        all.add(line, 0.0, y);
    }
    all
}
