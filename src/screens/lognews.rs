//! What does a worker tell that reads a logger's file?

use crate::engine::LogAnswer;
use crate::log::Logged;
use std::sync::Arc;

/// News of the worker.
#[derive(Clone, Debug)]
pub struct LogNews {
    /// Whose work it is of: what was stopped is not listened to.
    pub ticket: u64,
    /// How far it has come.
    pub what: LogWhat,
}

/// What a worker has to say.
#[derive(Clone, Debug)]
pub enum LogWhat {
    /// So many rows were read.
    Rows(u64),
    /// The file, and what it comes to beside the plan.
    Beside(Arc<Logged>, Arc<LogAnswer>),
    /// Why it could not be read.
    Failed(String),
}

/// The same news: of the same work, equally far.
impl PartialEq for LogNews {
    fn eq(&self, other: &LogNews) -> bool {
        let same = match (&self.what, &other.what) {
            (LogWhat::Rows(a), LogWhat::Rows(b)) => a == b,
            (LogWhat::Beside(_, a), LogWhat::Beside(_, b)) => Arc::ptr_eq(a, b),
            (LogWhat::Failed(a), LogWhat::Failed(b)) => a == b,
            _ => false,
        };
        self.ticket == other.ticket && same
    }
}
