//! The JSON Schema of what the commands print with `--json`, from the table of results.
//!
//! Draft 2020-12. `unit` beside a number is its unit, `working` the name under
//! which `--workings` tells how it came about.

use super::answers::{Checked, Written};
use super::explain::Explained;
use super::write::unit;
use crate::engine::ask::cable::CableAnswer;
use crate::engine::ask::rivals::cross::Rivals;
use crate::engine::ask::used::UsedAnswer;
use crate::engine::design::results::DaysOfUse;
use crate::engine::design::results::fact::{Described, Form, Group, VERSION, group};
use crate::engine::{Ageing, CutOffAnswer, Design, LogAnswer, SelfCheck, TroubleAnswer};
use serde_json::{Map, Value, json};

/// The schema: one definition for each sort of thing, one of the answers at the top.
pub fn output_schema() -> Value {
    let mut defs = Defs(Map::new());
    let asked = [
        group::<Design>(),
        group::<Checked>(),
        group::<CableAnswer>(),
        group::<CutOffAnswer>(),
        group::<UsedAnswer>(),
        group::<SelfCheck>(),
        group::<TroubleAnswer>(),
        group::<DaysOfUse>(),
        group::<LogAnswer>(),
        group::<Ageing>(),
        group::<Rivals>(),
        group::<Written>(),
        group::<Explained>(),
    ];
    let mut answers: Vec<Value> = asked.iter().map(|a| defs.refer(a)).collect();
    defs.0.insert("catalogue".into(), catalogue());
    answers.push(reference("catalogue"));
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Loomwright answers",
        "description": format!(
            "What the commands print with --json, version {VERSION}. A number is in the unit at the end of its name; \
             shares are 0 to 1; null is none or not known."
        ),
        "anyOf": answers,
        "$defs": defs.0,
    })
}

fn reference(name: &str) -> Value {
    json!({"$ref": format!("#/$defs/{name}")})
}

/// What `catalogue` prints: its tables, named and headed as their CSV.
fn catalogue() -> Value {
    let cell = json!({"type": ["number", "string", "null"]});
    let row = json!({"type": "object", "additionalProperties": cell});
    json!({
        "type": "object",
        "description": "what `catalogue --json` prints: one list for each table, its rows named as in the heads of a CSV",
        "properties": {"version": {"const": VERSION}},
        "required": ["version"],
        "additionalProperties": {"type": "array", "items": row},
    })
}

struct Defs(Map<String, Value>);

impl Defs {
    /// A reference to a sort of thing, which is defined when it is met first.
    fn refer(&mut self, group: &Group) -> Value {
        if !self.0.contains_key(group.name) {
            self.0.insert(group.name.into(), Value::Null);
            let properties: Map<String, Value> =
                group.facts.iter().map(|f| (f.key.to_string(), self.property(f))).collect();
            let always = group.facts.iter().filter(|f| !matches!(f.form, Form::Asked(_)));
            let object = json!({
                "type": "object",
                "description": group.help,
                "properties": properties,
                "required": always.map(|f| f.key).collect::<Vec<_>>(),
                "additionalProperties": false,
            });
            self.0.insert(group.name.into(), object);
        }
        reference(group.name)
    }

    fn property(&mut self, fact: &Described) -> Value {
        let mut schema = self.form(fact.form);
        schema["title"] = fact.label.into();
        schema["description"] = fact.help.into();
        if let Some(working) = fact.working {
            schema["working"] = working.into();
        }
        schema
    }

    fn form(&mut self, form: Form) -> Value {
        match form {
            Form::Number(of) => json!({"type": "number", "unit": unit(of)}),
            Form::Figure => json!({
                "type": "object",
                "properties": {"value": {"type": ["number", "null"]}, "unit": {"type": "string"}},
                "required": ["value", "unit"],
                "additionalProperties": false,
            }),
            Form::Band(of) => {
                let number = json!({"type": "number", "unit": unit(of)});
                json!({"type": "array", "items": number, "minItems": 3, "maxItems": 3})
            }
            Form::Times => json!({"type": "number", "unit": "1"}),
            Form::Count => json!({"type": "integer", "minimum": 0}),
            Form::Text => json!({"type": "string"}),
            Form::Word(words) => json!({"type": "string", "enum": words()}),
            Form::Flag => json!({"type": "boolean"}),
            Form::Entry => json!({"type": ["number", "string", "boolean", "array"]}),
            Form::Version => json!({"const": VERSION}),
            Form::Asked(inner) => self.form(*inner),
            Form::Maybe(inner) => or_null(self.form(*inner)),
            Form::List(inner) => json!({"type": "array", "items": self.form(*inner)}),
            Form::Group(of) => self.refer(&of()),
        }
    }
}

fn or_null(mut schema: Value) -> Value {
    match schema.get_mut("type").map(Value::take) {
        Some(Value::Array(mut types)) => {
            types.push("null".into());
            schema["type"] = types.into();
            schema
        }
        Some(one) => {
            schema["type"] = json!([one, "null"]);
            if let Some(words) = schema.get_mut("enum").and_then(Value::as_array_mut) {
                words.push(Value::Null);
            }
            schema
        }
        None => json!({"anyOf": [schema, {"type": "null"}]}),
    }
}
