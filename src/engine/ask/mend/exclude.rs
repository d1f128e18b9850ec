//! Which two demands exclude each other? Those of which giving up either mends what nothing else does.

use super::allowed::{is_kept, is_part};
use super::propose::{larger, runs_of, unpinned};
use super::trial::Trials;
use super::words::{demand, owner};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::demand::Demand;
use crate::engine::judge::finding::Finding;
use crate::engine::judge::remedy::Edit;
use crate::plan::{Kind, Place, Section, Value, field_at};

/// Most demands that are named of one finding.
const NAMED: usize = 3;
/// To so much a number of the user's is brought down to see whether it is what excludes the rest.
const LESS: [f64; 3] = [0.5, 0.1, 0.02];

/// What excludes each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Exclusion {
    /// What stays.
    pub finding: Finding,
    /// Giving up any one of them takes it away.
    pub demands: Vec<Demand>,
}

impl Exclusion {
    /// One sentence.
    pub(super) fn says(&self) -> String {
        let words: Vec<&str> = self.demands.iter().map(|d| d.words.as_str()).collect();
        match &words[..] {
            [] => "nothing that was tried mends this".into(),
            [one] => format!("{one} and this rule exclude each other"),
            [first, rest @ ..] => format!("{first} and {} exclude each other", rest.join(" or ")),
        }
    }

    /// With what stays, unless that names them itself.
    pub fn sentence(&self) -> String {
        let text = &self.finding.text;
        if self.finding.excludes.is_some() { text.clone() } else { format!("{text}: {}", self.says()) }
    }

    /// The first two, where there are two.
    pub(super) fn two(&self) -> Option<[Demand; 2]> {
        match &self.demands[..] {
            [one, other, ..] => Some([one.clone(), other.clone()]),
            _ => None,
        }
    }
}

/// The demands behind a finding that nothing mends: what is kept, and what the plan is for. `None` where none was found.
pub fn excluded(trials: &Trials, finding: &Finding) -> Option<Exclusion> {
    let known = finding.excludes.iter().flatten().cloned().collect();
    let mut out = Exclusion { finding: finding.clone(), demands: known };
    if !out.demands.is_empty() {
        return Some(out);
    }
    let site = &trials.before.installation;
    let mut found: Vec<(bool, Edit)> = Vec::new();
    for edit in given_up(trials, finding).into_iter().filter_map(|edits| edits.into_iter().next()) {
        let Some(after) = trials.of(std::slice::from_ref(&edit)) else { continue };
        let known = found.iter().any(|(_, e)| e.place == edit.place);
        if !known && trials.tally.lifts(site, finding, &after.tally) {
            let less = after.tally.count(finding.severity) < trials.tally.count(finding.severity);
            found.push((less, edit));
        }
    }
    // Behind a finding another may stand that only comes to light once it is gone: such a demand is named last.
    found.sort_by_key(|(less, _)| !less);
    out.demands.extend(found.into_iter().take(NAMED).map(|(_, edit)| {
        let place = edit.place;
        let kept = if is_kept(trials.plan, place) && is_part(place) { " (kept)" } else { "" };
        Demand::new(format!("{}{kept}", demand(site, trials.plan, place))).by(place, edit.value)
    }));
    (!out.demands.is_empty()).then_some(out)
}

/// Each demand with what giving it up would be, what is kept first.
fn given_up(trials: &Trials, finding: &Finding) -> Vec<Vec<Edit>> {
    let (plan, design) = (trials.plan, trials.before);
    let site = &design.installation;
    let runs = runs_of(design, finding);
    let mut out: Vec<Vec<Edit>> = Vec::new();
    let fixed = |e: &Edit| is_kept(plan, e.place) || !is_part(e.place);
    let proposed = finding.remedies.iter().cloned().chain(unpinned(plan, design, finding));
    out.extend(proposed.map(|r| r.edits).filter(|edits| edits.iter().any(fixed)));
    for &run in &runs {
        let (sizes, begin) = larger(design, run);
        let kept = sizes.get(begin).and_then(|s| s.edits.first()).is_some_and(|e| is_kept(plan, e.place));
        if kept {
            out.extend(sizes.into_iter().skip(begin).map(|s| s.edits));
        }
    }
    let mut place = |place: Place, shares: &[f64]| out.extend(shares.iter().filter_map(|s| smaller(trials, place, *s)));
    for run in &runs {
        if let Some(at) = site.place_of(Place::run(*run, "length_m")) {
            place(at, &LESS);
        }
    }
    match &finding.subject {
        Subject::Load(load) => {
            place(Place::load(*load, "power_w"), &LESS);
            place(Place::load(*load, "current_a"), &LESS);
        }
        Subject::ServiceBattery | Subject::CutOff | Subject::Plan | Subject::Budget => {
            place(Place::of(Section::ServiceBattery, "days_without_charge"), &LESS);
            place(Place::of(Section::CutOff, "reserve"), &LESS);
        }
        _ => {}
    }
    // The largest of the loads behind the run in question, or of all.
    let whole = runs.is_empty();
    let beyond =
        runs.first().and_then(|run| site.circuits.index_of(*run)).map(|b| site.circuits.beyond(b)).unwrap_or_default();
    let fed = |at: &str| whole || site.branch_to(at).is_some_and(|b| beyond.contains(&b));
    let mut behind: Vec<_> = site.loads.iter().enumerate().filter(|(_, l)| fed(&l.at)).collect();
    behind.sort_by(|a, b| b.1.power.get().total_cmp(&a.1.power.get()));
    for (n, _) in behind.into_iter().take(NAMED) {
        place(Place::load(n, "power_w"), &LESS);
        place(Place::load(n, "current_a"), &LESS);
    }
    out.sort_by_key(|edits| !edits.iter().any(|e| is_kept(plan, e.place) && is_part(e.place)));
    out
}

/// A number of the plan made smaller.
fn smaller(trials: &Trials, place: Place, share: f64) -> Option<Vec<Edit>> {
    let field = field_at(place)?;
    let Value::Number(now) = field.get(trials.plan, place.index)? else { return None };
    let Kind::Number { min, max, .. } = field.kind else { return None };
    let number = now * share;
    (number < now && (min..=max).contains(&number))
        .then(|| vec![Edit { place, value: Some(Value::Number(number)) }])
        .filter(|_| !owner(&trials.before.installation, place).is_empty())
}
