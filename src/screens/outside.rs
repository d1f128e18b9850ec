//! What do the screens ask of those who start them?

use super::state::State;
use crate::engine::ask::rivals::variant::Variant;
use std::path::{Path, PathBuf};

/// Designs that stand side by side, each with its number among the rivals.
pub type Numbered<'a> = [(usize, &'a Variant)];

/// Writes the papers of a plan into a folder, with a page of designs side by side if there are any, over those that are
/// there or not: how many, or why not.
pub type WritePapers = fn(&State, &Numbered<'_>, &Path, bool) -> Result<usize, NotWritten>;

/// Why no papers were written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotWritten {
    /// This one is there already, and may be written over if the user wants it.
    Exists(PathBuf),
    /// Something else, in words.
    Failed(String),
}

/// Where rows of the user's own are, and what lies over them.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OwnRows {
    /// The user's folder of profiles; it need not be there yet.
    pub folder: PathBuf,
    /// Further folders, later ones winning.
    pub others: Vec<PathBuf>,
}
