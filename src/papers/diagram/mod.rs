//! How is the wiring drawn, so that nothing overlaps and nothing crosses?
//!
//! A single-line diagram: one line is one run, out and back. The runs are a
//! tree, so they are drawn as one, from the starter battery at the left over
//! the charger to the service battery and on to the loads. Each subtree gets a
//! strip of its own, as high as its symbols and words need; strips never
//! overlap, so lines cannot cross. What is too wide for a page goes on below,
//! what is too high on further sheets.
//!
//! - `tree`: what hangs on what. `place`: where it stands, in millimetres.
//! - `sheet`: what goes on which sheet. `draw` and `symbol`: the drawing.
//! - `text`: the same tree in box-drawing characters.

mod draw;
mod place;
mod sheet;
pub(super) mod symbol;
mod text;
mod tree;

use super::pen::Picture;

pub use place::{Placed, Span};
pub use tree::{Kind, Layout, Node, Wire, layout};

impl Layout {
    /// As text of box-drawing characters, never wider than needed. `zoom` 0
    /// shows names, 1 also sizes and fuses, 2 also lengths, currents and loads.
    pub fn to_text(&self, zoom: u8, ascii: bool) -> String {
        text::draw(self, zoom, ascii)
    }

    /// One drawing for each sheet; black on white, in millimetres.
    pub fn pictures(&self) -> Vec<Picture> {
        let sheets = sheet::split(self);
        let count = sheets.len();
        sheets.iter().enumerate().map(|(n, sheet)| draw::draw(self, sheet, n + 1, count)).collect()
    }

    /// What stands where on each sheet, for whoever wants to check it.
    pub fn placed(&self) -> Vec<Vec<Placed>> {
        sheet::split(self).iter().map(|s| place::place(&s.trees).placed).collect()
    }
}
