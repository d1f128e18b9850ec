//! Answers to quick questions: one cable, one cut-off, without a plan.

mod cable;
mod cut_off;

pub use cable::{CableAnswered, cable_answer};
pub use cut_off::{CutOffAnswer, cut_off_answer};
