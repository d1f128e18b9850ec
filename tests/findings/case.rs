//! A plan nothing is wrong with, and small changes of it.

use crate::sources::walk;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{
    Design, Edit, Endurance, Finding, FindingKind, Notes, Severity, Span, Subject, design, endurance,
    endurance_findings,
};
use loomwright::plan::{Plan, field_at, read};
use toml::{Table, Value};

/// The runs of a plan that has a point `front` on the starter battery beside its `panel`.
pub const FRONT: &str = r#"run = [
    { from = "starter battery", to = "charger", length_m = 2 },
    { from = "service battery", to = "charger", length_m = 0.5 },
    { from = "service battery", to = "cut-off", length_m = 0.5 },
    { from = "cut-off", to = "panel", length_m = 1.5 },
    { from = "starter battery", to = "front", length_m = 1.5 },
]"#;

/// One kind, with changes to the sound plan (TOML, merged into it; `left out` takes a key away) that
/// raise it, and others that do not.
pub struct Case {
    pub kind: FindingKind,
    pub raises: &'static str,
    pub quiet: &'static str,
}

/// Nothing is wrong with this one.
const SOUND: &str = include_str!("sound.toml");

fn merged(changes: &str) -> Table {
    fn merge(into: &mut Table, from: Table) {
        for (key, value) in from {
            match (into.get_mut(&key), value) {
                (Some(Value::Table(inner)), Value::Table(more)) => merge(inner, more),
                (_, Value::String(word)) if word == "left out" => drop(into.remove(&key)),
                (_, value) => drop(into.insert(key, value)),
            }
        }
    }
    let mut table: Table = SOUND.parse().unwrap();
    merge(&mut table, changes.parse().unwrap_or_else(|e| panic!("{e}: {changes}")));
    table
}

pub fn plan_with(changes: &str, catalogue: &Catalogue) -> Plan {
    plan_of(&text_with(changes), catalogue)
}

/// The file of the changed plan.
pub fn text_with(changes: &str) -> String {
    merged(changes).to_string()
}

pub fn plan_of(text: &str, catalogue: &Catalogue) -> Plan {
    let read = read(text, catalogue);
    assert!(read.problems.is_empty(), "{:?}\n{text}", read.problems);
    read.plan
}

/// Findings of one kind of the changed plan.
pub fn found_with(changes: &str, kind: FindingKind) -> Vec<Finding> {
    found(changes, kind, &Catalogue::embedded().unwrap())
}

fn found(changes: &str, kind: FindingKind, catalogue: &Catalogue) -> Vec<Finding> {
    walk(&text_with(changes));
    let plan = plan_with(changes, catalogue);
    design(&plan, catalogue).findings.into_iter().filter(|f| f.kind == kind).collect()
}

/// Run the cases; each finding must be complete, and each edit it offers must be one that the plan takes.
pub fn run(cases: &[Case]) {
    let catalogue = Catalogue::embedded().unwrap();
    for case in cases {
        differ(case.kind, case.raises, case.quiet, &catalogue);
    }
}

/// One case whose plans are put together by a test.
pub fn tell_apart(kind: FindingKind, raises: &str, quiet: &str) {
    differ(kind, raises, quiet, &Catalogue::embedded().unwrap());
}

fn differ(kind: FindingKind, raises: &str, quiet: &str, catalogue: &Catalogue) {
    let raised = found(raises, kind, catalogue);
    assert!(!raised.is_empty(), "{kind:?} is not raised by: {raises}");
    for finding in raised {
        complete(&finding, catalogue);
    }
    let found = found(quiet, kind, catalogue);
    assert!(found.is_empty(), "{kind:?} is raised by: {quiet}\n{found:#?}");
}

fn complete(finding: &Finding, catalogue: &Catalogue) {
    assert!(!finding.text.ends_with('.') && !finding.text.contains("NaN"), "{finding:?}");
    assert!(!finding.rule.is_empty(), "{finding:?} has no rule");
    assert!(finding.remedies.first().is_some_and(|r| !r.words.is_empty()), "{finding:?} has no remedy");
    let place = finding.place.unwrap_or_else(|| panic!("{finding:?} has no place"));
    assert!(field_at(place).is_some(), "{finding:?}: {place:?} is no field");
    for Edit { place, value } in finding.remedies.iter().flat_map(|r| &r.edits) {
        let field = field_at(*place).unwrap_or_else(|| panic!("{finding:?}: {place:?} is no field"));
        if let Some(value) = value {
            field.accept(value.clone(), catalogue).unwrap_or_else(|e| panic!("{finding:?}: {e:?}"));
        }
    }
}

/// The sound plan raises nothing but notes, its cables and fuses apart, which have plans of their own.
#[test]
fn nothing_is_wrong_with_the_sound_plan() {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = plan_with("", &catalogue);
    let design = design(&plan, &catalogue);
    let sound = |f: &&Finding| f.severity != Severity::Note && !matches!(f.subject, Subject::Run(_));
    let wrong: Vec<_> = design.findings.iter().filter(sound).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// How grave a kind is with these changes.
pub fn severities(changes: &str, kind: FindingKind) -> Vec<Severity> {
    found(changes, kind, &Catalogue::embedded().unwrap()).iter().map(|f| f.severity).collect()
}

/// The changed plan's design.
pub fn design_of(changes: &str) -> Design {
    let catalogue = Catalogue::embedded().unwrap();
    design(&plan_with(changes, &catalogue), &catalogue)
}

/// Days of use of the changed plan.
pub fn days_of(changes: &str, span: Span) -> Endurance {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = plan_with(changes, &catalogue);
    endurance(&design(&plan, &catalogue), span, &mut Notes::unkept()).unwrap()
}

/// Findings of days of use.
pub fn found_in_days(changes: &str, span: Span, kind: FindingKind) -> Vec<Finding> {
    let catalogue = Catalogue::embedded().unwrap();
    let plan = plan_with(changes, &catalogue);
    let design = design(&plan, &catalogue);
    let days = endurance(&design, span, &mut Notes::unkept()).unwrap();
    let found: Vec<_> = endurance_findings(&design, &days).into_iter().filter(|f| f.kind == kind).collect();
    found.iter().for_each(|f| complete(f, &catalogue));
    found
}
