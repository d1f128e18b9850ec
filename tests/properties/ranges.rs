//! Whatever numbers the door lets in, subnormal, huge or next to a bound: every answer is a number.

use crate::generated_many::plans;
use crate::generated_text::strange_text;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Notes, Span, design, endurance};
use loomwright::papers::{Job, Look, Stamp, bundle};
use loomwright::plan::{Kind, Section, Value, fields_of, read};

/// Plans of each density, and days and papers of each tenth of them.
fn rounds() -> u64 {
    plans(24)
}

#[track_caller]
fn all_numbers(words: &str, seed: u64, what: &str) {
    for bad in ["NaN", ": inf", ": -inf", "(inf", "(-inf"] {
        if let Some((before, _)) = words.split_once(bad) {
            let near: String = before.chars().rev().take(300).collect();
            panic!("seed {seed}: {what}: {}{bad}", near.chars().rev().collect::<String>());
        }
    }
}

/// Results, workings, findings, simulated days and printed papers.
#[test]
fn strange_numbers_give_numbers() {
    let catalogue = Catalogue::embedded().unwrap();
    for often in [10, 50, 100] {
        for seed in 0..rounds() {
            let text = strange_text(seed, often, &catalogue);
            let read = read(&text, &catalogue);
            assert!(read.problems.is_empty(), "seed {seed}: {:?}\n{text}", read.problems);
            let design = design(&read.plan, &catalogue);
            all_numbers(&format!("{design:?}"), seed, &format!("design of {often} %"));
            for (topic, working) in design.workings().iter() {
                for figure in working.inputs.iter().map(|i| i.value).chain([working.result]) {
                    assert!(figure.value.is_finite(), "seed {seed}, {often} %: {topic:?} {working:?}");
                }
            }
            if seed % 10 == 0 {
                if let Ok(days) = endurance(&design, Span::default(), &mut Notes::unkept()) {
                    all_numbers(&format!("{days:?}"), seed, "days");
                }
                let job = Job { plan: &read.plan, catalogue: &catalogue, design: &design, beside: &[] };
                for paper in bundle(&job, &Look::default(), &Stamp::default()) {
                    let words = paper.text().split(|c: char| !c.is_alphanumeric());
                    let bad = words.filter(|w| ["NaN", "inf", "nan"].contains(w)).count();
                    assert_eq!(bad, 0, "seed {seed}: {}", paper.name);
                }
            }
        }
    }
}

/// Nothing that a plan can hold may be less than a meter or a tape could ever show, unless it is nothing at all.
#[test]
fn no_quantity_is_smaller_than_what_can_be_measured() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut tried = 0;
    for &section in Section::ALL {
        for field in fields_of(section) {
            let Kind::Number { min, max, whole: false, .. } = field.kind else { continue };
            for tiny in [5e-324, 1e-310, f64::MIN_POSITIVE, 1e-300, 1e-30, 1e-12] {
                for value in [tiny, -tiny] {
                    match field.accept(Value::Number(value), &catalogue) {
                        Ok(Value::Number(taken)) => assert!(taken == 0.0, "{}: {value:e} gives {taken:e}", field.key),
                        other => assert!(min >= 0.0 && other.is_err(), "{}: {value:e} gives {other:?}", field.key),
                    }
                    tried += 1;
                }
            }
            for bound in [min, max] {
                assert_eq!(field.accept(Value::Number(bound), &catalogue), Ok(Value::Number(bound)), "{}", field.key);
            }
        }
    }
    assert!(tried > 500, "{tried} values tried");
}
