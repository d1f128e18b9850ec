//! What does each name in the JSON mean?
//!
//! `tests/command` holds this list against what is really written: a name
//! without an explanation fails, and so does an explanation without a name.

mod design;
mod endurance;
mod results;

/// A sort of object, where it stands, and its names.
#[derive(Clone, Copy, Debug)]
pub struct Object {
    /// Paths from the top where it stands; `[]` for each item of a list, empty for the top itself.
    pub at: &'static [&'static str],
    /// Its names with what they mean; the unit is the ending of the name.
    pub names: &'static [(&'static str, &'static str)],
}

/// All sorts of objects in the JSON of `report`, `check`, `cable` and `cut-off`;
/// those of `endurance` stand under a path of that name.
pub fn shape() -> impl Iterator<Item = &'static Object> {
    results::OBJECTS.iter().chain(design::OBJECTS).chain(endurance::OBJECTS)
}
