//! Where a number comes from, carried with the number into workings and reports.

use serde::Deserialize;

/// How a figure was obtained.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum How {
    /// Read in the publication named, or in a reprint of it.
    Opened,
    /// Computed from a definition or a public library named in the source.
    Computed,
    /// Remembered; to be verified against the part or the publication.
    #[default]
    Memory,
    /// Common practice of the trade, without a source.
    Practice,
    /// Entered by the user.
    User,
}

/// Source of a row of the catalogue. Flattened into each row's TOML as
/// `how = "…"`, `source = "…"` and perhaps `note = "…"`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
pub struct Provenance {
    /// How it was obtained.
    pub how: How,
    /// The publication, with table or clause; may be empty only for practice.
    #[serde(default)]
    pub source: String,
    /// What to beware of.
    #[serde(default)]
    pub note: Option<String>,
}

impl Provenance {
    /// A source read in the named publication.
    pub fn opened(source: &str) -> Self {
        Provenance { how: How::Opened, source: source.into(), note: None }
    }

    /// The words shown behind a number: the publication, with `from memory` or
    /// `common practice, no source` said where that is the case.
    pub fn words(&self) -> String {
        match (self.how, self.source.trim()) {
            (How::Opened | How::Computed, source) => source.into(),
            (How::Memory, "") => "from memory".into(),
            (How::Memory, source) => format!("{source} (from memory, verify)"),
            (How::Practice, "") => "common practice, no source".into(),
            (How::Practice, what) => format!("{what} (common practice, no source)"),
            (How::User, _) => "entered by you".into(),
        }
    }

    /// Whether the figure still wants checking against its publication.
    pub fn is_memory(&self) -> bool {
        self.how == How::Memory
    }
}
