//! Whether a row can be believed: ranges, order, and a source for every row.
//!
//! The ranges are wide: they catch a slipped decimal or a wrong unit, not an
//! unusual product.

mod battery;
mod cable;
mod carrier;
mod region;
mod trade;
mod workshop;
