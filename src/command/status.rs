//! With which status does a command end?

use crate::engine::{Design, Finding, Severity};
use std::process::ExitCode;

/// How it went, the worst last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// Fine.
    Fine,
    /// The plan has a finding that says STOP.
    Stop,
    /// Wrong use, or something could not be read or written.
    Unreadable,
}

impl Status {
    /// Of what was found.
    pub fn of(findings: &[Finding]) -> Status {
        if findings.iter().any(|f| f.severity == Severity::Stop) { Status::Stop } else { Status::Fine }
    }
}

impl From<Status> for ExitCode {
    fn from(status: Status) -> ExitCode {
        ExitCode::from(match status {
            Status::Fine => 0,
            Status::Stop => 1,
            Status::Unreadable => 2,
        })
    }
}

/// How many findings, and whether it may be built.
pub(super) fn verdict(name: &str, design: &Design) -> String {
    let counts = format!(
        "{} STOP, {} caution, {} note",
        design.count(Severity::Stop),
        design.count(Severity::Caution),
        design.count(Severity::Note)
    );
    let verdict = if design.has_stop() { "do not build it as it is" } else { "nothing to stop you" };
    format!("{name}: {counts}: {verdict}")
}
