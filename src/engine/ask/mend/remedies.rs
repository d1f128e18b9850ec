//! Which remedies of a design's findings really mend? Each is tried by a whole design before it is told.

use super::allowed::is_kept;
use super::exclude::excluded;
use super::propose::{all, larger, runs_of};
use super::trial::{Trials, Verdict};
use crate::catalogue::Catalogue;
use crate::engine::design::Design;
use crate::engine::judge::finding::{Finding, Severity};
use crate::engine::judge::remedy::{Edit, Remedy};
use crate::plan::Plan;

/// As many designs of a usual plan are made for the remedies of one plan; of larger plans fewer.
const MOST: usize = 300;
/// Of the way to a finding so many runs are tried, the far end first;
const WAY: usize = 5;
/// for each so many sizes above the first.
const STEPS_UP: usize = 6;
/// So many remedies with an edit are told of a finding.
const TOLD: usize = 4;
/// So many edits are tried together at most.
const TOGETHER: usize = 3;
/// So many edits are tried against each of what an edit left or brought,
const NEXT: usize = 6;
/// and so many sets of edits in all.
const TRIED_TOGETHER: usize = 40;

/// The findings of a design with the remedies that were tried: each edit, put into the plan, takes its finding away
/// or makes it milder and brings no stop and no caution; where a stop has no such edit, one that brings no more than a
/// caution is told with it. What mends nothing is left out. Where nothing mends, the demands that exclude each
/// other are named. `go_on` may end it: what is left then is told in words alone.
pub fn remedies(plan: &Plan, catalogue: &Catalogue, design: &Design, go_on: &dyn Fn() -> bool) -> Vec<Finding> {
    let trials = Trials::new(plan, catalogue, design, MOST, go_on);
    // What judge proposes comes first, so that where not all can be tried each finding has its turn.
    for finding in &design.findings {
        for remedy in &finding.remedies {
            let _ = trials.verdict(finding, &remedy.edits);
        }
    }
    design.findings.iter().map(|finding| tried(&trials, finding)).collect()
}

/// The same of one finding.
pub fn remedies_of(
    plan: &Plan,
    catalogue: &Catalogue,
    design: &Design,
    finding: &Finding,
    go_on: &dyn Fn() -> bool,
) -> Finding {
    tried(&Trials::new(plan, catalogue, design, MOST, go_on), finding)
}

fn tried(trials: &Trials, finding: &Finding) -> Finding {
    let search = Search { trials, finding };
    let (proposed, words): (Vec<Remedy>, Vec<Remedy>) =
        finding.remedies.iter().cloned().partition(|r| !r.edits.is_empty());
    let mut found = search.that(&proposed, Verdict::Mends);
    found = found.into_iter().map(|r| search.no_larger_than_needed(r)).collect();
    // A note is no reason to search.
    if found.is_empty() && finding.severity < Severity::Note && !trials.is_spent() {
        let all = all(trials.plan, trials.before, finding);
        found = search.that(&all, Verdict::Mends);
        if found.is_empty() {
            found = search.sizes();
        }
        if found.is_empty() && (finding.severity == Severity::Stop || !proposed.is_empty()) {
            found = search.together(&all);
        }
        if found.is_empty() {
            found = search.that(&all, Verdict::MendsWithCaution);
        }
    }
    let mended = !found.is_empty();
    let mut excludes = finding.excludes.clone();
    found.truncate(TOLD);
    found.extend(words);
    let unknown = !mended && finding.severity == Severity::Stop && excludes.is_none() && !trials.is_spent();
    if let Some(e) = unknown.then(|| excluded(trials, finding)).flatten() {
        found.push(Remedy::words(e.says()));
        excludes = e.two();
    }
    if let Some(first) = found.first_mut() {
        first.words = first.words.trim_start_matches("or ").to_string();
    }
    if found.is_empty() {
        found.push(Remedy::words(if trials.is_spent() {
            "not all that might mend this was tried: mend what is named above, then look again"
        } else {
            "no change of a few fields was found that mends this without other harm"
        }));
    }
    Finding { remedies: found, excludes, ..finding.clone() }
}

struct Search<'t, 'a> {
    trials: &'t Trials<'a>,
    finding: &'t Finding,
}

impl Search<'_, '_> {
    /// Those that mend, with what else they change; each edit once.
    fn that(&self, remedies: &[Remedy], verdict: Verdict) -> Vec<Remedy> {
        let mut out: Vec<Remedy> = Vec::new();
        for remedy in remedies {
            if self.trials.verdict(self.finding, &remedy.edits) <= verdict
                && !out.iter().any(|r| r.edits == remedy.edits)
            {
                out.push(self.told(remedy));
            }
        }
        out
    }

