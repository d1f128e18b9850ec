//! How does a paper look on the window? As plain text, without its title and without colours.

use super::app::App;
use crate::papers::{Block, Cell, Document, Look, plain};

/// Columns of a paper that fits the narrowest usual window.
pub const PAGE: u16 = 74;

/// Lines of a paper before what it says: its title, the rule under it, and a blank.
const HEAD: usize = 3;

/// The lines of a paper, so many columns wide.
pub fn lines(app: &App, paper: &Document, columns: u16) -> Vec<String> {
    let names = app.now.names.clone();
    let look = Look { width: usize::from(columns), ascii: app.ascii, system: app.units, names, ..Look::default() };
    let text = anstream::adapter::strip_str(&plain(&without_blanks(paper), &look)).to_string();
    text.lines().skip(HEAD).map(String::from).collect()
}

/// The paper without the columns that are filled in with a pen.
fn without_blanks(paper: &Document) -> Document {
    let mut paper = paper.clone();
    for block in &mut paper.blocks {
        let Block::Table(table) = block else { continue };
        let said = |n: &usize| table.rows.iter().any(|row| row.get(*n) != Some(&Cell::ToFill));
        let kept: Vec<usize> = (0..table.columns.len()).filter(|n| table.rows.is_empty() || said(n)).collect();
        table.columns = kept.iter().filter_map(|n| table.columns.get(*n).copied()).collect();
        for row in &mut table.rows {
            *row = kept.iter().filter_map(|n| row.get(*n).cloned()).collect();
        }
    }
    paper
}
