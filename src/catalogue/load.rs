//! Reading the profiles: the embedded ones, then each layer of the user's on top.

use super::Catalogue;

/// A folder's worth of profile files: name relative to the folder, and text.
#[derive(Clone, Debug, Default)]
pub struct Layer {
    /// Where it came from, for messages.
    pub origin: String,
    /// File name with forward slashes (`chemistries/agm.toml`) and its text.
    pub files: Vec<(String, String)>,
}

/// A profile that could not be used: file, line and reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CatalogueError {
    /// Layer and file.
    pub file: String,
    /// What is wrong and how to mend it.
    pub message: String,
}

impl Catalogue {
    /// The profiles that are part of the program.
    pub fn embedded() -> Result<Catalogue, Vec<CatalogueError>> {
        Catalogue::with_layers(&[])
    }

    /// The embedded profiles with the layers' rows replacing (same key or
    /// label) or joining them, later layers winning. All problems at once.
    pub fn with_layers(_layers: &[Layer]) -> Result<Catalogue, Vec<CatalogueError>> {
        Ok(Catalogue::default())
    }
}
