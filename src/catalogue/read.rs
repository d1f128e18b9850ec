//! One profile file as rows: syntax, unknown keys and places in the text.
//!
//! A file is parsed once into a table that remembers byte positions; each row
//! is then turned into its type on its own, so that one bad row does not hide
//! the next. What a row may hold is judged in `check`.

use super::faults::{Fault, Faults};
use super::row::Row;
use super::sourced::SOURCE_KEYS;
use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue, ValueDeserializer};

/// A profile that could not be used: file, place and reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CatalogueError {
    /// Layer and file.
    pub file: String,
    /// Line in the file, from 1, where it is known.
    pub line: Option<usize>,
    /// Column in the line in characters, from 1, where it is known.
    pub column: Option<usize>,
    /// What is wrong and how to mend it.
    pub message: String,
}

impl std::fmt::Display for CatalogueError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.file)?;
        if let (Some(line), Some(column)) = (self.line, self.column) {
            write!(f, ":{line}:{column}")?;
        }
        write!(f, ": {}", self.message)
    }
}

impl std::error::Error for CatalogueError {}

/// A row with the place it starts at.
pub(super) struct Found<T> {
    pub row: T,
    pub at: usize,
}

/// A profile file being read.
pub(super) struct Reader<'a> {
    pub file: String,
    text: &'a str,
    table: DeTable<'a>,
    errors: Vec<CatalogueError>,
}

/// Syntax problems after the first few are echoes of it.
const SYNTAX_SHOWN: usize = 3;

impl<'a> Reader<'a> {
    /// Parse the syntax. After a syntax problem there are no rows: what a
    /// broken text seems to say is not worth judging.
    pub fn open(file: String, text: &'a str) -> Self {
        let (table, syntax) = DeTable::parse_recoverable(text);
        let mut reader = Reader { file, text, table: table.into_inner(), errors: Vec::new() };
        for error in syntax.iter().take(SYNTAX_SHOWN) {
            reader.add_toml(error);
        }
        if !syntax.is_empty() {
            reader.table = DeTable::default();
        }
        reader
    }

    /// Whether the syntax could be read.
    pub fn sound(&self) -> bool {
        self.errors.is_empty()
    }

    /// The rows `[[list]]`.
    pub fn rows<T: Row>(&mut self, list: &str) -> Vec<Found<T>> {
        let Some(value) = self.table.remove(list) else { return Vec::new() };
        let at = value.span().start;
        let DeValue::Array(items) = value.into_inner() else {
            self.add(Some(at), format!("`{list}` must be rows: write [[{list}]] above each"));
            return Vec::new();
        };
        let mut found = Vec::new();
        for (index, item) in items.into_iter().enumerate() {
            if let Some(row) = self.row(item, Some((list, Some(index)))) {
                found.push(row);
            }
        }
        found
    }

    /// The table `[name]`.
    pub fn part<T: Row>(&mut self, name: &str) -> Option<Found<T>> {
        let value = self.table.remove(name)?;
        self.row(value, Some((name, None)))
    }

    /// The whole file as one row.
    pub fn whole<T: Row>(&mut self) -> Option<Found<T>> {
        let table = std::mem::take(&mut self.table);
        let value = Spanned::new(0..self.text.len(), DeValue::Table(table));
        self.row(value, None)
    }

    fn row<T: Row>(&mut self, mut item: Spanned<DeValue<'a>>, path: Path<'_>) -> Option<Found<T>> {
        let at = item.span().start;
        for (at, key) in take_unknown::<T>(item.get_mut()) {
            self.add(Some(at), format!("unknown field `{key}`; correct the spelling or take it out"));
        }
        match T::deserialize(ValueDeserializer::from(item)) {
            Ok(row) => {
                let mut faults = Faults::default();
                row.check(&mut faults);
                for Fault { field, message } in faults.list {
                    let key = row.key();
                    let who = if key.is_empty() { String::new() } else { format!("{} “{key}”: ", T::KEY) };
                    let place = self.locate(path, &field).unwrap_or(at);
                    let field = if field.is_empty() { field } else { format!("`{field}` ") };
                    self.add(Some(place), format!("{who}{field}{message}"));
                }
                Some(Found { row, at })
            }
            Err(error) => {
                for error in self.errors_of::<T>(error, path) {
                    let place = error.span().map_or(at, |span| span.start);
                    let message = error.message();
                    self.add(Some(place), format!("{message} (the built-in file of this name shows each field)"));
                }
                None
            }
        }
    }

