//! Each kind of finding: a plan that raises it, and one nearly the same that does not.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod acts_by;
mod array;
mod boards;
mod borders;
mod calendar;
mod case;
mod charging;
mod cited;
mod cut_off;
mod energy;
mod fuse_words;
mod fuses;
mod hold_down;
mod kinds;
mod limits;
mod mending_links;
mod own_protection;
mod own_rows;
mod pair;
#[path = "../generated/pinned.rs"]
mod pinned;
mod place;
mod returns;
mod runs;
mod severity;
mod sources;
mod standing;
mod starter;
mod tagged;
mod told;
mod told_beside;
mod usual_fuses;
mod which_fuse;
mod wiring;
mod workings;
