//! What the law or the usual standard of a region asks of such a fit-out: a list to look up, from `profiles/regions.toml`.
//!
//! Nothing of it is compared with a plan.

use super::faults::Faults;
use super::row::{Part, Row, row};
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

impl Part for Region {
    fn check(&self, faults: &mut Faults) {
        faults.text("key", &self.key);
        faults.text("name", &self.name);
    }
}

impl Row for Region {
    const KEY: &'static str = "key";

    fn key(&self) -> String {
        self.key.clone()
    }
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
    LookUp, LookUpFrom by key {
        /// `en-1648-1`, `insurer`, …
        key: String => text,
        /// Keys of the regions it is for; empty for everywhere.
        #[serde(default)]
        regions: Vec<String>,
        /// What it is there.
        standing: Standing,
    }
    values {
        /// Its number and title, or who can tell.
        document: String = "document" => text,
        /// Which edition was known when this was written.
        edition: String = "edition" => text,
        /// What to look for in it.
        asks: String = "asks" => text,
    }
}
