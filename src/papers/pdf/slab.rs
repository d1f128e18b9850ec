//! Of what is a page made? Of slabs that no page's end tears, each a few words, lines or a picture.

use super::face::Face;
use crate::papers::pen::Picture;
use std::rc::Rc;

/// Points in a millimetre.
pub const MM: f64 = 72.0 / 25.4;

/// Something on a page; lengths in points, downward from the slab's upper left corner.
#[derive(Clone, Debug)]
pub enum Item<'a> {
    /// Words on a line.
    Words { x: f64, y: f64, face: Face, size: f64, text: String },
    /// A straight line, black or grey.
    Rule { from: (f64, f64), to: (f64, f64), width: f64, grey: bool },
    /// A picture, each of its millimetres so many points.
    Picture { x: f64, y: f64, scale: f64, picture: &'a Picture },
    /// The number of the page on which a part begins, its right end here; all of this line leads there.
    PageOf { part: usize, left: f64, right: f64, y: f64, size: f64 },
    /// A part begins.
    Begins { part: usize, y: f64 },
}

impl Item<'_> {
    /// The same elsewhere.
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        let at = |(x, y): (f64, f64)| (x + dx, y + dy);
        match self {
            Item::Words { x, y, face, size, text } => Item::Words { x: x + dx, y: y + dy, face, size, text },
            Item::Rule { from, to, width, grey } => Item::Rule { from: at(from), to: at(to), width, grey },
            Item::Picture { x, y, scale, picture } => Item::Picture { x: x + dx, y: y + dy, scale, picture },
            Item::PageOf { part, left, right, y, size } => {
                Item::PageOf { part, left: left + dx, right: right + dx, y: y + dy, size }
            }
            Item::Begins { part, y } => Item::Begins { part, y: y + dy },
        }
    }
}

/// What stays together on a page.
#[derive(Clone, Debug, Default)]
pub struct Slab<'a> {
    /// What is on it.
    pub items: Vec<Item<'a>>,
    /// Its height.
    pub height: f64,
    /// Air above it, unless it begins a page.
    pub above: f64,
    /// Whether the next one must stand on the same page.
    pub keep: bool,
    /// What stands above it once more if it begins a page: a table's head.
    pub again: Option<Rc<Slab<'a>>>,
}

impl<'a> Slab<'a> {
    /// Add what stands on another, moved.
    pub fn add(&mut self, other: Slab<'a>, x: f64, y: f64) {
        self.items.extend(other.items.into_iter().map(|item| item.moved(x, y)));
        self.height = self.height.max(y + other.height);
    }
}

/// Slabs one below the other, in so many columns.
#[derive(Clone, Debug)]
pub struct Strip<'a> {
    /// Side by side.
    pub columns: usize,
    /// From top to bottom.
    pub slabs: Vec<Slab<'a>>,
}

/// Air between columns.
pub const GUTTER: f64 = 6.0 * MM;

/// Width of one of several columns.
pub fn column(width: f64, columns: usize) -> f64 {
    let columns = columns.max(1) as f64;
    (width - GUTTER * (columns - 1.0)) / columns
}
