//! What do alternator, charger, sun and mains bring?

pub mod alternator;
pub mod balance;
pub mod feed;
pub mod relay;
pub mod rush;
pub mod sources;
