//! Why could a command not do what was asked, and how is that said?

use super::message;
use crate::catalogue::CatalogueError;
use crate::papers::Look;
use crate::plan::Problem;
use crate::quantity::counted;

/// Why nothing came of it.
#[derive(Debug)]
pub enum Failure {
    /// One thing, and what to do.
    One {
        /// What is wrong.
        what: String,
        /// What to do.
        help: String,
    },
    /// The plan has problems.
    Problems {
        /// Name of the file.
        name: String,
        /// Its text.
        text: String,
        /// All of them.
        problems: Vec<Problem>,
    },
    /// The profiles have problems.
    Catalogue(Vec<CatalogueError>),
}

impl Failure {
    /// One thing that is wrong, and what to do.
    pub fn new(what: impl Into<String>, help: impl Into<String>) -> Failure {
        Failure::One { what: what.into(), help: help.into() }
    }

    /// As shown on standard error.
    pub fn show(&self, look: &Look) -> String {
        match self {
            Failure::One { what, help } => message::error(what, help, look),
            Failure::Problems { name, text, problems } => message::problems(name, text, problems, look),
            Failure::Catalogue(errors) => errors
                .iter()
                .map(|e| message::error(&e.to_string(), "", look))
                .chain([message::error(
                    &format!("{} in the profiles", counted(errors.len(), "problem")),
                    "mend them, or move the file out of the folder to use the built-in profiles alone",
                    look,
                )])
                .collect(),
        }
    }
}

impl From<anyhow::Error> for Failure {
    fn from(e: anyhow::Error) -> Failure {
        Failure::new(format!("{e:#}"), "")
    }
}
