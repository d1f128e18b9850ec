//! How are the results of a thing written as JSON?

use super::number::rounded;
use crate::engine::design::results::fact::{At, Content, Thing, contents};
use crate::plan::Value as Entry;
use crate::quantity::{Figure, Unit};
use serde_json::{Value, json};

/// A thing with all its results.
pub fn answer<T: Thing>(thing: &T, at: &At<'_>) -> Value {
    value(Content::Group(contents(thing, at)))
}

fn value(content: Content) -> Value {
    match content {
        Content::Absent | Content::NotAsked => Value::Null,
        Content::Number(f) | Content::Limit(f) => rounded(f.value),
        Content::Figure(f) => figure(f),
        Content::Band(band) => band.into_iter().map(|f| rounded(f.value)).collect(),
        Content::Text(text) => text.into(),
        Content::Flag(flag) => flag.into(),
        Content::Entry(entry) => as_in_the_plan(&entry),
        Content::List(items) => items.into_iter().map(value).collect(),
        Content::Group(facts) => {
            let there = facts.into_iter().filter(|f| f.content != Content::NotAsked);
            Value::Object(there.map(|f| (f.key.to_string(), value(f.content))).collect())
        }
    }
}

/// A number with its unit, where the unit depends on what it is of.
fn figure(f: Figure) -> Value {
    json!({"value": rounded(f.value), "unit": unit(f.unit)})
}

/// The unit that a number in JSON is in. Shares are 0 to 1 there, so a `%` would be wrong.
pub(super) fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Share => "share",
        Unit::SharePerKelvin => "share/K",
        unit => unit.symbol(),
    }
}

fn as_in_the_plan(value: &Entry) -> Value {
    match value {
        Entry::Number(n) => rounded(*n),
        Entry::Text(t) => Value::from(t.as_str()),
        Entry::Flag(b) => Value::from(*b),
        Entry::Windows(w) => Value::from(w.0.iter().map(ToString::to_string).collect::<Vec<_>>()),
        Entry::Weekdays(d) => Value::from(d.to_string()),
        Entry::Months(m) => Value::from(m.to_string()),
    }
}
