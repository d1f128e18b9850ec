//! A list of the plan as a spreadsheet takes it, and back from there.
//!
//! A row is an item, a column a field by its key, whose end is its unit; an empty cell leaves it
//! to the default or to the engine. Row for row the items stay what they are: only what
//! differs is edited, so comments stay.

use super::edit::{insert, remove, set};
use super::field::{Absent, Field, Kind};
use super::fields::fields_of;
use super::model::Plan;
use super::problem::nearest;
use super::read::read;
use super::section::Section;
use super::text::marked;
use super::value::Value;
use crate::catalogue::Catalogue;

/// How numbers and cells are written.
#[derive(Clone, Copy, Debug, Default)]
pub struct SheetStyle {
    /// Every column, not only those in use.
    pub every_column: bool,
    /// `;` between cells and `,` in numbers.
    pub decimal_comma: bool,
}

/// The items of a list, one a row below the keys of their fields.
pub fn to_sheet(plan: &Plan, section: Section, style: SheetStyle) -> String {
    let rows = 0..section.count(plan);
    let used = |field: &&Field| {
        let default = field.default_value();
        field.absent == Absent::NotAllowed || rows.clone().any(|n| own(field, plan, n) != default)
    };
    let fields: Vec<&Field> = fields_of(section).filter(|f| style.every_column || used(f)).collect();
    let mut writer =
        csv::WriterBuilder::new().delimiter(if style.decimal_comma { b';' } else { b',' }).from_writer(Vec::new());
    // Writing into memory cannot fail.
    let _ = writer.write_record(fields.iter().map(|f| f.key));
    for n in rows.clone() {
        let _ = writer.write_record(fields.iter().map(|f| cell(own(f, plan, n), style)));
    }
    writer.into_inner().ok().and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default()
}

/// A field's value; an empty text is none.
fn own(field: &Field, plan: &Plan, n: usize) -> Option<Value> {
    field.get(plan, n).filter(|v| !matches!(v, Value::Text(t) if t.is_empty()))
}

fn cell(value: Option<Value>, style: SheetStyle) -> String {
    match value {
        None => String::new(),
        Some(Value::Number(n)) if style.decimal_comma => n.to_string().replace('.', ","),
        Some(Value::Number(n)) => n.to_string(),
        Some(Value::Flag(flag)) => if flag { "yes" } else { "no" }.into(),
        // A spreadsheet would take a text that begins like a formula for one.
        Some(Value::Text(t)) if t.starts_with(['=', '+', '-', '@', '\'']) => format!("'{}", marked(&t)),
        Some(Value::Text(t)) => marked(&t).into_owned(),
        Some(Value::Windows(w)) => w.to_string(),
        Some(Value::Weekdays(d)) => d.to_string(),
        Some(Value::Months(m)) => m.to_string(),
    }
}

/// The text of a plan with a list taken from a spreadsheet; or all that is wrong with that, in words.
pub fn from_sheet(text: &str, section: Section, sheet: &str, catalogue: &Catalogue) -> Result<String, Vec<String>> {
    let sheet = sheet.trim_start_matches('\u{feff}');
    let heads = sheet.lines().next().unwrap_or_default();
    let decimal_comma = heads.matches(';').count() > heads.matches(',').count();
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(if decimal_comma { b';' } else { b',' })
        .flexible(true)
        .from_reader(sheet.as_bytes());
    let columns = columns(reader.headers().map_err(|e| vec![e.to_string()])?, section)?;
    let mut rows = Vec::new();
    let mut wrong = Vec::new();
    for (n, record) in reader.records().enumerate() {
        let record = record.map_err(|e| vec![e.to_string()])?;
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        let mut row = Vec::new();
        for (field, cell) in columns.iter().zip(record.iter().map(Some).chain(std::iter::repeat(None))) {
            match value(field, cell.unwrap_or_default(), decimal_comma, catalogue) {
                Ok(value) => row.push((*field, value)),
                // The heads are line 1.
                Err(why) => wrong.push(format!("line {}, {}: {why}", n + 2, field.key)),
            }
        }
        rows.push(row);
    }
    if wrong.is_empty() { put(text, section, &rows, catalogue).map_err(|e| vec![e]) } else { Err(wrong) }
}

/// The field of each column.
fn columns(heads: &csv::StringRecord, section: Section) -> Result<Vec<&'static Field>, Vec<String>> {
    let field = |head: &str| {
        let head = head.trim();
        fields_of(section).find(|f| f.key.eq_ignore_ascii_case(head)).ok_or_else(|| {
            let near = nearest(head, fields_of(section).map(|f| f.key));
            let meant = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
            format!("column `{head}` is not known{meant}")
        })
    };
    let (known, unknown): (Vec<_>, Vec<_>) = heads.iter().map(field).partition(Result::is_ok);
    let unknown: Vec<String> = unknown.into_iter().filter_map(Result::err).collect();
    if unknown.is_empty() { Ok(known.into_iter().flatten().collect()) } else { Err(unknown) }
}

/// What a cell says; `None` for an empty one.
fn value(field: &Field, cell: &str, decimal_comma: bool, catalogue: &Catalogue) -> Result<Option<Value>, String> {
    let text = cell.trim();
    let text = text.strip_prefix('\'').unwrap_or(text);
    if text.is_empty() {
        let must = field.absent == Absent::NotAllowed;
        return if must { Err(format!("must be given: {}", field.accepted(catalogue))) } else { Ok(None) };
    }
    let comma = decimal_comma && matches!(field.kind, Kind::Number { .. });
    let text = if comma { text.replace(',', ".") } else { text.into() };
    // A bare number is in the column's unit, a share from 0 to 1 as in the plan; whoever writes a unit is asked as on
    // the screens.
    let bare = text.parse::<f64>().ok().filter(|_| matches!(field.kind, Kind::Number { .. }));
    let value = bare.map_or_else(|| field.parse(&text, catalogue), |n| field.accept(Value::Number(n), catalogue));
    value.map(Some).map_err(|e| e.explain(field.key))
}

/// Row for row: edit what differs, add what is new, take away what is left over.
fn put(
    text: &str,
    section: Section,
    rows: &[Vec<(&'static Field, Option<Value>)>],
    catalogue: &Catalogue,
) -> Result<String, String> {
    let plan = read(text, catalogue).plan;
    let there = section.count(&plan);
    let mut text = text.to_string();
    let words = |e: super::edit::EditError| e.to_string();
    for (n, row) in rows.iter().enumerate() {
        if n >= there {
            let given: Vec<_> = row.iter().filter_map(|(f, v)| Some((f.key, v.clone()?))).collect();
            text = insert(&text, section, n, &given).map_err(words)?;
            continue;
        }
        let differs = |(f, v): &&(&'static Field, Option<Value>)| {
            let old = own(f, &plan, n);
            // A text comes back as it was shown, with marks for what is hidden in it.
            let same = matches!((v, &old), (Some(Value::Text(v)), Some(Value::Text(old))) if *v == marked(old));
            *v != old && !same && !(v.is_none() && old == f.default_value())
        };
        // What is taken out goes first: of two that contradict each other the one given stays.
        let (given, out): (Vec<_>, Vec<_>) = row.iter().filter(differs).partition(|(_, v)| v.is_some());
        for (field, value) in out.into_iter().chain(given) {
            text = set(&text, field.place(n), value.as_ref()).map_err(words)?;
        }
    }
    for n in (rows.len()..there).rev() {
        text = remove(&text, section, n).map_err(words)?;
    }
    Ok(text)
}
