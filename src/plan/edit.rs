//! Editing the text of a plan: comments and order stay, and what is written is what is read.
//!
//! The text is the truth. An edit takes the text, changes one thing in the
//! parsed document and gives a new text; the plan is read from that. So undo is
//! the earlier text, byte for byte, and nothing can be saved that could not be
//! read back.

use super::field::Kind;
use super::fields::{field_at, fields_of, takes_out};
use super::former::Names;
use super::section::{Place, Section};
use super::value::Value;
use std::fmt;
use toml_edit::{Array, ArrayOfTables, DocumentMut, Item, Table, TableLike};

/// Why an edit could not be made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditError {
    /// The text is not TOML (it was changed elsewhere).
    NotToml(String),
    /// There is no such item or field.
    NoSuchPlace,
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            EditError::NotToml(why) => write!(f, "the plan's text cannot be edited: {why}"),
            EditError::NoSuchPlace => f.write_str("there is nothing here to edit"),
        }
    }
}

impl std::error::Error for EditError {}

/// Put a value at a place; `None` removes the key, which leaves it to the default or to the engine.
pub fn set(text: &str, place: Place, value: Option<&Value>) -> Result<String, EditError> {
    let field = field_at(place).ok_or(EditError::NoSuchPlace)?;
    change(text, |doc| {
        let own = Names::in_document(doc).key(place.section, place.key);
        let table = table_mut(doc, place.section, place.index)?;
        match place.key {
            // A load is given by power or by current; both would contradict each other.
            "power_w" if value.is_some() => drop(table.remove("current_a")),
            "current_a" if place.section == Section::Load && value.is_some() => drop(table.remove("power_w")),
            "size" => drop(table.remove("size_mm2")),
            _ => {}
        }
        let (parent, key) = nested(table, own, value.is_some())?;
        match value {
            Some(v) => write(parent, key, to_item(v, &field.kind)),
            None => {
                parent.remove(key);
                if let Some((outer, _)) = place.key.split_once('.') {
                    let table = table_mut(doc, place.section, place.index)?;
                    if table.get(outer).and_then(Item::as_table_like).is_some_and(TableLike::is_empty) {
                        table.remove(outer);
                    }
                }
            }
        }
        Ok(())
    })
}

/// One edit of several: as [`set`], but a list gets a new item for a place behind its last one, and loses the item
/// that is left without a key it cannot do without.
pub fn put(text: &str, place: Place, value: Option<&Value>) -> Result<String, EditError> {
    let field = field_at(place).ok_or(EditError::NoSuchPlace)?;
    match value {
        None if takes_out(field, value) => remove(text, place.section, place.index),
        Some(value) if place.section.is_list() && count(text, place.section)? == place.index => {
            insert(text, place.section, place.index, &[(place.key, value.clone())])
        }
        _ => set(text, place, value),
    }
}

/// How many items a list of the text has.
fn count(text: &str, section: Section) -> Result<usize, EditError> {
    let mut many = 0;
    reorder(text, section, |tables| {
        many = tables.len();
        Ok(())
    })?;
    Ok(many)
}

