//! What drawing leaves behind: where things are on the window, and how far each pane is scrolled.

use super::action::Action;
use super::screen::Screen;
use ratatui::layout::{Position, Rect};
use std::collections::BTreeMap;

/// Written while drawing, read by the mouse and by the next frame.
#[derive(Debug, Default)]
pub struct View {
    /// What is where; later ones lie over earlier ones.
    pub targets: Vec<(Rect, Target)>,
    /// First row and column shown of each pane.
    pub scroll: BTreeMap<(Screen, usize), (usize, usize)>,
    /// Words of the row in hand that did not fit.
    pub cut: Option<String>,
    /// The window is too small for the screens: nothing of the plan is seen.
    pub hidden: bool,
    /// Where a drag began.
    pub grabbed: Option<Target>,
}

/// Something on the window that the mouse can reach.
#[derive(Clone, Debug, PartialEq)]
pub enum Target {
    /// Does this when clicked.
    Button(Action),
    /// A cell of a table.
    #[allow(missing_docs)]
    Cell { pane: usize, row: usize, column: usize },
    /// Somewhere in a pane.
    Pane(usize),
    /// A row of what lies over the screen.
    Choice(usize),
    /// What lies over the screen, elsewhere.
    Overlay,
}

impl View {
    /// Forget where things were; the scroll stays.
    pub fn begin(&mut self) {
        self.targets.clear();
        self.cut = None;
        self.hidden = false;
    }

    /// Something is here.
    pub fn mark(&mut self, area: Rect, target: Target) {
        self.targets.push((area, target));
    }

    /// What is at a position.
    pub fn at(&self, column: u16, row: u16) -> Option<&Target> {
        let here = Position { x: column, y: row };
        self.targets.iter().rev().find(|(area, _)| area.contains(here)).map(|(_, t)| t)
    }

    /// Scroll so that a line is in sight, by as little as needed.
    pub fn follow(first: usize, line: usize, height: usize) -> usize {
        if line < first {
            line
        } else if height > 0 && line >= first + height {
            line + 1 - height
        } else {
            first
        }
    }
}
