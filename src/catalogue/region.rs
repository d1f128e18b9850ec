//! What the law or the usual standard of a region asks of such a fit-out: a list to look up, from `profiles/regions.toml`.
//!
//! Nothing of it is compared with a plan.

use super::sourced::row;
use serde::Deserialize;

/// Where a vehicle is registered.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Region {
    /// Key in plan files: `europe`, `north-america`, …
    pub key: String,
    /// Name as shown.
    pub name: String,
}

/// What a document is to a builder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs)]
pub enum Standing {
    Law,
    Standard,
    GoodPractice,
}

impl Standing {
    /// The words shown.
    pub fn words(self) -> &'static str {
        match self {
            Standing::Law => "law",
            Standing::Standard => "usual standard",
            Standing::GoodPractice => "good practice",
        }
    }
}

row! {
    /// One document to look up.
    LookUp, LookUpFrom {
        /// `en-1648-1`, `insurer`, …
        key: String,
        /// Keys of the regions it is for; empty for everywhere.
        #[serde(default)]
        regions: Vec<String>,
        /// What it is there.
        standing: Standing,
    }
    values {
        /// Its number and title, or who can tell.
        document: String = "document",
        /// Which edition was known when this was written.
        edition: String = "edition",
        /// What to look for in it.
        asks: String = "asks",
    }
}
