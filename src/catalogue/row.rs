//! What every row of a profile file can do: tell its key, and judge itself.

use super::faults::Faults;
use serde::de::DeserializeOwned;
use toml::de::DeTable;

/// A row of a profile file.
pub(super) trait Row: DeserializeOwned {
    /// What tells it from the others of its kind.
    fn key(&self) -> String;
    /// Name of the field that holds the key, for messages.
    const KEY: &'static str;
    /// Report what is wrong with it.
    fn check(&self, faults: &mut Faults);
    /// Problems of each part on its own, when the whole cannot be read.
    fn part_errors(_whole: &DeTable<'_>) -> Vec<toml::de::Error> {
        Vec::new()
    }
}
