//! Editing changes one thing and nothing else: comments, order and spelling stay.

use crate::CATALOGUE;
use loomwright::plan::{
    Months, Place, Section, Value, Weekdays, Windows, copy, default_example, examples, field_at, fields_of, insert,
    read, remove, set, shift,
};
use proptest::prelude::*;

const PLAN: &str = r#"# mine
format = 2

[service_battery]   # the box
chemistry = "agm"   # for now

# keeps the beer cold
[[load]]
name = "fridge" # new
power_w = 45
duty = { share_on = 0.4 } # guess

[[load]]
name = "lamp"
current_a = 1.5

[[run]]
from = "service battery"
to = "cut-off"
length_m = 1
"#;

#[test]
fn one_value_changes_and_its_comment_stays() {
    let text = set(PLAN, Place::load(0, "power_w"), Some(&Value::Number(60.0))).unwrap();
    assert_eq!(text, PLAN.replace("power_w = 45", "power_w = 60"));
    let text = set(PLAN, Place::of(Section::ServiceBattery, "chemistry"), Some(&Value::Text("gel".into()))).unwrap();
    assert_eq!(text, PLAN.replace("\"agm\"", "\"gel\""));
    let text = set(PLAN, Place::load(0, "duty.share_on"), Some(&Value::Number(0.5))).unwrap();
    assert_eq!(text, PLAN.replace("share_on = 0.4", "share_on = 0.5"));
}

#[test]
fn new_keys_and_sections_are_made_and_taken_away() {
    let text = set(PLAN, Place::of(Section::CutOff, "cut_v"), Some(&Value::Number(12.2))).unwrap();
    let plan = read(&text, &CATALOGUE).plan;
    assert_eq!(plan.cut_off.cut.map(|v| v.get()), Some(12.2));
    assert!(text.starts_with("# mine\nformat = 2"));
    let text = set(PLAN, Place::load(1, "start.times"), Some(&Value::Number(3.0))).unwrap();
    assert_eq!(read(&text, &CATALOGUE).plan.loads[1].start.times, 3.0);
    let text = set(&text, Place::load(1, "start.times"), None).unwrap();
    assert_eq!(text, PLAN);
    let windows = Windows::parse("06:00-07:00, 22-24").unwrap();
    let text = set(PLAN, Place::of(Section::Vehicle, "driving"), Some(&Value::Windows(windows.clone()))).unwrap();
    assert_eq!(read(&text, &CATALOGUE).plan.vehicle.driving, windows);
}

/// Weeks that differ are kept as they are read, in the file too.
#[test]
fn days_of_two_weeks_go_into_the_file_and_come_back() {
    for typed in ["every other day", "A: mon, sat; B: wed", "B: fri", "tue, thu", "none", "every day"] {
        let days = Weekdays::parse(typed).unwrap();
        for place in [Place::of(Section::Vehicle, "driving_days"), Place::of(Section::Mains, "days")] {
            let text = set(PLAN, place, Some(&Value::Weekdays(days))).unwrap();
            let read = read(&text, &CATALOGUE);
            assert!(read.problems.is_empty(), "{typed}: {:?}", read.problems);
            assert_eq!(field_at(place).unwrap().get(&read.plan, 0), Some(Value::Weekdays(days)), "{typed}");
        }
    }
}

#[test]
fn days_and_months_of_a_load_go_into_the_file_and_come_back() {
    let months = Value::Months(Months::parse("nov-mar").unwrap());
    let days = Value::Weekdays(Weekdays::parse("A: sat; B: sun").unwrap());
    for (key, value) in [("duty.days", days), ("duty.months", months)] {
        let place = Place::load(1, key);
        let text = set(PLAN, place, Some(&value)).unwrap();
        assert_eq!(field_at(place).unwrap().get(&read(&text, &CATALOGUE).plan, 1), Some(value), "{text}");
        assert_eq!(set(&text, place, None).unwrap(), PLAN);
    }
}

/// A load has power or current, never both.
#[test]
fn power_and_current_replace_each_other() {
    let text = set(PLAN, Place::load(0, "current_a"), Some(&Value::Number(4.0))).unwrap();
    let load = &read(&text, &CATALOGUE).plan.loads[0];
    assert_eq!((load.power, load.current.map(|a| a.get())), (None, Some(4.0)));
}

