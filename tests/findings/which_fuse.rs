//! What is said of one rating down and up is what the plan would find if that rating were given.

use crate::pinned::pinned;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{
    Design, Finding, FindingKind as Kind, Severity, Step, Subject, design, which_fuse, which_fuses,
};
use loomwright::plan::read;

const PLANS: [(&str, &str); 5] = [
    ("fridge and light", include_str!("../everyday/plans/fridge-and-light.toml")),
    ("small van", include_str!("../everyday/plans/small-van.toml")),
    ("caravan on a relay", include_str!("../everyday/plans/caravan-relay.toml")),
    ("two boards, front and rear", include_str!("../everyday/plans/front-and-rear.toml")),
    ("24 leads", include_str!("../everyday/plans/many-leads.toml")),
];

/// Kinds that the wiring with another device is judged for.
fn of_wiring(kind: Kind) -> bool {
    kind.key().starts_with("fuse-") || [Kind::LetThrough, Kind::BoardRating, Kind::PlugSmall].contains(&kind)
}

/// What one design finds and another does not, or finds graver.
fn new_in<'d>(after: &'d Design, before: &Design) -> Vec<&'d Finding> {
    let known = |f: &Finding| {
        let same = |g: &&Finding| (g.kind, &g.subject) == (f.kind, &f.subject) && g.severity <= f.severity;
        before.findings.iter().any(|g| same(&g))
    };
    after.findings.iter().filter(|f| of_wiring(f.kind) && !known(f)).collect()
}

#[test]
fn a_rating_that_is_given_one_step_off_raises_what_was_said() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut steps, mut broken) = (0, std::collections::BTreeMap::new());
    for (name, text) in PLANS {
        let plan = read(text, &catalogue).plan;
        let free = design(&plan, &catalogue);
        let given = pinned(&plan, &free);
        let as_chosen = design(&given, &catalogue);
        for which in which_fuses(&free).into_iter().filter(|w| w.run < plan.runs.len()) {
            if free.runs[which.run].fuses.len() != 1 {
                continue;
            }
            for step in [&which.down, &which.up].into_iter().flatten() {
                let mut other = given.clone();
                other.runs[which.run].fuse = Some(step.rating);
                let other = design(&other, &catalogue);
                let key = |f: &Finding| (f.kind.key(), f.text.clone());
                // A device more at the far end of another run is told as that, not by what is found of it.
                let more = |run: usize| other.runs[run].fuses.len() > as_chosen.runs[run].fuses.len();
                let of_one_more = |f: &&Finding| matches!(f.subject, Subject::Run(run) if more(run));
                let all = new_in(&other, &as_chosen);
                assert!(!all.iter().any(&of_one_more) || !step.against.is_empty(), "{name}: {step:?}");
                let mut found: Vec<_> = all.into_iter().filter(|f| !of_one_more(f)).map(key).collect();
                let mut said: Vec<_> = step.broken.iter().filter(|f| of_wiring(f.kind)).map(key).collect();
                found.sort();
                said.sort();
                assert_eq!(
                    said,
                    found,
                    "{name}, R{}, {} of {:?}",
                    which.run + 1,
                    step.rating,
                    free.runs[which.run].fuses
                );
                steps += 1;
                step.broken.iter().for_each(|f| *broken.entry(f.kind.key()).or_insert(0) += 1);
            }
        }
    }
    assert!(steps > 30, "only {steps} steps tried");
    assert!(["fuse-small", "fuse-big"].iter().all(|k| broken.contains_key(k)), "{broken:?}");
}

/// Every device is told of by its limits, its style, a rating down and up, its place; a smaller one would mostly be a stop or a caution,
/// since the smallest is chosen that is neither.
#[test]
fn every_device_is_told_why() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut all, mut unbroken) = (0, Vec::new());
    for (name, text) in PLANS {
        let design = design(&read(text, &catalogue).plan, &catalogue);
        let which = which_fuses(&design);
        let fuses = design.runs.iter().flat_map(|r| &r.fuses).filter(|f| f.rating.is_some()).count();
        assert_eq!(which.iter().filter(|w| w.sentences.len() == 5).count(), fuses, "{name}");
        for w in &which {
            assert!(w.sentences.iter().all(|s| !s.contains("NaN") && !s.contains("inf ")), "{w:?}");
            assert!(which_fuse(&design, w.run).contains(w), "{name}");
            all += 1;
            let grave = |s: &Step| !s.against.is_empty() || s.broken.iter().any(|f| f.severity < Severity::Note);
            if w.down.as_ref().is_some_and(|s| !grave(s)) {
                unbroken.push(format!("{name}, R{}: {:?}", w.run + 1, w.sentences));
            }
        }
    }
    assert!(unbroken.len() * 10 < all, "{} of {all}: {unbroken:#?}", unbroken.len());
}
