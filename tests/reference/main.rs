//! Checks against what was published or computed outside this project, each with its source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod abyc;
mod ampacity;
mod battery;
mod by_hand;
mod cable_question;
mod carrier;
mod catalogue;
mod charging;
mod check;
mod chemistries;
mod conductors;
mod cut_off;
mod discharge;
mod fault_finder;
mod fuse_links;
#[path = "../generated/network.rs"]
mod generated_network;
mod heat;
mod kinetic;
mod ngspice;
mod protection;
mod sizing;
mod voltage_drop;
