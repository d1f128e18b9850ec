//! Answers of commands that are no results of a design: what was checked, what was written.

use crate::engine::design::results::Counts;
use crate::engine::design::results::fact::{Many, One, Version, facts, many, one};
use crate::engine::{Finding, Subject};

/// What `check` answers.
pub struct Checked {
    /// Name of the plan's file.
    pub plan: String,
    /// All of them.
    pub counts: Counts,
    /// Those asked for, worst first.
    pub findings: Vec<Finding>,
}

facts! { Checked, "check", "what `check --json` prints: what is wrong or doubtful in a plan", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    PLAN: String = "plan", "Plan", "name of the file", |c, _| c.plan.clone();
    COUNTS: One<Counts> = "counts", "Findings", "how many findings of each severity", |c, at| one(&c.counts, at);
    FINDINGS: Many<Finding> = "findings", "Findings", "worst first", |c, at| many(&c.findings, at);
}

/// What `papers` answers.
pub struct Written {
    /// Where they are.
    pub folder: String,
    /// Their names.
    pub files: Vec<String>,
}

facts! { Written, "papers", "what `papers --json` prints: the files written", |_, _| Subject::Plan;
    VERSION: Version = "version", "Version", "as in the report", |_, _| Version;
    FOLDER: String = "folder", "Folder", "where they are", |w, _| w.folder.clone();
    FILES: Vec<String> = "files", "Files", "their names", |w, _| w.files.clone();
}
