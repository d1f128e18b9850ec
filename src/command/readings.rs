//! Readings of a meter from a CSV file, put behind those of the plan.
//!
//! The first line names the columns by the plan's own keys (`at`, `with`,
//! `voltage_v`, `posts_v`, `current_a`), so the file can be what a phone or a
//! logger wrote down. Each value is read as a person would type it.

use super::arguments::Readings;
use super::failure::Failure;
use super::input::{self, Input};
use crate::catalogue::Catalogue;
use crate::plan::{self, Field, Section, Value, fields_of, nearest, read_file};
use std::path::Path;

/// The plan, with the file's readings added when one is named.
pub fn plan(plan: Option<&Path>, readings: &Readings, catalogue: &Catalogue) -> Result<Input, Failure> {
    let stdin = Path::new("-");
    if plan == Some(stdin) && readings.file.as_deref() == Some(stdin) {
        return Err(Failure::new(
            "plan and readings cannot both come from standard input",
            "name a file for one of them",
        ));
    }
    let input = input::plan(plan, catalogue)?;
    let Some(file) = &readings.file else { return Ok(input) };
    let name = if file == stdin { "standard input".to_string() } else { file.display().to_string() };
    let bytes = if file == stdin {
        input::standard_input()?
    } else {
        let help = "name a CSV file whose first line is at,voltage_v";
        read_file(file).map_err(|e| Failure::new(e.to_string(), help))?
    };
    let mut rows = csv::ReaderBuilder::new().trim(csv::Trim::All).flexible(true).from_reader(bytes.as_slice());
    let head = rows.headers().map_err(|e| broken(&name, &e))?.clone();
    let columns = head.iter().map(|key| column(&name, key)).collect::<Result<Vec<_>, _>>()?;
    let mut text = input.text;
    for row in rows.records() {
        let row = row.map_err(|e| broken(&name, &e))?;
        let line = row.position().map_or(0, csv::Position::line);
        let mut values: Vec<(&'static str, Value)> = Vec::new();
        for (field, typed) in columns.iter().zip(row.iter()).filter(|(_, typed)| !typed.is_empty()) {
            let value = field.parse(typed, catalogue).map_err(|why| {
                let reason = why.explain(&field.words());
                let help = format!("accepted: {}", field.accepted(catalogue));
                Failure::new(format!("{name}, line {line}, `{}`: {reason}", field.key), help)
            })?;
            values.push((field.key, value));
        }
        text = plan::insert(&text, Section::Reading, usize::MAX, &values)
            .map_err(|e| Failure::new(e.to_string(), "check the plan by itself first"))?;
    }
    let read = plan::read(&text, catalogue);
    if read.problems.is_empty() {
        Ok(Input { name: input.name, text, dated: input.dated, read })
    } else {
        Err(Failure::Problems { name: format!("{} with {name}", input.name), text, problems: read.problems })
    }
}

fn column(name: &str, key: &str) -> Result<&'static Field, Failure> {
    let fields = || fields_of(Section::Reading);
    fields().find(|f| f.key == key).ok_or_else(|| {
        let help = match nearest(key, fields().map(|f| f.key)) {
            Some(near) => format!("did you mean `{near}`?"),
            None => format!("columns are {}", fields().map(|f| f.key).collect::<Vec<_>>().join(", ")),
        };
        Failure::new(format!("{name}, line 1: a reading has no `{key}`"), help)
    })
}

fn broken(name: &str, error: &csv::Error) -> Failure {
    Failure::new(format!("{name} is not CSV: {error}"), "write one reading a line, values separated by commas")
}
