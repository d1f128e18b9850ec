//! Reading a logger's file and holding it against the plan, by a worker that is dropped when nobody waits for it.

use super::events::Event;
use super::lognews::{LogNews, LogWhat};
use super::state::State;
use crate::catalogue::Catalogue;
use crate::engine::{Design, expected, log_answer};
use crate::log::{Layout, Logged, read};
use crate::plan::{Plan, reason};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::Sender;

/// The worker now.
#[derive(Debug, Default)]
pub struct Logs {
    ticket: u64,
    stop: Arc<AtomicBool>,
}

/// Where the rows come from.
pub enum Source {
    /// A file, read anew.
    File(PathBuf, Layout),
    /// What was read before.
    Kept(Arc<Logged>),
}

/// What a worker takes along: a state cannot leave its thread.
struct Job {
    plan: Plan,
    catalogue: Catalogue,
    design: Design,
    source: Source,
}

impl Logs {
    /// Hold it against this plan: `None` when a worker will tell.
    pub fn work(&mut self, state: &State, source: Source, listener: Option<&Sender<Event>>) -> Option<LogWhat> {
        self.renew();
        let (plan, catalogue) = (state.plan.clone(), (*state.catalogue).clone());
        let job = Job { plan, catalogue, design: state.design.clone(), source };
        let Some(sender) = listener.cloned() else { return job.done(&|_| true) };
        let (ticket, stop) = (self.ticket, Arc::clone(&self.stop));
        std::thread::spawn(move || {
            // Nobody listens any more: the program ends.
            let tell = |what| sender.send(Event::Log(LogNews { ticket, what })).is_ok();
            let go_on = |rows| !stop.load(Ordering::Relaxed) && tell(LogWhat::Rows(rows));
            let done = job.done(&go_on);
            if let Some(what) = done.filter(|_| !stop.load(Ordering::Relaxed)) {
                tell(what);
            }
        });
        None
    }

    /// Whether news are of what is waited for.
    pub fn waits_for(&self, news: &LogNews) -> bool {
        news.ticket == self.ticket
    }

    /// A worker at an earlier file stops.
    pub fn renew(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        self.stop = Arc::default();
        self.ticket += 1;
    }
}

impl Job {
    /// None where it was stopped.
    fn done(self, go_on: &dyn Fn(u64) -> bool) -> Option<LogWhat> {
        let logged = match &self.source {
            Source::Kept(logged) => Arc::clone(logged),
            Source::File(path, layout) => match self.read(path, layout, go_on) {
                Ok(read) => Arc::new(read?),
                Err(why) => return Some(LogWhat::Failed(why)),
            },
        };
        let dated = logged.layout.clock.dated();
        let answer = log_answer(&self.plan, &self.catalogue, &self.design, &logged.collected, dated);
        Some(LogWhat::Beside(logged, Arc::new(answer)))
    }

    fn read(&self, path: &Path, layout: &Layout, go_on: &dyn Fn(u64) -> bool) -> Result<Option<Logged>, String> {
        let known = expected(&self.design).ok_or("the plan has no battery that a log could tell of")?;
        read(path, layout.clone(), known, go_on)
            .map_err(|e| format!("{} cannot be read: {}", path.display(), reason(&e)))
    }
}