    fn told(&self, remedy: &Remedy) -> Remedy {
        let outcome = self.trials.of(&remedy.edits);
        let mut changes = outcome.as_ref().map(|o| o.changes.clone()).unwrap_or_default();
        if self.trials.verdict(self.finding, &remedy.edits) == Verdict::MendsWithCaution {
            changes.push("a caution comes instead".into());
        }
        Remedy { changes, ..remedy.clone() }
    }

    fn mends(&self, remedy: &Remedy) -> bool {
        self.trials.verdict(self.finding, &remedy.edits) == Verdict::Mends
    }

    /// A size that mends may be larger than is needed: the thinnest that mends takes its place.
    fn no_larger_than_needed(&self, remedy: Remedy) -> Remedy {
        let [Edit { place, value: Some(_) }] = &remedy.edits[..] else { return remedy };
        if !matches!(place.key, "size" | "lead_size") {
            return remedy;
        }
        for run in runs_of(self.trials.before, self.finding) {
            let (sizes, _) = larger(self.trials.before, run);
            let Some(at) = sizes.iter().position(|s| s.edits == remedy.edits) else { continue };
            let thinner = sizes[..at].iter().rev().take_while(|s| self.mends(s)).last();
            return thinner.map_or(remedy, |s| self.told(s));
        }
        remedy
    }

    /// For each run on the way the thinnest size that mends.
    fn sizes(&self) -> Vec<Remedy> {
        let mut out = Vec::new();
        for run in runs_of(self.trials.before, self.finding).into_iter().take(WAY) {
            let (sizes, begin) = larger(self.trials.before, run);
            let up = sizes[begin..].iter().take(STEPS_UP).position(|s| self.mends(s)).map(|n| n + begin);
            let Some(at) = up else { continue };
            let thinner = sizes[..at].iter().rev().take_while(|s| self.mends(s)).last();
            out.push(self.told(thinner.unwrap_or(&sizes[at])));
        }
        out
    }

    /// Some edits together, where what the first leaves or brings has remedies of its own. The set that leaves least open
    /// goes on first, and of those the shortest: so neither its many beginnings nor one of them take all the tries.
    fn together(&self, remedies: &[Remedy]) -> Vec<Remedy> {
        let open = |r: &Remedy| self.open(&r.edits).map(|open| open.len());
        let may = |r: &&Remedy| r.edits.iter().all(|e| !is_kept(self.trials.plan, e.place));
        let begin = |r: &Remedy| Some((open(r)?, 1, r.clone()));
        let mut waiting: Vec<(usize, usize, Remedy)> = remedies.iter().filter(may).filter_map(begin).collect();
        let mut left = TRIED_TOGETHER;
        // Those that came first are the likelier ones.
        while let Some(least) = (0..waiting.len()).min_by_key(|n| (waiting[*n].0, waiting[*n].1, *n)) {
            let (_, depth, first) = waiting.remove(least);
            for more in self.next(&first.edits) {
                if left == 0 {
                    return Vec::new();
                }
                left -= 1;
                let edits = [&first.edits[..], &more.edits[..]].concat();
                let words = format!("{}; and {}", first.words, more.words.trim_start_matches("or "));
                let both = Remedy { edits, ..Remedy::words(words) };
                if self.mends(&both) {
                    return vec![self.told(&both)];
                }
                if depth + 1 < TOGETHER {
                    waiting.extend(open(&both).map(|n| (n, depth + 1, both)));
                }
            }
        }
        Vec::new()
    }

    /// What still speaks against some edits: the finding itself where it stays, and what they bring.
    fn open(&self, edits: &[Edit]) -> Option<Vec<Finding>> {
        let after = self.trials.of(edits)?;
        let own = self.finding;
        let stays = |f: &&Finding| (f.kind, &f.subject, f.severity) == (own.kind, &own.subject, own.severity);
        let stays = after.findings.iter().filter(stays).filter(|f| !after.new.contains(f));
        Some(stays.chain(&after.new).cloned().collect())
    }

    /// What may be tried beside some edits against what they left or brought, of other fields.
    fn next(&self, edits: &[Edit]) -> Vec<Remedy> {
        let Some((plan, open)) = self.trials.plan_with(edits).zip(self.open(edits)) else { return Vec::new() };
        let Some(state) = self.trials.design_with(edits) else { return Vec::new() };
        let other = |r: &Remedy| r.edits.iter().all(|e| edits.iter().all(|f| f.place != e.place));
        let of = |f: &Finding| all(&plan, &state, f).into_iter().filter(other).take(NEXT).collect::<Vec<_>>();
        open.iter().take(2).flat_map(of).collect()
    }
}
