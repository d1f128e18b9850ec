//! Which link between the battery and the vehicle is the weakest?

pub(crate) mod basket;
pub(crate) mod clamped;
pub(crate) mod found;
pub(crate) mod links;
pub(crate) mod metal;
pub mod result;
pub(crate) mod roads;
pub(crate) mod strips;
pub(crate) mod tray;
