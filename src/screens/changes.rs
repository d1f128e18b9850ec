//! What differs between two designs: every number on every screen, old and new.

use super::app::App;
use super::contents;
use super::pane::{Pane, Row, Table};
use super::screen::Screen;
use super::state::State;

/// One number that differs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// Title of the screen.
    pub screen: &'static str,
    /// Which number, in words.
    pub what: String,
    /// Before.
    pub old: String,
    /// After.
    pub new: String,
}

/// All numbers that differ, in the order of the screens. Of screens that show
/// details of one row the row in hand is compared.
pub fn between(app: &App, old: &State) -> Vec<Change> {
    let mut found = Vec::new();
    for &screen in Screen::ALL
        .iter()
        .filter(|s| !matches!(s, Screen::Findings | Screen::Diagram | Screen::Endurance | Screen::TestSheet))
    {
        let then = contents::panes(screen, app.scene_on(screen, old));
        let now = contents::panes(screen, app.scene_on(screen, &app.now));
        for (a, b) in then.iter().zip(&now) {
            if let (Some(a), Some(b)) = (a.as_table(), b.as_table()) {
                compare(screen.title(), a, b, &mut found);
            }
        }
    }
    let mut seen = std::collections::BTreeSet::new();
    found.retain(|c| seen.insert((c.screen, c.what.clone(), c.new.clone())));
    found
}

fn compare(screen: &'static str, old: &Table<'_>, new: &Table<'_>, found: &mut Vec<Change>) {
    for n in 0..new.rows {
        let Some(b) = new.at(n) else { continue };
        let Some(a) = twin(old, n, &b) else { continue };
        for (i, (x, y)) in a.cells.iter().zip(&b.cells).enumerate() {
            let stops = new.columns.get(i).is_some_and(|c| c.stops);
            if !stops || x.text == y.text {
                continue;
            }
            let head = new.columns.get(i).map_or("", |c| c.head.as_ref());
            let unit = new.columns.get(i).map_or("", |c| c.unit.as_str());
            let label = b.cells.first().map_or("", |c| c.text.trim());
            let what = match (head, unit) {
                ("", _) => label.to_string(),
                (head, "") => format!("{label}, {}", head.to_lowercase()),
                (head, unit) => format!("{label}, {} ({unit})", head.to_lowercase()),
            };
            found.push(Change { screen, what, old: x.text.clone(), new: y.text.clone() });
        }
    }
}

/// The row of an earlier table that is the same thing. One edit adds, takes out
/// or moves one row, so it stands in the same row or in one beside it.
pub fn twin(old: &Table<'_>, n: usize, new: &Row) -> Option<Row> {
    let beside = [Some(n), n.checked_sub(1), n.checked_add(1)];
    beside.into_iter().flatten().filter_map(|i| old.at(i)).find(|r| r.key == new.key && !new.heading)
}

/// The panes of the screen in hand as they were, to mark what changed.
pub fn earlier<'a>(app: &'a App) -> Vec<Pane<'a>> {
    app.baseline().map_or_else(Vec::new, |old| contents::panes(app.screen, app.scene_on(app.screen, old)))
}
