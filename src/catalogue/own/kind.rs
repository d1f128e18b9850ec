//! Which parts can be entered from a data sheet?

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
    pub(super) fn folder(self) -> &'static str {
        match self {
            OwnKind::Battery => "chemistries",
            OwnKind::Charger => "chargers",
            OwnKind::Fuse => "fuse-links",
            OwnKind::Cable => "conductors",
        }
    }
}
