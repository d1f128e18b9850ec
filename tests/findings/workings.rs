//! Does a working name the sources of the very values that count in it?

use crate::case::plan_of;
use crate::sources::{CATALOGUE, PROFILES};
use crate::tagged::names_in;
use loomwright::engine::{Topic, Working, design};
use loomwright::plan::examples;
use std::collections::{BTreeMap, BTreeSet};

/// What a working may cite that changes nothing here: how charging falls off, where it is not followed so far.
const FALLS_OFF: [&str; 2] = [".charge.bulk_to", ".charge.tail_c"];

/// What a working cites counts too: with another value some number of its kind is another one.
#[test]
fn workings_cite_what_counts() {
    let (mut proven, mut idle) = (BTreeSet::new(), BTreeSet::new());
    for example in examples() {
        let plan = plan_of(example.text, &CATALOGUE);
        let answer = design(&plan, &CATALOGUE);
        let mut citing: BTreeMap<&str, Vec<(&Topic, &Working)>> = BTreeMap::new();
        for (topic, working) in answer.workings().iter() {
            for name in names_in(&working.source) {
                citing.entry(name).or_default().push((topic, working));
            }
        }
        for (name, mut left) in citing {
            left.retain(|(topic, _)| !proven.contains(&(topic.number.to_string(), name.to_string())));
            for times in [0.95, 1.05, 1.2, 0.5, 1.5, 0.2, 3.0] {
                if left.is_empty() {
                    break;
                }
                let Some(other) = PROFILES.with(&[name], times) else { continue };
                let answer = design(&plan, &other);
                let same = |(topic, working): &(&Topic, &Working)| {
                    answer
                        .workings()
                        .get(&topic.subject, &topic.number)
                        .is_some_and(|now| numbers(now) == numbers(working))
                };
                let (idle, counts): (Vec<_>, Vec<_>) = left.into_iter().partition(same);
                proven.extend(counts.iter().map(|(topic, _)| (topic.number.to_string(), name.to_string())));
                left = idle;
            }
            idle.extend(left.iter().map(|(topic, _)| (topic.number.to_string(), name.to_string())));
        }
    }
    let excused = |name: &str| FALLS_OFF.iter().any(|end| name.ends_with(end));
    let wrong: Vec<_> = idle.difference(&proven).filter(|(_, name)| !excused(name)).collect();
    assert!(wrong.is_empty(), "these cite what changes nothing: {wrong:#?}");
    assert!(proven.len() > 150, "only {} pairs of number and value were looked at", proven.len());
}

/// The numbers of a working: what is put in and what comes out.
fn numbers(working: &Working) -> Vec<f64> {
    working.inputs.iter().map(|i| i.value.value).chain([working.result.value]).collect()
}
