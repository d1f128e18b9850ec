//! What do alternator, charger, sun and mains bring?

pub mod array;
pub mod balance;
pub mod bounds;
pub mod feed;
pub mod parked;
pub mod relay;
pub mod result;
pub mod rush;
