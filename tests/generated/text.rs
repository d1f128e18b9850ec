//! Random plan files from a seed: any field at its ends or between, so that nothing the reader accepts is left untried.

use loomwright::catalogue::Catalogue;
use loomwright::plan::{Absent, Field, Kind, Section, Value, fields_of};
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;

/// The text of a plan; `often` is how many fields of a hundred are given.
pub fn text(seed: u64, often: u32, catalogue: &Catalogue) -> String {
    with_numbers(seed, often, catalogue, ordinary)
}

/// The same with the strangest numbers that the fields accept: subnormal, tiny, hugest, next to a bound, and ordinary ones among them.
pub fn strange_text(seed: u64, often: u32, catalogue: &Catalogue) -> String {
    with_numbers(seed, often, catalogue, strange)
}

fn with_numbers(seed: u64, often: u32, catalogue: &Catalogue, number: Draw) -> String {
    let mut dice = ChaCha8Rng::seed_from_u64(seed);
    let mut out = String::from("format = 2\n");
    for &section in Section::ALL {
        let times = match section {
            Section::Load => dice.random_range(0..6),
            Section::Run => dice.random_range(0..7),
            _ => 1,
        };
        for item in 0..times {
            match section {
                Section::Job => {}
                s if s.is_list() => out += &format!("\n[[{}]]\n", s.key()),
                s => out += &format!("\n[{}]\n", s.key()),
            }
            for field in fields_of(section) {
                if let Some(value) = forced(field, item).or_else(|| any(field, often, &mut dice, catalogue, number)) {
                    out += &format!("{} = {value}\n", field.key);
                }
            }
        }
    }
    out
}

/// What must be there, and hang together often enough to be interesting.
fn forced(field: &Field, item: usize) -> Option<String> {
    let ends = [("starter battery", "charger"), ("service battery", "charger"), ("service battery", "cut-off")];
    let (from, to) = ends.get(item).copied().unwrap_or(("cut-off", "panel"));
    match (field.section, field.key) {
        (Section::Load, "name") => Some(format!("\"load {item}\"")),
        (Section::Load, "at") => Some("\"panel\"".into()),
        (Section::Run, "from") => Some(format!("\"{from}\"")),
        (Section::Run, "to") if item > 3 => Some(format!("\"panel {item}\"")),
        (Section::Run, "to") => Some(format!("\"{to}\"")),
        (Section::Run, "length_m") => Some("1.5".into()),
        // No two cables may bear one number.
        (Section::Run, "number") => Some((item + 1).to_string()),
        (Section::Load, "lead_number") => Some((item + 101).to_string()),
        (Section::Load, "way_number") => Some((item + 201).to_string()),
        _ => None,
    }
}

pub type Draw = fn(&Field, f64, f64, &mut ChaCha8Rng, &Catalogue) -> f64;

/// A number such as a plan has.
pub fn ordinary(field: &Field, min: f64, max: f64, dice: &mut ChaCha8Rng, catalogue: &Catalogue) -> f64 {
    let drawn = match dice.random_range(0..5) {
        0 => min,
        1 => max,
        2 => min + (max - min) * 0.01,
        _ => dice.random_range(min..=max),
    };
    // Next to nothing is refused at the door.
    if field.accept(Value::Number(drawn), catalogue).is_ok() { drawn } else { min }
}

fn strange(field: &Field, min: f64, max: f64, dice: &mut ChaCha8Rng, catalogue: &Catalogue) -> f64 {
    let size = 10f64.powi(dice.random_range(-323..308)) * dice.random_range(0.1..1.0);
    let small = 10f64.powi(dice.random_range(-12..1));
    let strange = [5e-324, 1e-310, f64::MIN_POSITIVE, -5e-324, -0.0, size, -size, small, min + small, max - small];
    let edges = [min.next_up(), max.next_down(), min.next_down(), max.next_up(), f64::MAX, f64::EPSILON, min, max];
    let drawn = match dice.random_range(0..3) {
        0 => ordinary(field, min, max, dice, catalogue),
        1 => strange[dice.random_range(0..strange.len())],
        _ => edges[dice.random_range(0..edges.len())],
    };
    match field.accept(Value::Number(drawn), catalogue) {
        Ok(_) => drawn,
        Err(_) => ordinary(field, min, max, dice, catalogue),
    }
}

/// A value for a field as a file has it, so often of a hundred where it may be left out; none for what is no single value.
pub fn any(field: &Field, often: u32, dice: &mut ChaCha8Rng, catalogue: &Catalogue, number: Draw) -> Option<String> {
    let needed = matches!(field.absent, Absent::NotAllowed);
    if !needed && !dice.random_ratio(often, 100) {
        return None;
    }
    let windows = ["[]", "[\"07:00-08:30\"]", "[\"22:00-06:00\", \"12:00-12:01\"]", "[\"00:00-24:00\"]"];
    let days = ["[]", "[\"mon\"]", "[\"mon-sun\"]", "\"A: sat; B: wed, sat\""];
    Some(match field.kind {
        Kind::Number { min, max, whole, .. } => {
            let value = number(field, min, max, dice, catalogue);
            if whole { format!("{value:.0}") } else { format!("{value:?}") }
        }
        Kind::Flag => dice.random_bool(0.5).to_string(),
        Kind::Windows => windows[dice.random_range(0..windows.len())].into(),
        Kind::Weekdays => days[dice.random_range(0..days.len())].into(),
        Kind::Months => ["[]", "[\"nov-mar\"]", "\"all year\"", "\"jul\""][dice.random_range(0..4)].into(),
        Kind::Choice(_) | Kind::Pick(_) => {
            let options = field.options(catalogue);
            format!("\"{}\"", options[dice.random_range(0..options.len())].0)
        }
        Kind::Point => {
            ["\"panel\"", "\"service battery\"", "\"cut-off\"", "\"nowhere\""][dice.random_range(0..4)].into()
        }
        Kind::Text { .. } => "\"words\"".into(),
        _ => return None,
    })
}
