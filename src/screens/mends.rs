//! What mends the plan on the screens: tried by a worker while its finding is in hand, dropped when the plan moves on.

use super::clash::Trial;
use super::events::Event;
use super::state::State;
use super::tried::{Tried, What};
use crate::catalogue::Catalogue;
use crate::engine::ask::mend::fewest::mend;
use crate::engine::ask::mend::remedies::remedies_of;
use crate::engine::ask::rivals::cross::{Rivals, rivals};
use crate::engine::ask::rivals::variant::Variant;
use crate::engine::{Design, Finding, Severity};
use crate::plan::Plan;
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::mpsc::Sender;

/// What is known of the plan now.
#[derive(Debug, Default)]
pub struct Mends {
    of: Option<Rc<State>>,
    tried: Vec<(usize, Finding)>,
    wanted: Option<usize>,
    ticket: u64,
    stop: Arc<AtomicBool>,
    /// The rivals that were found last,
    pub compared: Option<Rivals>,
    /// and which of them are pinned, by their place.
    pub pinned: Vec<usize>,
    /// The plan that they are rivals of.
    compared_with: Option<Rc<State>>,
}

/// What a worker takes along: a state cannot leave its thread.
struct Job {
    plan: Plan,
    catalogue: Catalogue,
    design: Design,
}

impl Job {
    fn of(state: &State) -> Job {
        Job { plan: state.plan.clone(), catalogue: (*state.catalogue).clone(), design: state.design.clone() }
    }
}

impl Mends {
    /// The finding in hand with its tried remedies; `None` while they are being tried.
    pub fn of(&self, state: &State, finding: usize) -> Option<&Finding> {
        let same = self.of.as_ref().is_some_and(|of| std::ptr::eq(&raw const **of, state));
        self.tried.iter().filter(|_| same).find(|(n, _)| *n == finding).map(|(_, f)| f)
    }

    /// Try what mends this finding, unless that is done or under way.
    pub fn settle(&mut self, state: &Rc<State>, finding: usize, listener: Option<&Sender<Event>>) {
        if !self.of.as_ref().is_some_and(|of| Rc::ptr_eq(of, state)) {
            self.forget();
            self.of = Some(Rc::clone(state));
        }
        let known = self.wanted == Some(finding) || self.tried.iter().any(|(n, _)| *n == finding);
        let Some(own) = state.design.findings.get(finding).filter(|_| !known) else { return };
        let Some(sender) = listener.cloned() else {
            let found = remedies_of(&state.plan, &state.catalogue, &state.design, own, &|| true);
            return self.tried.push((finding, found));
        };
        self.renew();
        self.wanted = Some(finding);
        let (job, own, ticket, stop) = (Job::of(state), own.clone(), self.ticket, Arc::clone(&self.stop));
        std::thread::spawn(move || {
            let go_on = || !stop.load(Ordering::Relaxed);
            let found = remedies_of(&job.plan, &job.catalogue, &job.design, &own, &go_on);
            if go_on() {
                let what = What::Remedies(finding, Box::new(found));
                // Nobody listens any more: the program ends.
                let _ = sender.send(Event::Tried(Tried { ticket, what }));
            }
        });
    }

    /// Look for the fewest edits: `None` when a worker will tell.
    pub fn mend(&mut self, state: &Rc<State>, listener: Option<&Sender<Event>>) -> Option<What> {
        self.work(Job::of(state), listener, |job, go_on| {
            What::Mended(Box::new(mend(&job.plan, &job.catalogue, &job.design, Severity::Stop, go_on)))
        })
    }

    /// Look for what else would do: `None` when a worker will tell.
    pub fn compare(&mut self, state: &Rc<State>, listener: Option<&Sender<Event>>) -> Option<What> {
        (self.compared, self.pinned) = (None, Vec::new());
        self.compared_with = Some(Rc::clone(state));
        self.work(Job::of(state), listener, |job, go_on| {
            What::Compared(Box::new(rivals(&job.plan, &job.catalogue, &job.design, go_on)))
        })
    }

    /// The pinned ones with their numbers, as long as the plan is the one that they were compared with.
    pub fn pinned_of(&self, state: &Rc<State>) -> Vec<(usize, &Variant)> {
        let same = self.compared_with.as_ref().is_some_and(|with| Rc::ptr_eq(with, state));
        let found = self.compared.iter().filter(|_| same).flat_map(|found| &found.designs).collect::<Vec<_>>();
        self.pinned.iter().filter_map(|n| Some((n + 1, *found.get(*n)?))).collect()
    }

    /// Look whether answers go together: `None` when a worker will tell.
    pub fn check(&mut self, trial: Trial, catalogue: &Catalogue, listener: Option<&Sender<Event>>) -> Option<What> {
        let job = (trial, catalogue.clone());
        self.work(job, listener, |(trial, catalogue), go_on| What::Checked(Box::new(trial.check(catalogue, go_on))))
    }

    /// Look for other answers of a new plan: `None` when a worker will tell.
    pub fn ways(&mut self, trial: Trial, catalogue: &Catalogue, listener: Option<&Sender<Event>>) -> Option<What> {
        let job = (trial, catalogue.clone());
        self.work(job, listener, |(trial, catalogue), go_on| What::Ways(trial.ways(catalogue, go_on)))
    }

    fn work<J: Send + 'static>(
        &mut self,
        job: J,
        listener: Option<&Sender<Event>>,
        ask: fn(&J, &dyn Fn() -> bool) -> What,
    ) -> Option<What> {
        self.renew();
        let Some(sender) = listener.cloned() else { return Some(ask(&job, &|| true)) };
        let (ticket, stop) = (self.ticket, Arc::clone(&self.stop));
        std::thread::spawn(move || {
            let made = AtomicUsize::new(0);
            let go_on = || {
                let n = made.fetch_add(1, Ordering::Relaxed) + 1;
                let heard =
                    !n.is_multiple_of(10) || sender.send(Event::Tried(Tried { ticket, what: What::Trying(n) })).is_ok();
                heard && !stop.load(Ordering::Relaxed)
            };
            let what = ask(&job, &go_on);
            if !stop.load(Ordering::Relaxed) {
                // Nobody listens any more: the program ends.
                let _ = sender.send(Event::Tried(Tried { ticket, what }));
            }
        });
        None
    }

    /// Take news, unless they are of an earlier plan; gives back what the list of edits is to show.
    pub fn hear(&mut self, news: Tried) -> Option<What> {
        if news.ticket != self.ticket {
            return None;
        }
        match news.what {
            What::Remedies(n, finding) => {
                self.wanted = None;
                self.tried.push((n, *finding));
                None
            }
            what => Some(what),
        }
    }

    /// What was tried holds no more.
    fn forget(&mut self) {
        self.renew();
        self.tried.clear();
        self.of = None;
    }

    /// A worker at an earlier question stops.
    pub fn renew(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        self.stop = Arc::default();
        self.ticket += 1;
        self.wanted = None;
    }
}