    /// The error of the whole, or those of all its parts where there are any.
    fn errors_of<T: Row>(&self, error: toml::de::Error, path: Path<'_>) -> Vec<toml::de::Error> {
        let (root, _) = DeTable::parse_recoverable(self.text);
        let mut row = table_at(root.get_ref(), path).map(|table| DeValue::Table(table.clone()));
        row.as_mut().map(take_unknown::<T>);
        let parts = row.as_ref().and_then(DeValue::as_table).map_or_else(Vec::new, T::part_errors);
        if parts.is_empty() { vec![error] } else { parts }
    }

    /// Byte where a dotted field of a row stands; only asked after a fault.
    fn locate(&self, path: Path<'_>, field: &str) -> Option<usize> {
        let (root, _) = DeTable::parse_recoverable(self.text);
        let mut table = table_at(root.get_ref(), path)?;
        let mut at = None;
        for name in field.split('.') {
            let (key, value) = table.get_key_value(name)?;
            at = Some(key.span().start);
            match value.get_ref() {
                DeValue::Table(inner) => table = inner,
                _ => break,
            }
        }
        at
    }

    /// Report what was not asked for and return all problems.
    pub fn finish(mut self, known: &str) -> Vec<CatalogueError> {
        let left: Vec<(usize, String)> =
            self.table.iter().map(|(key, _)| (key.span().start, key.get_ref().to_string())).collect();
        for (at, key) in left {
            self.add(Some(at), format!("`{key}` is not known here; this file holds {known}"));
        }
        self.errors
    }

    /// Report a problem at a byte of the text.
    pub fn add(&mut self, at: Option<usize>, message: String) {
        let place = at.map(|at| place(self.text, at));
        let file = self.file.clone();
        self.errors.push(CatalogueError { file, line: place.map(|p| p.0), column: place.map(|p| p.1), message });
    }

    fn add_toml(&mut self, error: &toml::de::Error) {
        self.add(error.span().map(|s| s.start), error.message().to_string());
    }
}

/// Where a row stands: a table or a list of the file, and which item of the list; the file itself.
type Path<'a> = Option<(&'a str, Option<usize>)>;

fn table_at<'t, 'i>(root: &'t DeTable<'i>, path: Path<'_>) -> Option<&'t DeTable<'i>> {
    let Some((name, index)) = path else { return Some(root) };
    let value = root.get(name)?.get_ref();
    let value = if let Some(index) = index { value.as_array()?.get(index)?.get_ref() } else { value };
    value.as_table()
}

/// The keys that a row of this type does not have, and where they stand; they are taken out, so that what else is wrong
/// with the row is told too.
fn take_unknown<T: Row>(row: &mut DeValue<'_>) -> Vec<(usize, String)> {
    let mut unknown = Vec::new();
    let DeValue::Table(table) = row else { return unknown };
    take(table, T::KEYS, &mut unknown);
    for (name, keys) in T::parts_keys() {
        match table.get_mut(*name).map(Spanned::get_mut) {
            Some(DeValue::Table(part)) => take(part, keys, &mut unknown),
            Some(DeValue::Array(parts)) => {
                for part in parts.iter_mut() {
                    if let DeValue::Table(part) = part.get_mut() {
                        take(part, keys, &mut unknown);
                    }
                }
            }
            _ => {}
        }
    }
    unknown
}

fn take(table: &mut DeTable<'_>, keys: &[&str], unknown: &mut Vec<(usize, String)>) {
    let is_known = |key: &str| keys.is_empty() || keys.contains(&key) || SOURCE_KEYS.contains(&key);
    let strange = |key: &Spanned<DeString<'_>>| (key.span().start, key.get_ref().to_string());
    let found: Vec<(usize, String)> =
        table.keys().filter(|key| !is_known(key.get_ref().as_ref())).map(strange).collect();
    for (_, key) in &found {
        table.remove(key.as_str());
    }
    unknown.extend(found);
}

/// Line and column, both from 1, the column in characters.
fn place(text: &str, byte: usize) -> (usize, usize) {
    let before = text.get(..byte.min(text.len())).unwrap_or(text);
    let line_start = before.rfind('\n').map_or(0, |i| i + 1);
    let column = before.get(line_start..).map_or(0, |s| s.chars().count());
    (before.matches('\n').count() + 1, column + 1)
}
