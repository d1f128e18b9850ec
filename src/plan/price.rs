//! The user's own prices, for comparing chemistries and for what all parts come to.

use super::field::{Kind, Pick, num};
use super::table::table;
use crate::quantity::{Money, Unit};

table! {
    /// What a battery of 100 Ah of a chemistry costs, or a part as it is sold.
    Price in Price {
        /// The chemistry whose battery is priced; leave out for another part.
        chemistry: Option<String> => "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), Chosen;
        /// What a battery of 100 Ah costs where you buy it, in your currency.
        per_100ah: Option<Money> => "per_100ah", "For 100 Ah", num(Unit::Price, 0.0, 1e6), Chosen;
        /// Words of the parts list that name a part, such as `cable 35 mm²`; of several that fit the one of most words counts.
        part: Option<String> => "part", "Part", Kind::Text { longest: 80, required: false }, Chosen;
        /// What one of it costs as it is sold: a piece, a metre, a pack.
        each: Option<Money> => "each", "Each", num(Unit::Price, 0.0, 1e6), Chosen;
    }
}

/// What 100 Ah of a chemistry cost; the last price entered counts.
pub fn per_100ah(prices: &[Price], chemistry: &str) -> Option<Money> {
    prices.iter().rev().find_map(|p| p.per_100ah.filter(|_| p.chemistry.as_deref() == Some(chemistry)))
}
