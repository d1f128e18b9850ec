//! Values of the catalogue as JSON, each with its own source.

use super::VERSION;
use super::number::rounded;
use crate::catalogue::{Listed, Shown};
use crate::quantity::Figure;
use serde_json::{Value, json};

/// Each value under its key, whose ending is its unit; shares are 0 to 1.
pub fn explained(values: &[Listed<'_>]) -> Value {
    let value = |listed: &Listed<'_>| {
        let from = listed.value.from;
        json!({
            "key": listed.path(),
            "value": plain(&listed.value.shown),
            "shown": listed.value.shown.to_string(),
            "how": from.how.word(),
            "source": from.source,
            "note": from.note,
            "whole_row": from.whole_row,
        })
    };
    json!({"version": VERSION, "values": values.iter().map(value).collect::<Vec<_>>()})
}

/// A number, a list, pairs or words.
fn plain(shown: &Shown) -> Value {
    let number = |f: &Figure| rounded(f.value);
    match shown {
        Shown::One(figure, _) => number(figure),
        Shown::List(all) => all.iter().map(number).collect(),
        Shown::Pairs(all) => all.iter().map(|(x, y)| json!([number(x), number(y)])).collect(),
        Shown::Words(words) => Value::from(words.as_str()),
    }
}
