//! What does the file of a logger say, whatever its delimiter, its clock and its columns?
//!
//! `layout` recognises how a file is written from its first lines, `clock` reads its times, `rows`
//! reads it row by row and keeps nothing, so that a file may be of any length. What is left out is told.

mod cell;
mod clock;
mod layout;
mod rows;

#[cfg(test)]
mod tests;

pub use layout::{Asked, LARGEST_HEAD, Layout, recognise};
pub use rows::{LeftOut, Rows};
