//! What does a plan ask of a design, and which edit gives it up?

use crate::plan::{Kind as FieldKind, Place, Value, field_at};

/// Something that is asked of a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// In words, with its number: `1.5 d without charge`.
    pub words: String,
    /// The edit that gives it up, when one field does: `None` as value clears the field.
    pub given_up: Option<(Place, Option<Value>)>,
}

impl Demand {
    /// A demand that no one field gives up.
    pub fn new(words: impl Into<String>) -> Self {
        Demand { words: words.into(), given_up: None }
    }

    /// Given up by an edit, where the field takes the value.
    pub fn by(mut self, place: Place, value: Option<Value>) -> Self {
        let taken = !matches!(value, Some(Value::Number(n)) if !fits(place, n));
        self.given_up = taken.then_some((place, value));
        self
    }
}

/// Whether a number is within what its field takes.
pub(crate) fn fits(place: Place, number: f64) -> bool {
    match field_at(place).map(|f| f.kind) {
        Some(FieldKind::Number { min, max, .. }) => number.is_finite() && (min..=max).contains(&number),
        _ => false,
    }
}
