//! What speaks against a plan, counted so that two plans can be compared.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::plan::Place;
use std::collections::BTreeMap;

/// Whom a finding is about, by a name that stays when an edit gives a load a lead of its own.
type Who = (Kind, Option<Place>, Subject);

/// How many findings of each kind and subject are at least as bad as a stop, a caution, a note.
#[derive(Clone, Debug, Default)]
pub struct Tally(BTreeMap<Who, [usize; 3]>);

fn who(site: &Installation, finding: &Finding) -> Who {
    let named = |run: usize| site.place_of(Place::run(run, "name"));
    match &finding.subject {
        Subject::Run(run) => (finding.kind, named(*run), Subject::Plan),
        Subject::Size(run, label) => (finding.kind, named(*run), Subject::Candidate(label.clone())),
        subject => (finding.kind, None, subject.clone()),
    }
}

impl Tally {
    /// Of these findings.
    pub fn of(site: &Installation, findings: &[Finding]) -> Tally {
        let mut out = Tally::default();
        for finding in findings {
            let counts = out.0.entry(who(site, finding)).or_default();
            counts.iter_mut().skip(finding.severity as usize).for_each(|n| *n += 1);
        }
        out
    }

    /// Whether a finding of `self` is gone or milder in another plan.
    pub fn lifts(&self, site: &Installation, finding: &Finding, after: &Tally) -> bool {
        let who = who(site, finding);
        let count = |tally: &Tally| tally.0.get(&who).map_or(0, |n| n[finding.severity as usize]);
        count(after) < count(self)
    }

    /// The worst that another plan has and this one has not; notes are no harm.
    pub fn worst_new(&self, after: &Tally) -> Option<Severity> {
        let grown = |level: usize| {
            after.0.iter().any(|(who, counts)| counts[level] > self.0.get(who).map_or(0, |before| before[level]))
        };
        [Severity::Stop, Severity::Caution].into_iter().find(|s| grown(*s as usize))
    }

    /// The stops and cautions of another plan of whose kind and subject this one has fewer so bad.
    pub fn new_of(&self, site: &Installation, findings: &[Finding], after: &Tally) -> Vec<Finding> {
        let grown = |f: &&Finding| {
            let (who, level) = (who(site, f), f.severity as usize);
            let count = |tally: &Tally| tally.0.get(&who).map_or(0, |n| n[level]);
            f.severity < Severity::Note && count(after) > count(self)
        };
        findings.iter().filter(grown).cloned().collect()
    }

    /// How many findings are at least so bad.
    pub fn count(&self, down_to: Severity) -> usize {
        self.0.values().map(|counts| counts[down_to as usize]).sum()
    }
}
