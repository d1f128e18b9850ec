//! What the trade knows: chemistries, conductors, insulation, fuse-links, places, rules, typical loads.
//!
//! All of it is data in `profiles/*.toml`, embedded in the program; files of
//! the same shape in the user's folder replace or add rows (see [`Catalogue::with_layers`]);
//! `own` writes such a file from a data sheet.
//! Every value says where it comes from ([`Provenance`]).

mod ampacity;
mod bought;
mod carrier;
mod chemistry;
mod conductor;
mod curve;
mod devices;
mod faults;
mod folder;
mod fuse;
mod load;
mod own;
mod price;
mod provenance;
mod read;
mod region;
mod row;
mod rows;
mod rules;
mod sourced;
mod sources;
#[cfg(test)]
mod tests;
mod whole;
mod workshop;

pub use ampacity::{Cited, LEAST_OF_GAUGE};
pub use carrier::*;
pub use chemistry::*;
pub use conductor::*;
pub use curve::Curve;
pub use devices::*;
pub use folder::user_folder;
pub use fuse::*;
pub use load::Layer;
pub use own::*;
pub use price::{OwnPrice, line_words};
pub use provenance::{How, Provenance, cite};
pub use read::CatalogueError;
pub use region::*;
pub use rows::{Catalogue, Rows};
pub use rules::*;
pub use sourced::{Shown, Value};
pub use sources::Listed;
pub use workshop::*;
