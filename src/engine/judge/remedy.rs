//! What would mend a finding: words, and the edits that do it.

use crate::plan::{Place, Value};

/// A way to mend a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// In words, with its number: `10 mm² would drop 2.6 %`.
    pub words: String,
    /// The edits that do it together; none where fields alone do not. Judge proposes them, `ask::remedies` tries them.
    pub edits: Vec<Edit>,
    /// What else they change, once tried: `+0.9 kg copper`.
    pub changes: Vec<String>,
}

/// One field of the plan, and the value to put there.
#[derive(Clone, Debug, PartialEq)]
pub struct Edit {
    /// The field.
    pub place: Place,
    /// The new value; `None` takes the key out.
    pub value: Option<Value>,
}

impl Remedy {
    /// In words alone.
    pub fn words(words: impl Into<String>) -> Remedy {
        Remedy { words: words.into(), edits: Vec::new(), changes: Vec::new() }
    }

    /// In words, with what else changes.
    pub fn says(&self) -> String {
        match &self.changes[..] {
            [] => self.words.clone(),
            changes => format!("{} (then {})", self.words, changes.join("; ")),
        }
    }
}
