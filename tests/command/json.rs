//! The JSON is what it says it is: every name explained, numbers finite, one version.

use crate::run::{example_paths, out, run};
use loomwright::papers::json::shape;
use serde_json::Value;
use std::collections::BTreeSet;

/// Each object of the value as (path, name), `[]` for the items of lists.
fn names(value: &Value, path: &str, found: &mut BTreeSet<(String, String)>) {
    match value {
        Value::Object(map) => {
            for (name, inner) in map {
                found.insert((path.into(), name.clone()));
                let dot = if path.is_empty() { "" } else { "." };
                names(inner, &format!("{path}{dot}{name}"), found);
            }
        }
        Value::Array(items) => items.iter().for_each(|i| names(i, &format!("{path}[]"), found)),
        _ => {}
    }
}

fn parsed(arguments: &[&str]) -> Value {
    let output = run(arguments);
    assert_ne!(output.status.code(), Some(2), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_str(&out(&output)).unwrap_or_else(|e| panic!("{arguments:?}: {e}"))
}

/// A plan that has everything a plan can have.
const FULL: &str = "tests/command/full.toml";

#[test]
fn every_name_is_explained_and_every_explanation_is_of_a_name() {
    let mut found = BTreeSet::new();
    let mut plans: Vec<String> = example_paths().iter().map(|p| p.display().to_string()).collect();
    plans.push(FULL.into());
    plans.push("tests/problems/load-on-no-point.toml".into());
    for plan in &plans {
        names(&parsed(&["report", "--json", "--workings", plan]), "", &mut found);
        names(&parsed(&["check", "--json", plan]), "", &mut found);
    }
    names(&parsed(&["cable", "20A", "6m", "--json", "--workings"]), "", &mut found);
    names(&parsed(&["cut-off", "agm", "100Ah", "8A", "--json"]), "", &mut found);
    let mut days = BTreeSet::new();
    let endurance = parsed(&["endurance", "--json", "--workings", "--days", "3", "--draws", "4"]);
    names(&serde_json::json!({"endurance": endurance}), "", &mut days);
    // Findings and workings are the same there as elsewhere.
    let elsewhere = |path: &str| path.contains("findings[]") || path.contains("workings[]");
    found.extend(days.into_iter().filter(|(path, _)| !path.is_empty() && !elsewhere(path)));
    let mut explained = BTreeSet::new();
    for object in shape() {
        for at in object.at {
            explained.extend(object.names.iter().map(|(name, _)| ((*at).to_string(), (*name).to_string())));
        }
    }
    let unexplained: Vec<_> = found.difference(&explained).collect();
    assert!(unexplained.is_empty(), "names without explanation: {unexplained:?}");
    // An explanation of several places need not hold for each name in each place, but in one.
    // The next reading is asked for only when readings leave a doubt.
    for object in shape().filter(|o| !o.at.iter().all(|at| at.ends_with(".next"))) {
        for (name, means) in object.names {
            assert!(!means.is_empty());
            let written = object.at.iter().any(|at| found.contains(&((*at).to_string(), (*name).to_string())));
            assert!(written, "`{name}` in {:?} is explained and never written", object.at);
        }
    }
}

#[test]
fn numbers_agree_with_their_names() {
    let report = parsed(&["report", "--json"]);
    assert_eq!(report["version"], 1);
    assert_eq!(report["runs"][0]["number"], "R1");
    let runs = report["runs"].as_array().unwrap();
    assert!(runs.len() > 3);
    for run in runs {
        let (volts, share) = (run["size"]["drop_v"].as_f64().unwrap(), run["size"]["drop_share"].as_f64().unwrap());
        // A share of 12 V, both to six digits.
        assert!((volts / 12.0 - share).abs() < 1e-5, "{run}");
    }
}
