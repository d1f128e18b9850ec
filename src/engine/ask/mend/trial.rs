//! What follows when these fields are changed? Each set of edits is designed once.

use super::allowed::is_kept;
use super::changes::changes;
use super::tally::Tally;
use crate::catalogue::Catalogue;
use crate::engine::design::{Design, design_after};
use crate::engine::judge::finding::{Finding, Severity};
use crate::engine::judge::remedy::Edit;
use crate::plan::Plan;
use std::cell::{Cell, RefCell};
use std::rc::Rc;

/// A design costs as much as so many devices tried, and so many more for each of its runs.
const OF_A_DESIGN: usize = 1500;
/// See [`OF_A_DESIGN`].
const OF_A_RUN: usize = 300;
/// The work of a design of fifteen runs with some boards.
const USUAL: usize = 8000;

/// How much work a design was after that of the plan in hand, counted in devices tried.
fn work(design: &Design, before: &Design) -> usize {
    let days = if design.kept.took_days(&before.kept) { OF_A_DESIGN / 2 } else { OF_A_DESIGN };
    let sizes = if design.kept.took_sizes(&before.kept) { 0 } else { design.copper.tried };
    days + OF_A_RUN * design.runs.len() + sizes
}

/// What a changed plan comes to.
pub struct Outcome {
    /// Worst first, with the edits that judge proposes.
    pub findings: Vec<Finding>,
    /// Of these the stops and cautions that the plan in hand has not.
    pub new: Vec<Finding>,
    /// The same, counted.
    pub tally: Tally,
    /// What else is different from the plan in hand.
    pub changes: Vec<String>,
    /// Copper and battery, kilograms: of two changes that mend the lighter is cheaper.
    pub mass: f64,
}

/// What a set of edits does to one finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// It is gone or milder, and no stop or caution is new.
    Mends,
    /// It is gone or milder, and a caution came that is not as bad.
    MendsWithCaution,
    /// Not.
    Fails,
}

/// Edits of one plan, tried.
pub struct Trials<'a> {
    /// The plan in hand.
    pub plan: &'a Plan,
    /// What the trade knows.
    pub catalogue: &'a Catalogue,
    /// What follows from the plan in hand.
    pub before: &'a Design,
    /// What speaks against it.
    pub tally: Tally,
    known: RefCell<Vec<(Vec<Edit>, Rc<Outcome>)>>,
    left: Cell<usize>,
    pub(super) go_on: &'a dyn Fn() -> bool,
}

impl<'a> Trials<'a> {
    /// At most so much work as so many designs of a usual plan are, and none when `go_on` says no.
    pub fn new(
        plan: &'a Plan,
        catalogue: &'a Catalogue,
        before: &'a Design,
        most: usize,
        go_on: &'a dyn Fn() -> bool,
    ) -> Trials<'a> {
        let tally = Tally::of(&before.installation, &before.findings);
        Trials { plan, catalogue, before, tally, known: RefCell::default(), left: Cell::new(most * USUAL), go_on }
    }

    /// The plan with these edits; `None` where one is of no field, or of something that is kept.
    pub fn plan_with(&self, edits: &[Edit]) -> Option<Plan> {
        let put = |plan: Plan, e: &Edit| plan.with(e.place, e.value.as_ref());
        edits.iter().try_fold(self.plan.clone(), put)
    }

    /// What these edits come to; `None` where they cannot be made or no more may be tried.
    pub fn of(&self, edits: &[Edit]) -> Option<Rc<Outcome>> {
        if let Some((_, known)) = self.known.borrow().iter().find(|(e, _)| e == edits) {
            return Some(Rc::clone(known));
        }
        let after = self.design_with(edits)?;
        let tally = Tally::of(&after.installation, &after.findings);
        let outcome = Rc::new(Outcome {
            new: self.tally.new_of(&after.installation, &after.findings, &tally),
            tally,
            changes: changes(self.before, &after),
            mass: after.copper.mass.get() + after.battery.bank.as_ref().map_or(0.0, |b| b.mass.get()),
            findings: after.findings,
        });
        self.known.borrow_mut().push((edits.to_vec(), Rc::clone(&outcome)));
        Some(outcome)
    }

    /// What follows from these edits, counted as work; `None` as in [`Trials::of`].
    pub fn design_with(&self, edits: &[Edit]) -> Option<Design> {
        if self.is_spent() {
            return None;
        }
        let plan = self.plan_with(edits)?;
        let after = design_after(self.before, &plan, self.catalogue);
        self.left.set(self.left.get().saturating_sub(work(&after, self.before)));
        Some(after)
    }

    /// Whether no more may be tried.
    pub fn is_spent(&self) -> bool {
        self.left.get() == 0 || !(self.go_on)()
    }

    /// What these edits do to a finding of the plan in hand.
    pub fn verdict(&self, finding: &Finding, edits: &[Edit]) -> Verdict {
        if edits.is_empty() || edits.iter().any(|e| is_kept(self.plan, e.place)) {
            return Verdict::Fails;
        }
        let Some(after) = self.of(edits) else { return Verdict::Fails };
        if !self.tally.lifts(&self.before.installation, finding, &after.tally) {
            return Verdict::Fails;
        }
        match self.tally.worst_new(&after.tally) {
            None => Verdict::Mends,
            Some(Severity::Caution) if finding.severity == Severity::Stop => Verdict::MendsWithCaution,
            Some(_) => Verdict::Fails,
        }
    }
}
