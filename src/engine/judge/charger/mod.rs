//! Is the charging right?

pub mod array;
pub mod array_cable;
pub mod balance;
pub mod checks;
pub mod feed;
pub mod unmet;
pub mod voltages;
