//! How does a part that was bought become a row of one's own: what is asked of its data sheet, and which file says it?
//!
//! A row is a file by itself, of the shape that the user's folder takes; what the sheet does not say is that of a
//! built-in row of the same kind, with that row's sources.

mod asked;
mod file;

pub use asked::{Asked, Given, Takes};
pub use file::{OwnFile, own_file};

/// What it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OwnKind {
    /// A battery: a chemistry of its own, sold in one size.
    Battery,
    /// A charger by name.
    Charger,
    /// A style of fuse.
    Fuse,
    /// A conductor.
    Cable,
}

impl OwnKind {
    /// All of them, in the order offered.
    pub const ALL: [OwnKind; 4] = [OwnKind::Battery, OwnKind::Charger, OwnKind::Fuse, OwnKind::Cable];

    /// In a word.
    pub fn word(self) -> &'static str {
        match self {
            OwnKind::Battery => "battery",
            OwnKind::Charger => "charger",
            OwnKind::Fuse => "fuse",
            OwnKind::Cable => "cable",
        }
    }

    /// The folder of the profiles that holds such rows.
    fn folder(self) -> &'static str {
        match self {
            OwnKind::Battery => "chemistries",
            OwnKind::Charger => "chargers",
            OwnKind::Fuse => "fuse-links",
            OwnKind::Cable => "conductors",
        }
    }
}
