//! A board of the plan: fuse box, breaker panel or bus bar, from whose ways loads are fed.

use super::choice::{BoardKind, Choice, Passes, ReturnPath};
use super::field::{Kind, Pick, count, num};
use super::table::table;
use crate::quantity::*;

table! {
    /// A point with ways; each way begins a circuit.
    Board in Board {
        /// The point it is; runs and loads name it.
        name: String => "name", "Board", Kind::Text { longest: 60, required: true }, NotAllowed;
        /// Fuse box, breaker panel or bus bar.
        kind: BoardKind => "kind", "Kind", Kind::Choice(BoardKind::words), Default;
        /// How many circuits it has room for; as many as it needs when left out.
        ways: Option<u32> => "ways", "Ways", count(1.0, 100.0), Chosen;
        /// Style of its fuses or breakers; leave out to have it chosen.
        style: Option<String> => "style", "Fuse style", Kind::Pick(Pick::FuseStyle), Chosen;
        /// What its bar carries, printed on it; not looked at when left out.
        rating: Option<Amps> => "rating_a", "Rating", num(Unit::Amp, 1.0, 2000.0), Chosen;
        /// What mends the plan may not change it.
        keep: bool => "keep", "Keep", Kind::Flag, Default;
    }
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
    pub passes: Passes,
    pub number: Option<u32>,
    /// Of the way that it shares with others.
    pub way_number: Option<u32>,
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
            passes: run.passes,
            number: None,
            way_number: None,
        }
    }
}
