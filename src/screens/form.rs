//! Fields of the plan as cells and as forms: label, value, where it comes from.

use super::pane::{Cell, Column, Pane, Row, Table};
use super::scene::Scene;
use super::theme::Role;
use crate::plan::{Absent, CutOffBy, Field, Place, Section, Value, field_at, fields_of};

/// What the engine put in for a field the plan leaves out.
pub type Chosen = fn(&Scene<'_>, Place) -> Option<Cell>;

/// The cell of a field: the value as given, else what is used instead.
pub fn cell(scene: &Scene<'_>, place: Place, chosen: Chosen) -> Cell {
    let Some(field) = field_at(place) else { return Cell::dash() };
    let shown = shown(scene, field, place.index);
    let cell = match (shown, scene.is_given(place)) {
        // Lists have no room to say which is given: told by a sign from what the program chooses.
        (Some(text), true) if is_bought(field) || chosen(scene, place).is_some() => {
            Cell::words(format!("={text}")).role(Role::Given)
        }
        (Some(text), true) => Cell::words(text).role(Role::Given),
        (text, false) if field.absent == Absent::Chosen => match (chosen(scene, place), text) {
            (Some(cell), _) => cell.role(Role::Chosen),
            (None, Some(text)) => Cell::words(text),
            (None, None) => Cell::dash(),
        },
        (Some(text), false) => Cell::words(text).role(Role::Muted),
        (None, _) => Cell::dash(),
    };
    cell.place(place)
}

/// Whether a field is a cable or a fuse that the program would choose.
fn is_bought(field: &Field) -> bool {
    matches!(field.kind, crate::plan::Kind::Size) || field.key.ends_with("fuse_a")
}

/// Where the value of a field that a cell shows comes from, in a word.
pub fn origin(scene: &Scene<'_>, place: Place, cell: &Cell) -> &'static str {
    let Some(field) = field_at(place) else { return "" };
    match (scene.is_given(place), field.absent) {
        (true, _) => "given",
        (false, Absent::Chosen) if cell.text == Cell::dash().text => "left out",
        (false, Absent::Chosen) => "chosen",
        (false, _) => "usual",
    }
}

fn shown(scene: &Scene<'_>, field: &Field, index: usize) -> Option<String> {
    let value = field.get(scene.plan(), index)?;
    let text = match &value {
        Value::Text(t) if t.is_empty() => return None,
        Value::Text(key) => named(scene, field, key),
        _ => field.show(&value, scene.units),
    };
    // Lines of a note flow on: where they end depends on the pane.
    Some(scene.plain(text.lines().map(str::trim).collect::<Vec<_>>().join(" "))).filter(|t| !t.is_empty())
}

/// Catalogue keys are shown by the name people say.
fn named(scene: &Scene<'_>, field: &Field, key: &str) -> String {
    use crate::plan::{Kind, Pick};
    let names =
        matches!(field.kind, Kind::Pick(Pick::Chemistry | Pick::Insulation | Pick::CablePlace | Pick::FuseStyle));
    let options = if names { field.options(&scene.state.catalogue) } else { Vec::new() };
    options.into_iter().find(|(k, _)| k == key).map_or_else(|| key.to_string(), |(_, name)| name)
}

/// A column of fields of the items of a list, by their key.
pub fn column<'a>(
    scene: Scene<'a>,
    section: Section,
    key: &'static str,
    chosen: Chosen,
) -> impl Fn(usize) -> Cell + 'a {
    move |index| cell(&scene, Place { section, index, key }, chosen)
}

/// No field of the form has a choice to show.
pub fn nothing_chosen(_: &Scene<'_>, _: Place) -> Option<Cell> {
    None
}

/// All fields of one item, or of several sections, one under the other.
pub fn form<'a>(
    scene: Scene<'a>,
    title: impl Into<String>,
    sections: &'static [Section],
    index: usize,
    chosen: Chosen,
) -> Pane<'a> {
    let mut lines: Vec<Line> = Vec::new();
    for section in sections {
        if sections.len() > 1 {
            lines.push(Line::Heading(section.title()));
        }
        if index < section.count(scene.plan()) {
            lines.extend(fields_of(*section).filter(|f| applies(&scene, f.place(index))).map(Line::Field));
        }
    }
    let columns = vec![Column::label("").widest(22), Column::words("").widest(40), Column::label("").widest(8)];
    let rows = lines.len();
    let row = move |i: usize| match lines.get(i) {
        Some(Line::Field(field)) => field_row(&scene, field, index, chosen),
        Some(Line::Heading(title)) => Row::heading(*title),
        None => Row::default(),
    };
    Pane::table(title, Table { columns, rows, row: Box::new(row), list: None, empty: "nothing in hand", start: 0 })
}

/// What is asked of a counter of charge has no room in a plan that counts nothing.
fn applies(scene: &Scene<'_>, place: Place) -> bool {
    let counters =
        place.section == Section::CutOff && ["opens_at", "closes_at", "drift", "reset_error"].contains(&place.key);
    !counters || scene.plan().cut_off.acts_by == CutOffBy::Charge || scene.is_given(place)
}

enum Line {
    Heading(&'static str),
    Field(&'static Field),
}

fn field_row(scene: &Scene<'_>, field: &'static Field, index: usize, chosen: Chosen) -> Row {
    let place = field.place(index);
    let cell = cell(scene, place, chosen);
    let origin = origin(scene, place, &cell);
    let cells = vec![Cell::words(field.label), cell, Cell::words(origin).role(Role::Muted)];
    Row::new(field.key, cells)
}
