//! Answers to quick questions without a plan: one cable, one cut-off, published cases.

mod cable;
mod cut_off;
mod log;
mod self_check;
mod trouble;
mod used;

pub use cable::cable_answer;
pub use cut_off::cut_off_answer;
pub use log::log_answer_paper;
pub use self_check::self_check_answer;
pub use trouble::trouble_answer;
pub use used::used_answer;
