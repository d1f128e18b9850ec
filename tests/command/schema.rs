//! The JSON Schema of the plan file against the public validator `jsonschema`:
//! it takes every plan that the reader takes, and refuses broken ones.

use crate::run::{example_paths, out, run};
use serde_json::Value;

fn schema() -> Value {
    serde_json::from_str(&out(&run(&["schema"]))).unwrap()
}

fn as_json(text: &str) -> Value {
    let table: toml::Table = text.parse().unwrap();
    serde_json::to_value(table).unwrap()
}

#[test]
fn is_itself_a_valid_schema() {
    assert!(jsonschema::meta::is_valid(&schema()));
}

#[test]
fn takes_every_plan_that_can_be_read() {
    let validator = jsonschema::validator_for(&schema()).unwrap();
    let full = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/command/full.toml");
    for path in example_paths().into_iter().chain([full]) {
        let plan = as_json(&std::fs::read_to_string(&path).unwrap());
        let faults: Vec<String> = validator.iter_errors(&plan).map(|e| format!("{}: {e}", e.instance_path)).collect();
        assert!(faults.is_empty(), "{}: {faults:?}", path.display());
    }
}

#[test]
fn refuses_broken_plans() {
    let validator = jsonschema::validator_for(&schema()).unwrap();
    let head = "format = 2\n[service_battery]\nchemistry = \"agm\"\n";
    assert!(validator.is_valid(&as_json(head)));
    for broken in [
        "format = 1\n[service_battery]\nchemistry = \"agm\"\n",
        "[service_battery]\nchemistry = \"agm\"\n",
        "format = 2\n",
        "format = 2\n[service_battery]\nchemistry = \"unobtainium\"\n",
        "format = 2\nnonsense = 1\n[service_battery]\nchemistry = \"agm\"\n",
        &format!("{head}capacity_ah = -5\n"),
        &format!("{head}capacity_ah = \"100\"\n"),
        &format!("{head}in_parallel = 1.5\n"),
        &format!("{head}[[load]]\npower_w = 5\n"),
        &format!("{head}[[load]]\nname = \"a\"\npower_w = 1e9\n"),
        &format!("{head}[[load]]\nname = \"a\"\nduty = {{ hours_a_day = 25 }}\n"),
        &format!("{head}[[load]]\nname = \"a\"\nduty = {{ hours = 2 }}\n"),
        &format!("{head}[load]\nname = \"a\"\n"),
        &format!("{head}[[run]]\nfrom = \"a\"\nto = \"b\"\n"),
        &format!("{head}[[run]]\nfrom = \"a\"\nto = \"b\"\nlength_m = 0\n"),
        &format!("{head}[[run]]\nfrom = \"a\"\nto = \"b\"\nlength_m = 1\nown_fuse = \"yes\"\n"),
        &format!("{head}[charger]\nkind = \"magic\"\n"),
    ] {
        assert!(!validator.is_valid(&as_json(broken)), "the schema takes:\n{broken}");
    }
}

/// The schema and the reader take and refuse the same numbers, at every bound of every field.
#[test]
fn bounds_are_those_of_the_reader() {
    use loomwright::catalogue::Catalogue;
    use loomwright::plan::{Kind, Section, fields_of, read};
    let catalogue = Catalogue::embedded().unwrap();
    let validator = jsonschema::validator_for(&schema()).unwrap();
    for section in Section::ALL.iter().copied().filter(|s| !s.is_list() && *s != Section::Job) {
        for field in fields_of(section).filter(|f| !f.key.contains('.')) {
            let Kind::Number { min, max, whole, .. } = field.kind else { continue };
            let step = if whole { 1.0 } else { 0.01 * (max - min) };
            for value in [min - step, min, max, max + step] {
                let chemistry = if section == Section::ServiceBattery { "chemistry = \"agm\"\n" } else { "" };
                let other = if chemistry.is_empty() { "[service_battery]\nchemistry = \"agm\"\n" } else { "" };
                let number = if whole { format!("{value:.0}") } else { format!("{value:?}") };
                let text = format!("format = 2\n{other}[{}]\n{chemistry}{} = {number}\n", section.key(), field.key);
                let taken = read(&text, &catalogue).problems.is_empty();
                assert_eq!(validator.is_valid(&as_json(&text)), taken, "{text}");
                assert_eq!(taken, (min..=max).contains(&value), "{text}");
            }
        }
    }
}
