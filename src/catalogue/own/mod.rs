//! How does a part that was bought become a row of one's own: what is asked of its data sheet, and which file says it?
//!
//! A row is a file by itself, of the shape that the user's folder takes; what the sheet does not say is that of a
//! built-in row of the same kind, with that row's sources.

mod asked;
mod file;
mod kind;

pub use asked::{Asked, Given, Takes};
pub use file::{OwnFile, own_file};
pub use kind::OwnKind;
