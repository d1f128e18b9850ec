//! What does each name in the JSON mean?
//!
//! `tests/command` holds this list against what is really written: a name
//! without an explanation fails, and so does an explanation without a name.

/// One name of the JSON, with its path: `runs[].size.drop_v`.
#[derive(Clone, Copy, Debug)]
pub struct Name {
    /// Path from the top; `[]` for each item of a list.
    pub path: &'static str,
    /// What it is; the unit is the ending of the name.
    pub means: &'static str,
}

/// The explained names of a shape.
pub fn shape() -> &'static [Name] {
    &[]
}
