//! Which parts? The search within the limits of `judge`: bank, charger, cables, fuses, settings.

pub mod battery;
pub mod bond;
pub mod charger;
pub mod circuit;
pub mod cut_off;
pub mod fuse;
pub mod hold_down;
pub mod voltage;
