//! What does the user pay for a battery?

use crate::engine::installation::Installation;
use crate::plan::per_100ah;
use crate::quantity::Money;

/// For 100 Ah of a chemistry: by the plan's own prices, else by those of the user's profiles.
pub fn price_of_100ah(site: &Installation, chemistry: &str) -> Option<Money> {
    per_100ah(&site.prices, chemistry).or_else(|| {
        let own = site.catalogue.prices.iter().rev();
        own.filter(|p| p.chemistry() == Some(chemistry)).find_map(|p| p.per_100ah)
    })
}
