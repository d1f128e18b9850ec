//! Answers to quick questions: one cable, one cut-off, without a plan.

mod cable;
mod cut_off;

pub use cable::cable_answer;
pub use cut_off::cut_off_answer;
