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

impl How {
    /// The word in the profiles.
    pub fn word(self) -> &'static str {
        match self {
            How::Opened => "opened",
            How::Computed => "computed",
            How::Memory => "memory",
            How::Practice => "practice",
            How::User => "user",
        }
    }
}

/// Source of a value of the catalogue. In the profiles it stands as
/// `how = "…"`, `source = "…"` and perhaps `note = "…"`, for a row or for some of its values.
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
    /// Whether it speaks for a whole row, not for the one value.
    #[serde(skip)]
    pub whole_row: bool,
}

/// The words of several sources in one line, each said once.
pub fn cite<'a>(all: impl IntoIterator<Item = &'a Provenance>) -> String {
    let mut words: Vec<String> = Vec::new();
    for each in all.into_iter().map(Provenance::words) {
        if !words.contains(&each) {
            words.push(each);
        }
    }
    words.join("; ")
}

impl Provenance {
    /// A source read in the named publication.
    pub fn opened(source: &str) -> Self {
        Provenance { how: How::Opened, source: source.into(), note: None, whole_row: false }
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
            (How::User, "") => "entered by you".into(),
            (How::User, sheet) => format!("{sheet} (entered by you)"),
        }
    }

    /// Whether it claims a publication and names none.
    pub fn is_nameless(&self) -> bool {
        matches!(self.how, How::Opened | How::Computed) && self.source.trim().is_empty()
    }

    /// Whether the figure still wants checking against its publication.
    pub fn is_memory(&self) -> bool {
        self.how == How::Memory
    }
}
