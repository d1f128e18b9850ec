//! Simulated days and their chances: kept as long as plan and span are the same.
//!
//! A simulation takes a few milliseconds and is made when its screen is shown;
//! thousands of draws are made by a worker that reports through the event
//! channel and is dropped when the plan moves on.

use super::chances::{Chances, News};
use super::events::Event;
use super::state::State;
use crate::engine::simulate::chance::draw::Draws;
use crate::engine::{Endurance, Finding, Notes, Span, Workings, endurance, endurance_findings, uncertainty};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;
use std::time::{Duration, Instant};

/// News of a worker at most this often.
const BETWEEN_NEWS: Duration = Duration::from_millis(80);

/// Days of one state.
#[derive(Debug)]
pub struct Simulated {
    of: Rc<State>,
    span: Span,
    /// What happened, or why nothing could be simulated.
    pub result: Result<Endurance, String>,
    /// What it found.
    pub findings: Vec<Finding>,
    /// How its numbers came about.
    pub workings: Workings,
}

/// What is wanted and what is kept.
#[derive(Debug, Default)]
pub struct Days {
    /// What to simulate.
    pub span: Span,
    /// How sure it is, for the plan and span now.
    pub chances: Chances,
    kept: Vec<Simulated>,
    ticket: u64,
    stop: Arc<AtomicBool>,
}

impl Days {
    /// Simulate these states, unless that is done already. The first is the plan now.
    pub fn settle(&mut self, states: &[&Rc<State>]) {
        let span = self.span;
        let wanted = |s: &Simulated| s.span == span && states.iter().any(|state| Rc::ptr_eq(&s.of, state));
        let same =
            self.kept.first().is_some_and(|s| s.span == span && states.first().is_some_and(|n| Rc::ptr_eq(&s.of, n)));
        if !same {
            self.forget_chances();
        }
        let mut old: Vec<Simulated> = std::mem::take(&mut self.kept).into_iter().filter(wanted).collect();
        for state in states {
            let at = old.iter().position(|s| Rc::ptr_eq(&s.of, state));
            let known = at.map(|at| old.swap_remove(at));
            if !self.kept.iter().any(|s| Rc::ptr_eq(&s.of, state)) {
                self.kept.push(known.unwrap_or_else(|| simulate(state, span)));
            }
        }
    }

    /// The days of a state.
    pub fn of(&self, state: &State) -> Option<&Simulated> {
        self.kept.iter().find(|s| std::ptr::eq(&raw const *s.of, state) && s.span == self.span)
    }

    /// Draw the chances: by a worker that sends news, or at once where nobody listens.
    pub fn draw(&mut self, state: &State, count: u32, listener: Option<&Sender<Event>>) {
        self.forget_chances();
        let draws = Draws { span: Span { days: self.span.days.min(30), ..self.span }, count, ..Draws::default() };
        let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
        let Some(sender) = listener.cloned() else {
            let said = uncertainty(&state.design, draws, cores, &|_| true);
            self.chances = said.map_or_else(|e| Chances::Failed(e.explain()), |u| Chances::Said(Box::new(u)));
            return;
        };
        self.chances = Chances::Drawing { done: 0, count };
        let design = state.design.clone();
        let (ticket, stop) = (self.ticket, Arc::clone(&self.stop));
        std::thread::spawn(move || {
            let last = std::sync::Mutex::new(Instant::now());
            let tell = |chances| sender.send(Event::News(News { ticket, chances })).is_ok();
            let watch = |done: u32| {
                let due = last.try_lock().is_ok_and(|mut last| {
                    let due = last.elapsed() >= BETWEEN_NEWS;
                    if due {
                        *last = Instant::now();
                    }
                    due
                });
                !stop.load(Ordering::Relaxed) && (!due || tell(Chances::Drawing { done, count }))
            };
            let said = uncertainty(&design, draws, cores, &watch);
            if !stop.load(Ordering::Relaxed) {
                tell(said.map_or_else(|e| Chances::Failed(e.explain()), |u| Chances::Said(Box::new(u))));
            }
        });
    }

    /// Take news, unless they are of an earlier plan.
    pub fn hear(&mut self, news: News) {
        if news.ticket == self.ticket {
            self.chances = news.chances;
        }
    }

    /// What was drawn holds no more; a worker at it stops.
    fn forget_chances(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        self.stop = Arc::default();
        self.ticket += 1;
        self.chances = Chances::Unknown;
    }
}

fn simulate(state: &Rc<State>, span: Span) -> Simulated {
    let mut notes = Notes::kept();
    let result = endurance(&state.design, span, &mut notes).map_err(|e| e.explain());
    let findings = result.as_ref().map_or_else(|_| Vec::new(), |days| endurance_findings(&state.design, days));
    Simulated { of: Rc::clone(state), span, result, findings, workings: notes.into_workings() }
}
