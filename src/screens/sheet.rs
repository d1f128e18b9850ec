//! How does a paper look on the window? As plain text, without its title and without colours.

use super::app::App;
use crate::papers::{Document, Look, plain};

/// Columns of a paper that fits the narrowest usual window.
pub const PAGE: u16 = 74;

/// Lines of a paper before what it says: its title, the rule under it, and a blank.
const HEAD: usize = 3;

/// The lines of a paper, so many columns wide.
pub fn lines(app: &App, paper: &Document, columns: u16) -> Vec<String> {
    let look = Look { width: usize::from(columns), ascii: app.ascii, system: app.units, ..Look::default() };
    let text = anstream::adapter::strip_str(&plain(paper, &look)).to_string();
    text.lines().skip(HEAD).map(String::from).collect()
}
