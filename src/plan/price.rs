//! The user's own prices, for comparing chemistries.

use crate::quantity::Money;

/// What a battery of 100 Ah of a chemistry costs.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Price {
    pub chemistry: String,
    pub per_100ah: Money,
}
