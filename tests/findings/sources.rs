//! Does a finding name the source of the very limit that it holds the plan against?
//!
//! With the profiles of [`crate::tagged`] a finding says which values it cites.
//! Two things must hold of each that a test plan or an example raises: one that
//! stops the plan cites exactly what [`LIMITS`] asks of its kind; and every value
//! that it cites counts, for with another value the finding is another one, or gone.

use crate::case::{plan_of, text_with};
use crate::cited::{LIMITS, TRAY};
use crate::kinds::unnumbered;
use crate::tagged::{Profiles, names_in};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Finding, FindingKind as Kind, Severity, design};
use loomwright::plan::{Plan, examples};
use std::collections::BTreeSet;
use std::sync::{LazyLock, Mutex};

pub static PROFILES: LazyLock<Profiles> = LazyLock::new(|| Profiles::read("opened"));
pub static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| PROFILES.catalogue());
/// Kind and value that have been proven to count.
static PROVEN: Mutex<BTreeSet<(Kind, String)>> = Mutex::new(BTreeSet::new());

/// Look at all findings of a plan, the kinds that it has.
pub fn walk(text: &str) -> Vec<(Kind, Vec<String>)> {
    let plan = plan_of(text, &CATALOGUE);
    let stops = |f: &&Finding| f.severity == Severity::Stop;
    let findings = design(&plan, &CATALOGUE).findings;
    findings.iter().for_each(|finding| cites_what_counts(&plan, finding));
    for finding in &findings {
        if let Some(why) = unnumbered(finding.kind) {
            assert!(names_in(&finding.rule).is_empty(), "has no limit of the catalogue, as {why}: {finding:#?}");
        }
    }
    findings.iter().filter(stops).for_each(cites_a_limit);
    findings.iter().filter(stops).map(|f| (f.kind, names_in(&f.rule).iter().map(|n| n.to_string()).collect())).collect()
}

/// A finding of any plan cites no other values than those of its kind's lines; fewer where the plan gives its own.
fn cites_a_limit(finding: &Finding) {
    let limits: Vec<_> = LIMITS.iter().filter(|(kind, ..)| *kind == finding.kind).flat_map(|(_, l, _)| *l).collect();
    for name in names_in(&finding.rule) {
        assert!(limits.iter().any(|end| name.ends_with(**end)), "cites {name} beside {limits:?}: {finding:#?}");
    }
}

/// Whether a finding cites exactly the values of a line.
fn matches(names: &[String], limits: &[&str]) -> bool {
    let end = |name: &&str| limits.iter().any(|end| name.ends_with(end));
    names.len() == limits.len() && names.iter().map(String::as_str).all(|name| end(&name))
}

fn cites_what_counts(plan: &Plan, finding: &Finding) {
    let names = names_in(&finding.rule);
    for name in &names {
        assert!(PROFILES.knows(name), "{finding:#?} cites {name}, which is no value of its own");
        if PROVEN.lock().unwrap().contains(&(finding.kind, name.to_string())) {
            continue;
        }
        assert!(
            counts(plan, finding, name) || counts_in_another_plan(finding.kind, name),
            "cites {name}, which changes nothing: {finding:#?}"
        );
        PROVEN.lock().unwrap().insert((finding.kind, name.to_string()));
    }
}

/// Whether another value of this name makes another finding.
fn counts(plan: &Plan, finding: &Finding, name: &str) -> bool {
    // Where two curves were measured the worse counts, so they move together.
    let group: Vec<&str> = match name.contains("resting.") {
        true => names_in(&finding.rule).into_iter().filter(|n| n.contains("resting.")).collect(),
        false => vec![name],
    };
    let same = |f: &Finding| {
        // Of a rating that is not made the ratings made are all that changes.
        let offers = finding.kind != Kind::FuseUnmade || f.remedies == finding.remedies;
        (f.kind, f.severity, &f.subject, &f.text) == (finding.kind, finding.severity, &finding.subject, &finding.text)
            && offers
    };
    [0.95, 1.05, 0.5, 1.5, 0.2, 3.0].into_iter().any(|times| {
        let other = PROFILES.with(&group, times);
        other.is_some_and(|other| !design(plan, &other).findings.iter().any(same))
    })
}

/// A value may count for a kind in the one plan and lie idle in the next: then another finding of the kind proves it,
/// whichever tests have run before.
fn counts_in_another_plan(kind: Kind, name: &str) -> bool {
    let raised = LIMITS.iter().filter(|(of, ..)| *of == kind).map(|(_, _, raises)| {
        let holder = if raises.contains("hold_down = ") { "" } else { TRAY };
        text_with(&[holder, raises].join("\n"))
    });
    raised.chain(examples().iter().map(|e| e.text.to_string())).any(|text| {
        let plan = plan_of(&text, &CATALOGUE);
        let findings = design(&plan, &CATALOGUE).findings;
        let citing = |f: &&Finding| f.kind == kind && names_in(&f.rule).contains(&name);
        findings.iter().filter(citing).any(|finding| counts(&plan, finding, name))
    })
}

#[test]
fn the_examples_cite_what_counts() {
    for example in examples() {
        walk(example.text);
    }
}

/// Every limit that can stop a plan and was not read says so on the finding: with all values remembered, each that a
/// stop cites is followed by the words for it.
#[test]
fn a_remembered_limit_says_so_on_the_finding() {
    let remembered = Profiles::read("memory").catalogue();
    let mut looked_at = 0;
    for (kind, _, raises) in LIMITS {
        let holder = if raises.contains("hold_down = ") { "" } else { TRAY };
        let plan = plan_of(&text_with(&[holder, raises].join("\n")), &remembered);
        let findings = design(&plan, &remembered).findings;
        for finding in findings.iter().filter(|f| f.kind == *kind && f.severity == Severity::Stop) {
            for name in names_in(&finding.rule) {
                let after = finding.rule.split_once(&format!("<{name}>")).unwrap().1;
                assert!(after.starts_with(" (from memory, verify)"), "{name} is remembered: {finding:#?}");
                looked_at += 1;
            }
        }
    }
    assert!(looked_at >= LIMITS.len(), "{looked_at} limits of {} lines", LIMITS.len());
}

#[test]
fn each_limit_that_stops_a_plan_is_cited() {
    for (kind, limits, raises) in LIMITS {
        let holder = if raises.contains("hold_down = ") { "" } else { TRAY };
        let found = walk(&text_with(&[holder, raises].join("\n")));
        let cited: Vec<_> = found.iter().filter(|(k, _)| k == kind).collect();
        assert!(cited.iter().any(|(_, names)| matches(names, limits)), "{kind:?}, {limits:?}: {cited:?}");
    }
}
