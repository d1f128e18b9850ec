//! The design of what is being typed, made ahead by a worker: it is there when the value is taken.
//!
//! A pass takes a few milliseconds, a finger between two keys a hundred. So the worker designs the plan with what the
//! cell says after each key, the newest always; whoever takes another value designs it himself.

use super::state::State;
use crate::catalogue::Catalogue;
use crate::engine::{Design, design};
use crate::plan::{self, Place, Read, Value};
use std::rc::Rc;
use std::sync::{Arc, Condvar, Mutex, PoisonError};
use std::thread;
use std::time::Duration;

/// So long no other value is asked for before one is begun: of letters that come in at once only the last counts.
const PAUSE: Duration = Duration::from_millis(8);
/// Longest that a design under way is waited for, before it is made anew.
const PATIENCE: Duration = Duration::from_secs(1);

/// One worker with at most one plan under way and one waiting.
#[derive(Debug, Default)]
pub struct Ahead {
    desk: Option<Arc<Desk>>,
    asked: Option<(Rc<str>, Place, Value)>,
}

#[derive(Debug, Default)]
struct Desk {
    slot: Mutex<Slot>,
    changed: Condvar,
}

#[derive(Debug, Default)]
struct Slot {
    wanted: Option<Job>,
    asked: u64,
    busy: bool,
    done: Option<Made>,
    ended: bool,
}

#[derive(Debug)]
struct Job {
    text: String,
    place: Place,
    value: Value,
    catalogue: Catalogue,
}

/// A plan with its design.
#[derive(Debug)]
pub struct Made {
    /// The text that it was made of.
    pub text: String,
    /// What that says.
    pub read: Read,
    /// What follows.
    pub design: Design,
    catalogue: Catalogue,
}

impl Ahead {
    /// Design a plan with such a value, unless that was asked last.
    pub fn ask(&mut self, state: &State, place: Place, value: Value) {
        let same = |(text, p, v): &(Rc<str>, Place, Value)| Rc::ptr_eq(text, &state.text) && *p == place && *v == value;
        if self.asked.as_ref().is_some_and(same) {
            return;
        }
        let catalogue = Catalogue::clone(&state.catalogue);
        let job = Job { text: state.text.to_string(), place, value: value.clone(), catalogue };
        self.asked = Some((Rc::clone(&state.text), place, value));
        let desk = self.desk.get_or_insert_with(open);
        let mut slot = desk.slot.lock().unwrap_or_else(PoisonError::into_inner);
        slot.wanted = Some(job);
        slot.asked += 1;
        desk.changed.notify_all();
    }

    /// What was made of a text; of one under way the end is waited for. `None` where that text was not asked for.
    pub fn made(&mut self, text: &str, catalogue: &Catalogue) -> Option<Made> {
        self.asked.take()?;
        let desk = self.desk.as_ref()?;
        let mut slot = desk.slot.lock().unwrap_or_else(PoisonError::into_inner);
        if slot.wanted.take().is_some() {
            return None;
        }
        let waited = desk.changed.wait_timeout_while(slot, PATIENCE, |slot| slot.busy);
        let (mut slot, _) = waited.unwrap_or_else(PoisonError::into_inner);
        slot.done.take().filter(|made| made.text == text && made.catalogue.is(catalogue))
    }
}

impl Drop for Ahead {
    fn drop(&mut self) {
        if let Some(desk) = &self.desk {
            desk.slot.lock().unwrap_or_else(PoisonError::into_inner).ended = true;
            desk.changed.notify_all();
        }
    }
}

fn open() -> Arc<Desk> {
    let desk = Arc::new(Desk::default());
    let own = Arc::clone(&desk);
    thread::spawn(move || work(&own));
    desk
}

/// Job after job; nothing wakes it between them.
fn work(desk: &Desk) {
    let mut slot = desk.slot.lock().unwrap_or_else(PoisonError::into_inner);
    loop {
        slot = desk
            .changed
            .wait_while(slot, |slot| slot.wanted.is_none() && !slot.ended)
            .unwrap_or_else(PoisonError::into_inner);
        let asked = slot.asked;
        let (kept, paused) = desk
            .changed
            .wait_timeout_while(slot, PAUSE, |slot| slot.asked == asked && slot.wanted.is_some() && !slot.ended)
            .unwrap_or_else(PoisonError::into_inner);
        slot = kept;
        if slot.ended {
            return;
        }
        let Some(job) = slot.wanted.take_if(|_| paused.timed_out()) else { continue };
        (slot.busy, slot.done) = (true, None);
        drop(slot);
        let made = make(job);
        slot = desk.slot.lock().unwrap_or_else(PoisonError::into_inner);
        (slot.busy, slot.done) = (false, made);
        desk.changed.notify_all();
    }
}

fn make(job: Job) -> Option<Made> {
    let text = plan::set(&job.text, job.place, Some(&job.value)).ok()?;
    let read = plan::read(&text, &job.catalogue);
    if !read.problems.is_empty() {
        return None;
    }
    let design = design(&read.plan, &job.catalogue);
    Some(Made { text, read, design, catalogue: job.catalogue })
}
