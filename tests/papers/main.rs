//! The papers as a workshop gets them: drawings that can be read, pages that fit.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod build;
mod connections;
mod diagram;
mod drawing;
mod folded;
#[path = "../generated/boards.rs"]
mod generated_boards;
#[path = "../generated/everything.rs"]
mod generated_everything;
#[path = "../generated/many.rs"]
mod generated_many;
#[path = "../generated/plan.rs"]
mod generated_plan;
mod marking;
mod page;
mod picture;
mod plans;
mod region;
mod sheets;
mod units;
mod workshop;
