//! What is cut, and what is bought?
//!
//! `piece`: a piece of cable and its ends. `cut`: each run becomes pieces with their lengths, lugs and
//! sleeves; `besides`: those that belong to no run. `places`: the terminals on which their ends sit. `connections`: all of it as a circuit, wire by wire
//! and stud by stud. `parts`: pieces and devices summed up and rounded up to how they
//! are sold. `marking`: what holds the battery, marked out flat; `raising`: how it gets into its place. `price`: what
//! they cost. `pull`: what a trial crimp must stand. `control`: thin wires that carry a signal. The rules and sizes are data (`profiles/workshop.toml`), all of
//! them common practice: none decides about safety.
//!
//! Left out: glands, loom tube along the whole way, plus bars and tools; what a device needs
//! besides its terminals.

pub mod besides;
pub mod connections;
pub mod control;
pub mod cut;
pub mod marking;
pub mod parts;
pub mod piece;
pub mod places;
pub mod price;
pub mod pull;
pub mod raising;

#[cfg(test)]
mod tests;