/// Put a new item with these values into a list, before `index` (or at its end).
pub fn insert(
    text: &str,
    section: Section,
    index: usize,
    values: &[(&'static str, Value)],
) -> Result<String, EditError> {
    reorder(text, section, |tables| {
        let mut table = Table::new();
        table.decor_mut().set_prefix("\n");
        for (key, value) in values {
            if let Some(field) = fields_of(section).find(|f| f.key == *key) {
                let (parent, key) = nested(&mut table, field.key, true)?;
                parent.insert(key, to_item(value, &field.kind));
            }
        }
        tables.insert(index.min(tables.len()), table);
        Ok(())
    })
}

/// Put a copy of an item behind it, under a new name if it has one.
pub fn copy(text: &str, section: Section, index: usize, name: Option<&str>) -> Result<String, EditError> {
    reorder(text, section, |tables| {
        let mut table = tables.get(index).ok_or(EditError::NoSuchPlace)?.clone();
        table.decor_mut().set_prefix("\n");
        // A number is of one cable alone.
        for key in ["number", "lead_number", "way_number"] {
            table.remove(key);
        }
        if let Some(name) = name {
            write(&mut table, "name", toml_edit::value(name));
        }
        tables.insert(index + 1, table);
        Ok(())
    })
}

/// Take an item out of a list.
pub fn remove(text: &str, section: Section, index: usize) -> Result<String, EditError> {
    reorder(text, section, |tables| {
        if index >= tables.len() {
            return Err(EditError::NoSuchPlace);
        }
        tables.remove(index);
        Ok(())
    })
}

/// Move an item of a list to another place in it.
pub fn shift(text: &str, section: Section, from: usize, to: usize) -> Result<String, EditError> {
    reorder(text, section, |tables| {
        if from >= tables.len() || to >= tables.len() {
            return Err(EditError::NoSuchPlace);
        }
        let table = tables.remove(from);
        tables.insert(to, table);
        Ok(())
    })
}

fn change(text: &str, edit: impl FnOnce(&mut DocumentMut) -> Result<(), EditError>) -> Result<String, EditError> {
    let mut doc: DocumentMut =
        text.parse().map_err(|e: toml_edit::TomlError| EditError::NotToml(e.message().into()))?;
    edit(&mut doc)?;
    Ok(doc.to_string())
}

/// The table of an item, made if its section is not there yet.
fn table_mut(doc: &mut DocumentMut, section: Section, index: usize) -> Result<&mut dyn TableLike, EditError> {
    if section == Section::Job {
        return Ok(doc.as_table_mut());
    }
    let name = Names::in_document(doc).table(section);
    if section.is_list() {
        return match doc.get_mut(name) {
            Some(Item::ArrayOfTables(tables)) => {
                tables.get_mut(index).map(|t| t as &mut dyn TableLike).ok_or(EditError::NoSuchPlace)
            }
            Some(Item::Value(toml_edit::Value::Array(items))) => items
                .get_mut(index)
                .and_then(toml_edit::Value::as_inline_table_mut)
                .map(|t| t as &mut dyn TableLike)
                .ok_or(EditError::NoSuchPlace),
            _ => Err(EditError::NoSuchPlace),
        };
    }
    let item = doc.entry(name).or_insert_with(|| {
        let mut table = Table::new();
        table.decor_mut().set_prefix("\n");
        Item::Table(table)
    });
    item.as_table_like_mut().ok_or(EditError::NoSuchPlace)
}

/// The table that holds the last part of a dotted key; an inline one is made on the way.
fn nested<'a>(
    table: &'a mut dyn TableLike,
    key: &'static str,
    make: bool,
) -> Result<(&'a mut dyn TableLike, &'static str), EditError> {
    let Some((outer, inner)) = key.split_once('.') else { return Ok((table, key)) };
    if table.get(outer).is_none() {
        if !make {
            return Ok((table, key));
        }
        table.insert(outer, Item::Value(toml_edit::InlineTable::new().into()));
    }
    let inside = table.get_mut(outer).and_then(Item::as_table_like_mut).ok_or(EditError::NoSuchPlace)?;
    Ok((inside, inner))
}

/// Replace a value and keep the comment behind it.
fn write(table: &mut dyn TableLike, key: &str, new: Item) {
    let decor = table.get(key).and_then(Item::as_value).map(|v| v.decor().clone());
    match (table.get_mut(key), new) {
        (Some(old), Item::Value(mut value)) => {
            if let Some(decor) = decor {
                *value.decor_mut() = decor;
            }
            *old = Item::Value(value);
        }
        (_, new) => drop(table.insert(key, new)),
    }
}

fn to_item(value: &Value, kind: &Kind) -> Item {
    match value {
        Value::Number(n) if n.fract() == 0.0 && n.abs() < 1e15 => toml_edit::value(*n as i64),
        Value::Number(n) => toml_edit::value(tidy(*n)),
        Value::Text(t) if matches!(kind, Kind::Words(_) | Kind::Picks(_)) => {
            toml_edit::value(t.split(", ").filter(|w| !w.is_empty()).collect::<Array>())
        }
        Value::Text(t) => toml_edit::value(t.as_str()),
        Value::Flag(b) => toml_edit::value(*b),
        Value::Windows(w) => toml_edit::value(w.0.iter().map(|w| w.to_string()).collect::<Array>()),
        Value::Months(m) if m.is_all() || m.is_none() => toml_edit::value(m.to_string()),
        Value::Months(m) => toml_edit::value(m.to_string().split(", ").collect::<Array>()),
        Value::Weekdays(d) => {
            debug_assert!(matches!(kind, Kind::Weekdays));
            let words = d.to_string();
            if d.is_daily() || d.is_none() || !d.weeks_alike() {
                toml_edit::value(words)
            } else {
                toml_edit::value(words.split(", ").collect::<Array>())
            }
        }
    }
}

/// A typed `20 ft` becomes 6.096 and not 6.0960000000000001.
fn tidy(n: f64) -> f64 {
    format!("{n:.9}").parse().unwrap_or(n)
}

/// Change a list as a vector of tables. The tables keep their comments and end
/// up next to each other, where the first of them stood.
fn reorder(
    text: &str,
    section: Section,
    edit: impl FnOnce(&mut Vec<Table>) -> Result<(), EditError>,
) -> Result<String, EditError> {
    change(text, |doc| {
        let key = section.key();
        let old = match doc.get_mut(key) {
            Some(item) => std::mem::take(item).into_array_of_tables().map_err(|_| EditError::NoSuchPlace)?,
            None => ArrayOfTables::new(),
        };
        let first = old.iter().filter_map(Table::position).min();
        let mut tables: Vec<Table> = old.into_iter().collect();
        edit(&mut tables)?;
        let mut new = ArrayOfTables::new();
        for (n, mut table) in tables.into_iter().enumerate() {
            forget_position(&mut table);
            if n == 0 {
                table.set_position(first);
            }
            new.push(table);
        }
        if new.is_empty() {
            doc.remove(key);
        } else {
            doc.insert(key, Item::ArrayOfTables(new));
        }
        Ok(())
    })
}

fn forget_position(table: &mut Table) {
    table.set_position(None);
    for (_, item) in table.iter_mut() {
        if let Item::Table(inner) = item {
            forget_position(inner);
        }
    }
}
