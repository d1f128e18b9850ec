//! What every part of the engine writes while it works: findings and workings.

use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::judge::finding::Finding;
use std::borrow::Cow;

/// Findings and workings gathered on the way through a plan.
#[derive(Clone, Debug, Default)]
pub struct Book {
    /// In the order found; `design` sorts them.
    pub findings: Vec<Finding>,
    /// By subject and number, if kept.
    pub notes: Notes,
}

impl Book {
    /// One in which workings are kept.
    pub fn kept() -> Self {
        Book { notes: Notes::kept(), ..Book::default() }
    }

    /// Note a finding.
    pub fn find(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// Keep the working of a number.
    pub fn work(&mut self, subject: Subject, number: impl Into<Cow<'static, str>>, working: Working) {
        self.notes.add(subject, number, || working);
    }
}
