//! The user's own prices, for comparing chemistries.

use super::field::{Kind, Pick, num};
use super::table::table;
use crate::quantity::{Money, Unit};

table! {
    /// What a battery of 100 Ah of a chemistry costs.
    Price in Price {
        /// Which chemistry the price is for.
        chemistry: String => "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), NotAllowed;
        /// What a battery of 100 Ah costs where you buy it, in your currency.
        per_100ah: Money => "per_100ah", "For 100 Ah", num(Unit::Price, 0.0, 1e6), NotAllowed;
    }
}
