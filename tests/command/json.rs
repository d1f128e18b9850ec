//! The JSON is what its printed schema says, by the public validator `jsonschema`:
//! of the examples, of generated plans, of every command. And it is enough to
//! solve the circuit anew, by the laws of Ohm and Kirchhoff alone.

use crate::generated_plan::plan as generated_plan;
use crate::generated_text::{strange_text, text as generated_text};
use crate::run::{example_paths, out, run};
use jsonschema::Validator;
use loomwright::catalogue::Catalogue;
use loomwright::engine::design;
use loomwright::engine::design::results::fact::At;
use loomwright::papers::json::answer;
use loomwright::plan::{Plan, read};
use serde_json::{Value, json};

fn parsed(arguments: &[&str]) -> Value {
    let output = run(arguments);
    assert_ne!(output.status.code(), Some(2), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_str(&out(&output)).unwrap_or_else(|e| panic!("{arguments:?}: {e}"))
}

fn schema() -> Value {
    parsed(&["schema", "--output"])
}

/// A validator of one command's answer.
fn validator(name: &str) -> Validator {
    let mut schema = schema();
    schema.as_object_mut().unwrap().remove("anyOf");
    schema["$ref"] = format!("#/$defs/{name}").into();
    jsonschema::validator_for(&schema).unwrap()
}

fn check(validator: &Validator, of: &str, answer: &Value) {
    let faults: Vec<String> =
        validator.iter_errors(answer).take(5).map(|e| format!("{}: {e}", e.instance_path)).collect();
    assert!(faults.is_empty(), "{of}: {faults:?}");
}

/// The plan of the stored logs.
const LOGGED: &str = "tests/reference/data/logs/van.toml";

/// A plan that has everything a plan can have.
const FULL: &str = "tests/command/full.toml";

#[test]
fn the_schema_is_one_and_takes_what_the_commands_print() {
    let schema = schema();
    assert!(jsonschema::meta::is_valid(&schema));
    let whole = jsonschema::validator_for(&schema).unwrap();
    let (report, checked) = (validator("report"), validator("check"));
    let mut plans: Vec<String> = example_paths().iter().map(|p| p.display().to_string()).collect();
    plans.push(FULL.into());
    plans.push("tests/problems/load-on-no-point.toml".into());
    for plan in &plans {
        let told = parsed(&["report", "--json", "--workings", plan]);
        check(&report, plan, &told);
        check_workings(plan, &told);
        check(&report, plan, &parsed(&["report", "--json", plan]));
        check(&checked, plan, &parsed(&["check", "--json", plan]));
    }
    let folder = tempfile::tempdir().unwrap();
    let into = folder.path().join("papers").display().to_string();
    for (name, arguments) in [
        ("cable", &["cable", "20A", "6m", "--json", "--workings"][..]),
        ("cable", &["cable", "900A", "60m", "--json"]),
        ("cut-off-answer", &["cut-off", "agm", "100Ah", "8A", "--json"]),
        ("self-check", &["self-check", "--json"]),
        ("endurance", &["endurance", "--json", "--workings", "--days", "3", "--draws", "4"]),
        ("endurance", &["endurance", "--json", "--days", "2", FULL]),
        ("log", &["log", LOGGED, "tests/reference/data/logs/lead.csv", "--json"]),
        ("rivals", &["rivals", "--json", "tests/problems/run-to-nowhere.toml"]),
        ("papers", &["papers", "--json", "--into", &into]),
        ("catalogue", &["catalogue", "fuses", "--json"]),
        ("explain", &["catalogue", "explain", "agm", "--json"]),
    ] {
        let answer = parsed(arguments);
        check(&validator(name), name, &answer);
        if arguments.contains(&"--workings") {
            check_workings(name, &answer);
        }
        assert!(whole.is_valid(&answer), "{name}");
        assert!(!report.is_valid(&answer), "{name}");
    }
}

#[test]
fn generated_plans_keep_to_the_schema() {
    let (catalogue, report) = (Catalogue::embedded().unwrap(), validator("report"));
    let try_one = |of: &str, plan: &Plan| {
        let design = design(plan, &catalogue);
        let answer = answer(&design, &At { workings: true, ..At::site(&design.installation) });
        check(&report, of, &answer);
    };
    for seed in 0..25 {
        for wild in [false, true] {
            let runs = 2 + seed as usize;
            try_one(&format!("plan {seed}, wild {wild}"), &generated_plan(seed, runs, wild, &catalogue));
        }
        let text = generated_text(seed, 40, &catalogue);
        try_one(&format!("text {seed}"), &read(&text, &catalogue).plan);
        let strange = strange_text(seed, 40, &catalogue);
        try_one(&format!("strange text {seed}"), &read(&strange, &catalogue).plan);
    }
}

/// How the name of a number in a unit ends, as promised.
fn endings() -> Value {
    json!({
        "V": "_v", "A": "_a", "Ω": "_ohm", "mΩ": "_mohm", "W": "_w", "Ah": "_ah", "Wh": "_wh", "m": "_m", "mm": "_mm", "mm²": "_mm2",
        "°C": "_c", "K": "_k", "s": "_s", "h": "_h", "d": "_d", "years": "_years", "kg": "_kg", "N": "_n", "Nm": "_nm",
        "MPa": "_mpa", "A²s": "_a2s", "cm²": "_cm2", "m³/h": "_m3_per_h", "g": "_g", "share": "", "1": "", "cycles": "", "sun h": "sun_hours", "": "",
    })
}

/// Each working gives the number that stands where it says.
fn check_workings(of: &str, answer: &Value) {
    let (endings, mut compared) = (endings(), 0);
    for working in answer["workings"].as_array().unwrap() {
        let (result, unit) = (&working["result"]["value"], working["result"]["unit"].as_str().unwrap());
        for pointer in working["results"].as_array().unwrap().iter().map(|p| p.as_str().unwrap()) {
            let there = answer.pointer(pointer).unwrap_or_else(|| panic!("{of}: nothing at {pointer}"));
            // Multiples have none.
            let ending = endings[unit].as_str().unwrap_or("");
            let numbers = (there.as_f64(), result.as_f64(), pointer.ends_with(ending));
            if let (Some(there), Some(result), true) = numbers {
                compared += 1;
                assert!(
                    (there - result).abs() <= 2e-5 * result.abs(),
                    "{of}: {there} at {pointer}, {result} by the working of {} of {}",
                    working["number"],
                    working["about"]
                );
            }
        }
    }
    assert!(compared > 0, "{of}");
}

/// A number's name ends in its unit, by the symbol of the unit.
#[test]
fn names_of_numbers_end_in_their_unit() {
    let endings = endings();
    let mut seen = 0;
    for (group, of) in schema()["$defs"].as_object().unwrap() {
        for (name, property) in of["properties"].as_object().unwrap() {
            let inner = property.get("unit").or_else(|| property["items"].get("unit"));
            let Some(unit) = inner.and_then(Value::as_str) else { continue };
            let ending = endings[unit].as_str().unwrap_or_else(|| panic!("{group}.{name}: no ending for `{unit}`"));
            assert!(name.ends_with(ending), "{group}.{name} is in {unit}");
            seen += 1;
        }
    }
    assert!(seen > 100);
}

#[test]
fn numbers_agree_with_their_names() {
    let report = parsed(&["report", "--json"]);
    assert_eq!(report["version"], 3);
    assert_eq!(report["runs"][0]["number"], "R1");
    let runs = report["runs"].as_array().unwrap();
    assert!(runs.len() > 3);
    for run in runs {
        let (volts, share) = (run["size"]["drop_v"].as_f64().unwrap(), run["size"]["drop_share"].as_f64().unwrap());
        // A share of 12 V, both to six digits.
        assert!((volts / 12.0 - share).abs() < 1e-5, "{run}");
    }
}

/// Current that something takes at a voltage: P / V, I, V / R.
fn taken(draws: &Value, volts: f64) -> f64 {
    let number = |key: &str| draws[key].as_f64().unwrap_or_else(|| panic!("{key} of {draws}"));
    match draws["kind"].as_str() {
        Some("constant-power") => number("power_w") / volts,
        Some("constant-current") => number("current_a"),
        Some("resistance") => volts / number("resistance_ohm"),
        _ => panic!("{draws}"),
    }
}

/// Solve one battery's circuit from the report and compare; gives how many runs it has.
fn solve_anew(report: &Value, battery: &str, source: f64) -> usize {
    let list = |key: &str| report[key].as_array().unwrap().clone();
    let runs: Vec<Value> = list("runs").into_iter().filter(|r| r["battery"] == battery).collect();
    let all = [list("loads"), list("devices")].concat();
    let on = |end: &&Value| end["draws"]["on"] == true && end["draws"]["battery"] == battery;
    let ends: Vec<&Value> = all.iter().filter(on).collect();
    let parent = |run: &Value| runs.iter().position(|r| r["number"] == run["parent"]);
    let mut far = vec![source; runs.len()];
    let mut current = vec![0.0; runs.len()];
    for _ in 0..300 {
        current = runs
            .iter()
            .zip(&far)
            .map(|(run, volts)| {
                let here = ends.iter().filter(|end| end["at"] == run["far"]);
                here.map(|end| taken(&end["draws"], *volts)).sum::<f64>()
            })
            .collect();
        // Nobody promises an order of the runs: a run's current walks up to the battery.
        for (own, run) in current.clone().into_iter().zip(&runs) {
            let mut above = parent(run);
            while let Some(n) = above {
                current[n] += own;
                above = parent(&runs[n]);
            }
        }
        let lost = |n: usize| current[n] * runs[n]["settled_ohm"].as_f64().unwrap();
        far = (0..runs.len())
            .map(|n| {
                let mut volts = source - lost(n);
                let mut above = parent(&runs[n]);
                while let Some(n) = above {
                    volts -= lost(n);
                    above = parent(&runs[n]);
                }
                volts
            })
            .collect();
    }
    let near = |what: &str, given: &Value, got: f64| {
        let given = given.as_f64().unwrap();
        assert!((given - got).abs() <= 2e-4 * got.abs().max(0.1), "{what}: {given} printed, {got} solved");
    };
    for (n, run) in runs.iter().enumerate() {
        let name = &run["number"];
        near(&format!("{name} current"), &run["settled_a"], current[n]);
        near(&format!("{name} far end"), &run["far_v"], far[n]);
        near(&format!("{name} near end"), &run["near_v"], parent(run).map_or(source, |p| far[p]));
        let (size, number) = (&run["size"], |of: &Value| of.as_f64().unwrap());
        // Copper by its straight line, NBS Handbook 100: R20 × (234.5 + T) / 254.5.
        let copper = number(&size["copper_ohm"]) * (234.5 + number(&run["settled_c"])) / 254.5;
        let fixed = ["joints_ohm", "contacts_ohm", "link_ohm"].map(|key| number(&size[key]));
        near(&format!("{name} resistance"), &run["settled_ohm"], copper + fixed.iter().sum::<f64>());
    }
    for end in ends {
        let at = runs.iter().position(|r| r["far"] == end["at"]);
        let volts = at.map_or(source, |n| far[n]);
        near(&format!("{} at {}", end["name"], end["at"]), &end["draws"]["voltage_v"], volts);
        near("its current", &end["draws"]["settled_a"], taken(&end["draws"], volts));
    }
    runs.len()
}

#[test]
fn the_report_is_enough_to_solve_the_circuit() {
    let (catalogue, mut runs, mut grouped) = (Catalogue::embedded().unwrap(), 0, 0);
    let mut plans: Vec<Plan> = Vec::new();
    for path in example_paths() {
        plans.push(read(&std::fs::read_to_string(path).unwrap(), &catalogue).plan);
    }
    plans.extend((0..40).map(|seed| generated_plan(seed, 2 + seed as usize % 15, false, &catalogue)));
    for plan in plans {
        let design = design(&plan, &catalogue);
        let report = answer(&design, &At::site(&design.installation));
        for (battery, source) in [("service battery", "lowest_v"), ("starter battery", "feed_v")] {
            runs += solve_anew(&report, battery, report["sources"][source].as_f64().unwrap());
        }
        grouped += report["loads"].as_array().unwrap().iter().filter(|l| !l["group"].is_null()).count();
    }
    assert!(runs > 300 && grouped > 5, "{runs} runs, {grouped} loads in groups");
}
