//! Laws that hold for every input, tried on generated ones.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod after;
mod bounded;
mod brute;
mod chains;
mod deep;
mod energy;
#[path = "../generated/fit_out.rs"]
mod generated_fit_out;
#[path = "../generated/leads.rs"]
mod generated_leads;
#[path = "../generated/many.rs"]
mod generated_many;
#[path = "../generated/network.rs"]
mod generated_network;
#[path = "../generated/plan.rs"]
mod generated_plan;
#[path = "../generated/text.rs"]
mod generated_text;
mod mend;
mod near_banks;
mod network;
mod promise;
mod protection;
mod ranges;
mod rivals;
mod runs;
mod trouble;
mod uncertainty;