#[test]
fn items_come_go_and_move_with_their_comments() {
    let moved = shift(PLAN, Section::Load, 0, 1).unwrap();
    let names =
        |text: &str| -> Vec<String> { read(text, &CATALOGUE).plan.loads.iter().map(|l| l.name.clone()).collect() };
    assert_eq!(names(&moved), ["lamp", "fridge"]);
    assert!(moved.contains("# keeps the beer cold\n[[load]]\nname = \"fridge\" # new"), "{moved}");
    assert_eq!(names(&shift(&moved, Section::Load, 1, 0).unwrap()), ["fridge", "lamp"]);
    let copied = copy(PLAN, Section::Load, 0, Some("fridge 2")).unwrap();
    assert_eq!(names(&copied), ["fridge", "fridge 2", "lamp"]);
    assert_eq!(names(&remove(&copied, Section::Load, 0).unwrap()), ["fridge 2", "lamp"]);
    let added =
        insert(PLAN, Section::Load, 9, &[("name", Value::Text("pump".into())), ("power_w", Value::Number(50.0))])
            .unwrap();
    assert_eq!(names(&added), ["fridge", "lamp", "pump"]);
    assert!(remove(PLAN, Section::Load, 2).is_err());
    let none = remove(&remove(PLAN, Section::Load, 0).unwrap(), Section::Load, 0).unwrap();
    assert_eq!(names(&none), Vec::<String>::new());
    assert_eq!(read(&none, &CATALOGUE).problems, []);
}

/// Tables nested below an item keep belonging to it when items move.
#[test]
fn nested_tables_move_along() {
    let text = "format = 2\n[service_battery]\nchemistry = \"agm\"\n[[load]]\nname = \"a\"\n[load.duty]\nshare_on = 0.1\n[[load]]\nname = \"b\"\n[load.duty]\nshare_on = 0.9\n";
    let moved = shift(text, Section::Load, 1, 0).unwrap();
    let plan = read(&moved, &CATALOGUE).plan;
    assert_eq!((plan.loads[0].name.as_str(), plan.loads[0].duty.share_on.get()), ("b", 0.9));
    assert_eq!((plan.loads[1].name.as_str(), plan.loads[1].duty.share_on.get()), ("a", 0.1));
}

/// Every field of every section can be set to its own value and reads back the same.
#[test]
fn every_field_survives_the_round_trip() {
    for example in examples() {
        let before = read(example.text, &CATALOGUE);
        for section in Section::ALL.iter().filter(|s| s.count(&before.plan) > 0) {
            for field in fields_of(*section) {
                let Some(value) = field.get(&before.plan, 0).or_else(|| field.default_value()) else { continue };
                if matches!(&value, Value::Text(t) if t.is_empty()) {
                    continue;
                }
                let text = set(example.text, field.place(0), Some(&value)).unwrap();
                let after = read(&text, &CATALOGUE);
                assert_eq!(after.problems, [], "{} {}", section.key(), field.key);
                assert_eq!(field.get(&after.plan, 0), Some(value), "{} {}", section.key(), field.key);
            }
        }
    }
}

/// What a cell shows, typed back in, is accepted.
#[test]
fn shown_values_can_be_typed_back() {
    let plan = read(default_example().text, &CATALOGUE).plan;
    for section in Section::ALL {
        for field in fields_of(*section) {
            let Some(value) = field.get(&plan, 0) else { continue };
            let shown = field.show(&value, loomwright::quantity::UnitSystem::Metric);
            if shown.is_empty() {
                continue;
            }
            let back = field.parse(&shown, &CATALOGUE);
            assert!(back.is_ok(), "{} {}: `{shown}` gives {back:?}", section.key(), field.key);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    /// A random walk of edits always leaves a text that reads without problems.
    #[test]
    fn edits_never_break_a_plan(steps in proptest::collection::vec((0u8..5, 0usize..12, 0usize..12, 0.0f64..1.0), 1..25)) {
        let mut text = default_example().text.to_string();
        for (what, a, b, share) in steps {
            let count = read(&text, &CATALOGUE).plan.loads.len();
            if count == 0 { break; }
            let (a, b) = (a % count, b % count);
            // A share is none at all, or at least 0.01 %.
            let share = (share * 1e4).round() / 1e4;
            text = match what {
                0 => set(&text, Place::load(a, "duty.share_on"), Some(&Value::Number(share))).unwrap(),
                1 => copy(&text, Section::Load, a, Some(&format!("copy {count} {share}"))).unwrap(),
                2 => remove(&text, Section::Load, a).unwrap(),
                3 => shift(&text, Section::Load, a, b).unwrap(),
                _ => set(&text, Place::load(a, "duty.share_on"), None).unwrap(),
            };
            prop_assert_eq!(read(&text, &CATALOGUE).problems, vec![]);
        }
    }
}

#[test]
fn places_lead_to_fields() {
    assert_eq!(field_at(Place::run(0, "length_m")).map(|f| f.label), Some("Length"));
    assert!(field_at(Place::run(0, "nothing")).is_none());
}
