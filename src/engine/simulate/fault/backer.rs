//! Which device breaks a fault for a smaller one behind it, and how soon?

use crate::catalogue::FuseStyle;
use crate::quantity::*;

/// Where the device stands that breaks a fault for another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Backer {
    /// At the near end of this branch.
    Branch(usize),
    /// One at each block of the bank.
    Blocks,
}

/// A device that breaks a fault for another behind it.
#[derive(Clone, Copy, Debug)]
pub struct Backup<'a> {
    /// Where it stands.
    pub by: Backer,
    /// Its style.
    pub style: &'a FuseStyle,
    /// Its rating.
    pub rating: Amps,
    /// How soon it clears the fault, at the latest.
    pub clears: Seconds,
    /// Whether it breaks the most that can flow, and not only what is likely.
    pub certain: bool,
    /// What still flows then, from sources that limit themselves.
    pub remaining: Amps,
}
