//! The JSON Schema of the plan file, from the table of fields.
//!
//! Draft 2020-12. Editors use it for TOML as well. Ranges, words and help are
//! those of the reader; keys of the catalogue are those of the profiles in use.

use crate::catalogue::Catalogue;
use crate::plan::{Absent, FORMAT, Field, Kind, LONGEST_FILE, Section, Value as Entry, fields_of};
use serde_json::{Map, Value, json};

/// The schema.
pub fn plan_schema(catalogue: &Catalogue) -> Value {
    let mut properties = Map::new();
    properties.insert("format".into(), json!({"const": FORMAT, "description": "Format of the file."}));
    let mut top = table(Section::Job, catalogue);
    if let Some(Value::Object(own)) = top.get_mut("properties").map(Value::take) {
        properties.extend(own);
    }
    let mut required = vec![Value::from("format")];
    for section in Section::ALL.iter().copied().filter(|s| *s != Section::Job) {
        let one = table(section, catalogue);
        let needed = fields_of(section).any(|f| f.absent == Absent::NotAllowed);
        let schema = if section.is_list() {
            json!({"type": "array", "items": one, "description": section.title()})
        } else {
            if needed {
                required.push(section.key().into());
            }
            one
        };
        properties.insert(section.key().into(), schema);
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Loomwright plan",
        "description": format!("A plan file in TOML, format {FORMAT}, at most {} MB.", LONGEST_FILE / 1_000_000),
        "type": "object",
        "additionalProperties": false,
        "required": required,
        "properties": properties,
    })
}

/// A table with its keys, those with a dot as tables within.
fn table(section: Section, catalogue: &Catalogue) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for field in fields_of(section) {
        let schema = value(field, catalogue);
        match field.key.split_once('.') {
            None => {
                properties.insert(field.key.into(), schema);
                if field.absent == Absent::NotAllowed {
                    required.push(Value::from(field.key));
                }
            }
            Some((outer, inner)) => {
                let within = properties
                    .entry(outer)
                    .or_insert_with(|| json!({"type": "object", "additionalProperties": false, "properties": {}}));
                within["properties"][inner] = schema;
            }
        }
    }
    if section == Section::Run {
        // The reader takes `size_mm2 = 25` for `size = "25 mm2"`.
        let description = "Conductor size in mm²; the same as `size`.";
        properties.insert("size_mm2".into(), json!({"type": "number", "description": description}));
    }
    json!({
        "type": "object",
        "description": section.title(),
        "additionalProperties": false,
        "required": required,
        "properties": properties,
    })
}

fn value(field: &Field, catalogue: &Catalogue) -> Value {
    let strings = json!({"type": "string"});
    let list = json!({"anyOf": [strings.clone(), {"type": "array", "items": strings}]});
    let mut schema = match field.kind {
        Kind::Number { min, max, whole, .. } => {
            json!({"type": if whole { "integer" } else { "number" }, "minimum": min, "maximum": max})
        }
        Kind::Text { longest, required } => {
            json!({"type": "string", "maxLength": longest, "minLength": u8::from(required)})
        }
        Kind::Choice(_) | Kind::Pick(_) => {
            let keys: Vec<String> = field.options(catalogue).into_iter().map(|(key, _)| key).collect();
            json!({"type": "string", "enum": keys})
        }
        Kind::Point => json!({"type": "string", "maxLength": 60}),
        Kind::Size => json!({"type": "string", "examples": ["6 mm2", "10 AWG"]}),
        Kind::Flag => json!({"type": "boolean"}),
        Kind::Words(_) | Kind::Picks(_) => {
            let keys: Vec<String> = field.options(catalogue).into_iter().map(|(key, _)| key).collect();
            json!({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string", "enum": keys}}]})
        }
        Kind::Windows | Kind::Weekdays | Kind::Months => list,
    };
    schema["title"] = field.label.into();
    schema["description"] = field.help.into();
    match field.default_value() {
        Some(Entry::Number(n)) => schema["default"] = super::number::rounded(n),
        Some(Entry::Text(t)) => schema["default"] = t.into(),
        Some(Entry::Flag(b)) => schema["default"] = b.into(),
        _ => {}
    }
    schema
}
