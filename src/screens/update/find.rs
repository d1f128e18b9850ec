//! Where is it? All that can be done and all that stands on the screens, by name.

use super::own;
use crate::catalogue::OwnKind;
use crate::screens::action::Action;
use crate::screens::app::App;
use crate::screens::bench::Question;
use crate::screens::contents;
use crate::screens::keymap;
use crate::screens::overlay::{Entry, Menu, Overlay};
use crate::screens::pane::{Column, Row, Table};
use crate::screens::screen::Screen;

/// Cells of a row that tell which one it is.
const TELLING: usize = 4;

/// Ask what is looked for.
pub fn open(app: &mut App) {
    let mut entries = keys(app);
    entries.extend(others(app));
    for &screen in Screen::ALL {
        entries.extend(standing(app, screen));
    }
    app.overlay = Some(Overlay::Menu(Menu::new("Find anything: type to search", entries)));
}

/// What the keys of this place do.
fn keys(app: &App) -> Vec<Entry> {
    let bindings = keymap::here(app.here())
        .filter(|b| !matches!(b.action, Action::Move(_) | Action::Find | Action::Bench(_) | Action::OwnRow(_)));
    let entry = |binding: &keymap::Binding| Entry {
        words: match binding.action {
            Action::Show(screen) => format!("{} screen", screen.title()),
            _ => binding.words.to_string(),
        },
        extra: binding.keys.first().map(|k| k.words()).unwrap_or_default(),
        action: binding.action.clone(),
    };
    bindings.map(entry).collect()
}

/// What has no key of its own.
fn others(app: &App) -> Vec<Entry> {
    let entry = |words: String, action: Action| Entry { words, extra: String::new(), action };
    let questions = Question::ALL.map(|q| entry(q.words().into(), Action::Bench(q)));
    let examples = crate::plan::examples().iter().enumerate();
    let examples = examples.map(|(n, e)| entry(format!("open the example {}", e.name), Action::OpenExample(n)));
    let own =
        OwnKind::ALL.map(|k| entry(format!("a {} of your own, from its data sheet", k.word()), Action::OwnRow(k)));
    let chargers = app.catalogue.chargers.iter().map(|c| {
        let words = format!("use the charger {}: {}", c.name, c.output);
        entry(words.clone(), Action::PutAll { edits: own::charger(c), words })
    });
    let questions = questions.into_iter().chain(own).chain(chargers);
    questions.chain([entry("mouse on or off".into(), Action::Mouse)]).chain(examples).collect()
}

/// The rows of a screen: fields, loads, runs, numbers, findings.
fn standing(app: &App, screen: Screen) -> Vec<Entry> {
    let mut found = Vec::new();
    for (pane, shown) in contents::panes(screen, app.scene_on(screen, &app.now)).iter().enumerate() {
        let Some(table) = shown.as_table() else { continue };
        for row in 0..table.rows {
            let Some(made) = table.at(row).filter(|r| !r.heading) else { continue };
            let action = Action::Jump { screen, pane, row, column: column_of(table, &made) };
            found.push(Entry { words: words(&made), extra: format!("{}: {}", screen.title(), shown.title), action });
        }
        let spot = app.spots.get(&(screen, pane)).map_or(table.start, |spot| spot.row);
        found.extend(fields(table, spot.min(table.rows.saturating_sub(1))).into_iter().map(|(words, column, row)| {
            let action = Action::Jump { screen, pane, row, column };
            Entry { words, extra: format!("{}: {}", screen.title(), shown.title), action }
        }));
    }
    found.retain(|entry| !entry.words.is_empty());
    found
}

/// In a list of the plan a field has its name at the head of a column: of the row in hand, `IP code  ip65  charger`.
fn fields(table: &Table<'_>, row: usize) -> Vec<(String, usize, usize)> {
    let Some(made) = table.list.and_then(|_| table.at(row)).filter(|r| !r.heading) else { return Vec::new() };
    let name = words(&Row { cells: made.cells.iter().take(1).cloned().collect(), ..Row::default() });
    let fields = table.columns.iter().zip(&made.cells).enumerate().skip(1);
    let fields = fields.filter(|(_, (column, cell))| !column.head.is_empty() && column.stops && cell.place.is_some());
    let told = |column: &Column| format!("{} {}", column.head, column.unit).trim_end().to_string();
    fields.map(|(n, (column, cell))| (format!("{}  {}  {name}", told(column), cell.text.trim()), n, row)).collect()
}

/// The first cells that say something.
fn words(row: &Row) -> String {
    let telling = row.cells.iter().map(|c| c.text.trim()).filter(|t| t.chars().any(char::is_alphanumeric));
    telling.take(TELLING).collect::<Vec<_>>().join("  ")
}

/// The first cell in which something can be edited, or else explained.
fn column_of(table: &Table<'_>, row: &Row) -> usize {
    let stands = |wanted: fn(&crate::screens::pane::Cell) -> bool| {
        row.cells.iter().zip(&table.columns).position(|(cell, column)| column.stops && wanted(cell))
    };
    stands(|c| c.place.is_some()).or_else(|| stands(|c| c.topic.is_some())).unwrap_or(0)
}
