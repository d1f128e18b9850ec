//! Is the charging right?

pub mod checks;
pub mod unmet;
pub mod voltages;
