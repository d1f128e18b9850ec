//! With how few edits is nothing left that must not be built?
//!
//! All that might mend any finding is tried alone first. The edit after which
//! least is left is taken, then those that helped alone, then all is tried
//! again on what is left. At the end each edit that is not needed is taken
//! back. So a plan with some independent mistakes is mended by one edit each.

use super::allowed::{is_kept, is_part};
use super::exclude::{Exclusion, excluded};
use super::propose::stages;
use super::tally::Tally;
use super::trial::Trials;
use super::words;
use crate::catalogue::Catalogue;
use crate::engine::design::{Design, design_after};
use crate::engine::judge::finding::{Finding, Severity};
use crate::engine::judge::remedy::{Edit, Remedy};
use crate::plan::{Absent, Plan, field_at};

/// Most designs that are made for one plan.
const MOST: usize = 2000;
/// Of so many findings the remedies are tried at a time.
const AT_A_TIME: usize = 12;
/// Most edits that are offered.
const EDITS: usize = 40;

/// How a plan is mended.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Mend {
    /// The edits, each in words.
    pub steps: Vec<Step>,
    /// What else changes by all of them.
    pub changes: Vec<String>,
    /// What no edit takes away, with the demands that exclude each other where they were found.
    pub left: Vec<Exclusion>,
}

/// One edit of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is put where.
    pub edit: Edit,
    /// In words: `R7 rear, size: 35 mm² instead of 2.5 mm²`.
    pub words: String,
}

/// The fewest edits that were found, after which nothing so bad is left; of those the ones with the least copper and
/// battery. Nothing that is kept is changed, and nothing that says what the plan is for. `go_on` may end it.
pub fn mend(plan: &Plan, catalogue: &Catalogue, before: &Design, down_to: Severity, go_on: &dyn Fn() -> bool) -> Mend {
    let trials = Trials::new(plan, catalogue, before, MOST, go_on);
    let search = Fewest { trials: &trials, down_to };
    let edits = search.fewest();
    let site = &before.installation;
    let says = |edit: &Edit| words::edit(site, plan, edit);
    let steps = edits.iter().map(|e| Step { edit: e.clone(), words: says(e) }).collect();
    let (findings, changes) = match trials.of(&edits) {
        Some(after) if !edits.is_empty() => (after.findings.clone(), after.changes.clone()),
        _ => (before.findings.clone(), Vec::new()),
    };
    let left = search.left(&edits, findings);
    Mend { steps, changes, left }
}

struct Fewest<'t, 'a> {
    trials: &'t Trials<'a>,
    down_to: Severity,
}

/// How much is left after some edits: findings that count, a stop as [`MANY`]; cautions; kilograms. Less is better.
type Score = (usize, usize, f64);

/// No number of cautions is worth a stop: what is cut off by one hides those that come when it is mended.
const MANY: usize = 10_000;

impl Fewest<'_, '_> {
    fn score(&self, edits: &[Edit]) -> Option<Score> {
        if edits.is_empty() {
            let tally = &self.trials.tally;
            return Some((self.counted(tally), tally.count(Severity::Caution), 0.0));
        }
        let after = self.trials.of(edits)?;
        Some((self.counted(&after.tally), after.tally.count(Severity::Caution), after.mass))
    }

    fn counted(&self, tally: &Tally) -> usize {
        let stops = tally.count(Severity::Stop);
        stops * MANY + (tally.count(self.down_to) - stops)
    }

    /// A value that fitted what was wrong beside it may stand in the way later: so what was put is left to the
    /// program too, and the better of both counts.
    fn fewest(&self) -> Vec<Edit> {
        let first = self.without_needless(self.edits(Vec::new()));
        if first.len() < 2 && self.score(&first).is_none_or(|s| s.0 == 0) {
            return first;
        }
        let free = |e: &Edit| {
            let may = field_at(e.place).is_some_and(|f| f.absent == Absent::Chosen);
            Edit { value: e.value.clone().filter(|_| !may), ..*e }
        };
        let second: Vec<Edit> = first.iter().map(free).collect();
        let second = self.without_needless(if second == first { second } else { self.edits(second) });
        let how = |edits: &[Edit]| self.score(edits).map_or((usize::MAX, 0), |s| (s.0, edits.len()));
        if how(&second) < how(&first) { second } else { first }
    }

