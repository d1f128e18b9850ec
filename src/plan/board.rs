//! A board of the plan: fuse box, breaker panel or bus bar, from whose ways loads are fed.

use super::choice::{BoardKind, ReturnPath};
use crate::quantity::*;

/// A point with ways; each way begins a circuit.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Board {
    /// The point it is.
    pub name: String,
    pub kind: BoardKind,
    /// How many circuits it has room for; as many as it needs when absent.
    pub ways: Option<u32>,
    /// Style of its fuses or breakers; chosen when absent.
    pub style: Option<String>,
    /// What its bar carries; not looked at when absent.
    pub rating: Option<Amps>,
    /// Is not to be changed by what mends the plan.
    pub keep: bool,
}

/// A load's own cable from its board, as far as it is given.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Lead {
    /// One way, along the loom; no lead of its own when absent.
    pub length: Option<Metres>,
    pub size: Option<String>,
    pub fuse: Option<Amps>,
    pub insulation: String,
    pub surroundings: String,
    pub bundled_with: u32,
    pub return_path: ReturnPath,
}

impl Default for Lead {
    fn default() -> Self {
        let run = super::run::Run::default();
        Lead {
            length: None,
            size: None,
            fuse: None,
            insulation: run.insulation,
            surroundings: run.surroundings,
            bundled_with: 0,
            return_path: run.return_path,
        }
    }
}
