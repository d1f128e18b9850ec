//! A field as data: key, label, unit, range, help, how to get and set it.
//!
//! Reading, writing, messages, table columns, the schema and `?` help all come
//! from these, so that none can say something else than the others.

use super::section::{Place, Section};
use super::value::Value;
use crate::quantity::{Figure, Unit, UnitSystem};

/// What a field holds and what it accepts.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A number in a unit, within a range; `whole` for counts.
    #[allow(missing_docs)]
    Number { unit: Unit, min: f64, max: f64, whole: bool },
    /// Free text of at most so many characters; `required` text may not be empty.
    #[allow(missing_docs)]
    Text { longest: usize, required: bool },
    /// One of a closed set of words.
    Choice(fn() -> Vec<(&'static str, &'static str)>),
    /// Any of a closed set of words, each as often as it is meant.
    Words(fn() -> Vec<(&'static str, &'static str)>),
    /// A key of the catalogue.
    Pick(Pick),
    /// Any of the keys of a list of the catalogue.
    Picks(Pick),
    /// The name of a point.
    Point,
    /// A conductor size, in any notation.
    Size,
    /// Yes or no.
    Flag,
    /// Spans of the day.
    Windows,
    /// Days of the week.
    Weekdays,
    /// Months of the year.
    Months,
}

/// Number in a unit.
pub(super) const fn num(unit: Unit, min: f64, max: f64) -> Kind {
    Kind::Number { unit, min, max, whole: false }
}

/// Whole number.
pub(super) const fn count(min: f64, max: f64) -> Kind {
    Kind::Number { unit: Unit::Count, min, max, whole: true }
}

/// A length inside or around the hold-down.
pub(super) const fn mm(min: f64, max: f64) -> Kind {
    num(Unit::Millimetre, min, max)
}

pub(super) const SHARE: Kind = num(Unit::Share, 0.0, 1.0);
pub(super) const AIR: Kind = num(Unit::Celsius, -60.0, 150.0);

/// A list of the catalogue that a field picks from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Pick {
    Chemistry,
    Insulation,
    CablePlace,
    FuseStyle,
    DropClass,
    Placement,
    Region,
    Plug,
    Stud,
    StudClass,
    Shock,
}

/// What an absent key means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Absent {
    /// The key must be there.
    NotAllowed,
    /// The model's default holds.
    Default,
    /// The engine chooses, or the catalogue's figure holds.
    Chosen,
}

/// One field of a plan.
pub struct Field {
    /// The table it belongs to.
    pub section: Section,
    /// Key in the file, dotted for nested tables.
    pub key: &'static str,
    /// Label for people.
    pub label: &'static str,
    /// What it accepts.
    pub kind: Kind,
    /// What it means if the key is absent.
    pub absent: Absent,
    /// One sentence of help.
    pub help: &'static str,
}

/// First letter small, unless it begins a word that is all capitals: for use within a sentence.
pub(super) fn small(text: &str) -> String {
    let mut chars = text.chars();
    match (chars.next(), chars.clone().next()) {
        (Some(_), Some(second)) if second.is_uppercase() => text.to_string(),
        (Some(first), _) => first.to_lowercase().chain(chars).collect(),
        (None, _) => String::new(),
    }
}

impl Field {
    /// Its label within a sentence: `Design margin` as `design margin`.
    pub fn words(&self) -> String {
        small(self.label)
    }

    /// The place of this field in item `index`.
    pub fn place(&self, index: usize) -> Place {
        Place { section: self.section, index, key: self.key }
    }

    /// The unit of a number field.
    pub fn unit(&self) -> Option<Unit> {
        match self.kind {
            Kind::Number { unit, .. } => Some(unit),
            _ => None,
        }
    }

    /// The value as shown in a table cell, with its unit.
    pub fn show(&self, value: &Value, system: UnitSystem) -> String {
        match (value, self.kind) {
            (Value::Number(n), Kind::Number { unit, .. }) => Figure::new(*n, unit).show(system),
            (Value::Number(n), _) => Figure::number(*n).show(system),
            (Value::Text(t), _) => t.clone(),
            (Value::Flag(b), _) => if *b { "yes" } else { "no" }.into(),
            (Value::Windows(w), _) => w.to_string(),
            (Value::Weekdays(d), _) => d.to_string(),
            (Value::Months(m), _) => m.to_string(),
        }
    }
}