    fn edits(&self, mut edits: Vec<Edit>) -> Vec<Edit> {
        while edits.len() < EDITS {
            let Some(score) = self.score(&edits).filter(|s| s.0 > 0) else { break };
            let mut helped = self.steps(&edits, score).into_iter();
            let Some((_, more)) = helped.next() else { break };
            edits = with(&edits, &more);
            // What helped alone most often helps beside it too.
            for (alone, more) in helped {
                let Some(now) = self.score(&edits).filter(|s| s.0 > 0) else { break };
                let free = more.iter().all(|m| edits.iter().all(|e| e.place != m.place));
                let both = [&edits[..], &more[..]].concat();
                let gain = score.0.saturating_sub(alone.0);
                if free && self.score(&both).is_some_and(|s| s.0 + gain <= now.0) {
                    edits = both;
                }
            }
        }
        edits
    }

    /// What helps after these edits, best first; two edits together only where no single one helps.
    fn steps(&self, edits: &[Edit], now: Score) -> Vec<(Score, Vec<Edit>)> {
        let Some(plan) = self.trials.plan_with(edits) else { return Vec::new() };
        let own;
        let state = if edits.is_empty() {
            self.trials.before
        } else {
            own = design_after(self.trials.before, &plan, self.trials.catalogue);
            &own
        };
        let may = |r: &Remedy| {
            let fine = |e: &Edit| is_part(e.place) && !is_kept(self.trials.plan, e.place);
            !r.edits.is_empty() && r.edits.iter().all(fine)
        };
        let mut helps: Vec<(Score, Vec<Edit>)> = Vec::new();
        let add = |helps: &mut Vec<(Score, Vec<Edit>)>, more: Vec<Edit>| {
            if helps.iter().all(|(_, known)| *known != more) {
                helps.extend(self.score(&with(edits, &more)).filter(|s| s.0 < now.0).map(|s| (s, more)));
            }
        };
        let mut tried: Vec<Remedy> = Vec::new();
        let bad = state.findings.iter().filter(|f| f.severity <= self.down_to);
        for finding in bad.take(AT_A_TIME) {
            // What is less likely is tried only where nothing likelier helps, or several edits of it do: one may do it too.
            for stage in stages(&plan, state, finding) {
                let stage: Vec<Remedy> = stage.into_iter().filter(may).collect();
                stage.iter().for_each(|r| add(&mut helps, r.edits.clone()));
                let mut alone = stage.iter().filter(|r| r.edits.len() == 1);
                let helped = alone.any(|r| helps.iter().any(|(_, known)| *known == r.edits));
                tried.extend(stage);
                if helped {
                    break;
                }
            }
        }
        if helps.is_empty() {
            for first in &tried {
                let Some(after) = self.trials.of(&with(edits, &first.edits)) else { continue };
                let bad = after.findings.iter().filter(|f| f.severity <= self.down_to);
                let brought = bad.take(3).flat_map(|f| f.remedies.iter().filter(|r| may(r)).take(3));
                for second in brought.filter(|r| r.edits.iter().all(|e| first.edits.iter().all(|f| f.place != e.place)))
                {
                    add(&mut helps, [&first.edits[..], &second.edits[..]].concat());
                }
            }
        }
        helps.sort_by(|a, b| (a.0.0, a.1.len(), a.0.1).cmp(&(b.0.0, b.1.len(), b.0.1)).then(a.0.2.total_cmp(&b.0.2)));
        helps
    }

    /// Without the edits that later ones have made needless.
    fn without_needless(&self, mut edits: Vec<Edit>) -> Vec<Edit> {
        let Some(end) = self.score(&edits).map(|s| s.0) else { return edits };
        let mut at = 0;
        while edits.len() > 1 && at < edits.len() {
            let mut fewer = edits.clone();
            fewer.remove(at);
            if self.score(&fewer).is_some_and(|s| s.0 <= end) {
                edits = fewer;
            } else {
                at += 1;
            }
        }
        edits
    }

    /// What is left after the edits, each with the demands behind it.
    fn left(&self, edits: &[Edit], findings: Vec<Finding>) -> Vec<Exclusion> {
        let bad: Vec<Finding> = findings.into_iter().filter(|f| f.severity <= self.down_to).collect();
        let Some(plan) = self.trials.plan_with(edits).filter(|_| !bad.is_empty()) else { return Vec::new() };
        let state = design_after(self.trials.before, &plan, self.trials.catalogue);
        let trials = Trials::new(&plan, self.trials.catalogue, &state, MOST, self.trials.go_on);
        let of = |f: Finding| {
            let found = excluded(&trials, &f);
            found.unwrap_or(Exclusion { finding: f, demands: Vec::new() })
        };
        bad.into_iter().map(of).collect()
    }
}

/// These edits and more; a later one takes the place of an earlier one of the same field.
fn with(edits: &[Edit], more: &[Edit]) -> Vec<Edit> {
    let rest = edits.iter().filter(|e| more.iter().all(|m| m.place != e.place));
    rest.cloned().chain(more.iter().cloned()).collect()
}
