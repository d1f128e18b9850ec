//! Laws that hold for every input, tried on generated ones.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

#[path = "../generated/network.rs"]
mod generated_network;
#[path = "../generated/plan.rs"]
mod generated_plan;
mod network;
mod runs;
