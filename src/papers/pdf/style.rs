//! How large are letters and how wide is the air between them?

use super::slab::MM;

/// A paper's measures, in points.
#[derive(Clone, Copy, Debug)]
pub struct Style {
    /// Letters of the text, and a line's height in letter sizes.
    pub text: f64,
    pub leading: f64,
    /// Of titles and headings of level 1 and 2.
    pub title: f64,
    pub heading: [f64; 2],
    /// Air above a heading of level 1 and 2.
    pub above: [f64; 2],
    /// Of tables; a line's height, and air above and below a row.
    pub table: f64,
    pub table_leading: f64,
    pub row: f64,
    /// Of what stands below a notice, and of captions.
    pub small: f64,
    /// Of entries in two columns.
    pub entry: f64,
    /// Air below a block.
    pub below: f64,
    /// Margins: left and right, above, below.
    pub margins: [f64; 3],
    /// Facts always in two columns, long tables too.
    pub dense: bool,
}

/// Most papers.
pub const SHEET: Style = Style {
    text: 10.0,
    leading: 1.4,
    title: 17.0,
    heading: [13.0, 10.5],
    above: [7.0 * MM, 4.0 * MM],
    table: 8.6,
    table_leading: 1.3,
    row: 0.6 * MM,
    small: 9.0,
    entry: 7.5,
    below: 2.5 * MM,
    margins: [14.0 * MM, 16.0 * MM, 18.0 * MM],
    dense: false,
};

/// A card, which stays on one page.
pub const CARD: Style = Style {
    text: 8.5,
    leading: 1.22,
    title: 13.0,
    heading: [10.0, 9.0],
    above: [2.0 * MM, 1.5 * MM],
    table: 7.0,
    table_leading: 1.2,
    row: 0.2 * MM,
    small: 7.0,
    entry: 7.0,
    below: 1.0 * MM,
    margins: [14.0 * MM, 10.0 * MM, 14.0 * MM],
    dense: true,
};

/// The same card with less air and smaller text, of the many fuses of a large plan; no letter under 7 points.
pub const FULL_CARD: Style = Style {
    text: 7.4,
    leading: 1.14,
    heading: [8.6, 8.0],
    above: [1.2 * MM, 1.0 * MM],
    table_leading: 1.1,
    row: 0.1 * MM,
    below: 0.6 * MM,
    ..CARD
};
