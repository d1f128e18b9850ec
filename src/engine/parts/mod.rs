//! What is fitted? Plain data of each part, given or chosen, and the limits it lay between.

pub mod array_cable;
pub mod battery;
pub mod bond;
pub mod charger;
pub mod hold_down;
pub mod terminal;
