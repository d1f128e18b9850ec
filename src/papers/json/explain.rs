//! Values of the catalogue as JSON, each with its own source.

use super::write::answer;
use crate::catalogue::{Listed, Shown};
use crate::engine::Subject;
use crate::engine::design::results::fact::{At, Content, Form, Kind, Many, Version, facts, many};
use crate::engine::installation::Installation;
use serde_json::Value;

/// Each value under its key, whose ending is its unit; shares are 0 to 1.
pub fn explained(values: &[Listed<'_>]) -> Value {
    let one = |listed: &Listed<'_>| SourcedValue {
        key: listed.path(),
        value: listed.value.shown.clone(),
        how: listed.value.from.how.word(),
        source: listed.value.from.source.clone(),
        note: listed.value.from.note.clone(),
        whole_row: listed.value.from.whole_row,
    };
    answer(&Explained(values.iter().map(one).collect()), &At::site(&Installation::default()))
}

/// What `catalogue explain` answers.
pub struct Explained(Vec<SourcedValue>);

/// One value of a row, with its source.
pub struct SourcedValue {
    key: String,
    value: Shown,
    how: &'static str,
    source: String,
    note: Option<String>,
    whole_row: bool,
}

facts! { Explained, "explain", "what `catalogue explain --json` prints: values of the catalogue with their sources", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    VALUES: Many<SourcedValue> = "values", "Values", "each value of the rows asked for", |e, at| many(&e.0, at);
}

facts! { SourcedValue, "known", "a value of the catalogue with its source", |_, _| Subject::Plan;
    KEY: String = "key", "Key", "where it stands; its ending is its unit", |k, _| k.key.clone();
    VALUE: Shown = "value", "Value", "the number, list, curve or words", |k, _| k.value.clone();
    SHOWN: String = "shown", "Shown", "the same as people read it", |k, _| k.value.to_string();
    HOW: &'static str = "how", "How", "how the source was used", |k, _| k.how;
    SOURCE: String = "source", "Source", "where it comes from", |k, _| k.source.clone();
    NOTE: Option<String> = "note", "Note", "what else to know; null for nothing", |k, _| k.note.clone();
    WHOLE_ROW: bool = "whole_row", "Whole row", "whether the source speaks for the whole row", |k, _| k.whole_row;
}

impl Kind for Shown {
    const FORM: Form = Form::Entry;
    fn content(self) -> Content {
        match self {
            Shown::One(figure, _) => Content::Number(figure),
            Shown::List(all) => Content::List(all.into_iter().map(Content::Number).collect()),
            Shown::Pairs(all) => {
                let pair = |(x, y)| Content::List(vec![Content::Number(x), Content::Number(y)]);
                Content::List(all.into_iter().map(pair).collect())
            }
            Shown::Words(words) => Content::Text(words),
        }
    }
}
