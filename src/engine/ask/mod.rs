//! What else may be asked of a plan? Cable, cut-off, sizes to buy, what to cut and to order, what mends, what else would do.

pub mod ageing;
mod ageing_results;
pub mod assortments;
pub mod cable;
pub mod chance;
pub mod cut_off;
pub mod days;
pub mod log;
pub mod mend;
pub mod published;
mod results;
pub mod rivals;
pub mod trouble;
pub mod used;
pub mod work_out;
pub mod workshop;
