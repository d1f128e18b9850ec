//! What does the file of a logger say, whatever its delimiter, its clock and its columns?
//!
//! `layout` recognises how a file is written from its first lines, `clock` reads its times, `rows`
//! reads it row by row and keeps nothing, so that a file may be of any length. What is left out is told. `file` goes
//! through all of it, `take` knows what of it goes into a plan.

mod cell;
mod clock;
mod file;
mod layout;
mod rows;
mod take;

#[cfg(test)]
mod tests;

pub use clock::{Clock, Order};
pub use file::{Logged, head, head_of, read, read_from};
pub use layout::{Asked, LARGEST_HEAD, Layout, Meaning, recognise};
pub use rows::{LeftOut, Rows};
pub use take::{CAPACITY, offered, taken};
