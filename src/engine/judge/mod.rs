//! Is that right? A rule of the trade stands here once, with its limit, its source and its finding.

pub mod air;
pub mod bank;
pub mod battery;
pub mod board;
pub mod bond;
pub mod charger;
pub mod circuit;
pub mod cut_off;
pub mod days;
pub mod finding;
pub mod fuse;
pub mod harm;
pub mod hold_down;
mod hold_down_links;
mod hold_down_made;
pub mod in_minus;
pub mod load;
pub mod main_switch;
pub mod place;
pub mod plug;
pub mod promise;
pub mod standing;
pub mod starter;
pub mod tail;
pub mod tail_fuse;
pub mod test_sheet;
