//! Which smaller banks of equal blocks would nearly last, and for how long?
//!
//! A bank that is a hair too small is a choice, not an error: each is a whole design, with its own cables and
//! settings, stepped through the days without charge until power first fails.

use crate::engine::design::{Design, pass};
use crate::engine::installation::Installation;
use crate::engine::installation::price::price_of_100ah;
use crate::engine::simulate::battery::NearBank;
use crate::quantity::*;

/// Smallest bank that is looked at, as a share of the one that is chosen.
const SMALLEST: f64 = 0.5;
/// Shorter than this share of the days is no near miss. Common practice, no source.
const NEAR: f64 = 0.8;
/// Most that are tried.
const MOST: usize = 3;

impl Design {
    /// The largest of the smaller banks that nearly last, or last with less to spare; none where the bank is given.
    /// Worked out once, when somebody first asks: each is a whole design.
    pub fn near_banks(&self) -> &[NearBank] {
        self.near.get_or_init(|| near_banks(self))
    }
}

fn near_banks(design: &Design) -> Vec<NearBank> {
    let site = &design.installation;
    let (Some(chemistry), Some(chosen)) = (site.chemistry(), &design.battery.bank) else { return Vec::new() };
    if site.service_battery.capacity.is_some() {
        return Vec::new();
    }
    let counts = match site.service_battery.in_parallel {
        Some(n) => n..=n,
        None => 1..=chemistry.blocks.max_parallel.max(1),
    };
    let sizes = &chemistry.blocks.sizes;
    let all = counts.flat_map(|n| sizes.iter().map(move |block| (n, *block * f64::from(n))));
    let smaller = |c: &AmpHours| *c < chosen.capacity && *c >= chosen.capacity * SMALLEST;
    let mut banks: Vec<(u32, AmpHours)> = all.filter(|(_, c)| smaller(c)).collect();
    // The larger first; of one capacity the fewest blocks.
    banks.sort_by(|a, b| b.1.get().total_cmp(&a.1.get()).then(a.0.cmp(&b.0)));
    banks.dedup_by(|a, b| (a.1 - b.1).get().abs() < 1e-9);
    banks.into_iter().take(MOST).filter_map(|(n, capacity)| near(site, n, capacity)).collect()
}

/// A bank as if it were given, unless it lasts far less than planned.
fn near(site: &Installation, blocks: u32, capacity: AmpHours) -> Option<NearBank> {
    let mut given = site.clone();
    let battery = &mut given.outfit.service_battery;
    (battery.capacity, battery.in_parallel) = (Some(capacity), Some(blocks));
    let tried = pass(given, AmpHours::ZERO);
    let trials = tried.promise.without_charge.iter();
    let lasts = trials.map(|t| t.failed_at.unwrap_or(t.tried)).reduce(Hours::min)?;
    let (lasts, of) = (Days::new(lasts.get() / 24.0), site.days_without_charge);
    let bank = tried.battery.bank.filter(|_| lasts.get() >= of.get() * NEAR)?;
    let price = price_of_100ah(site, &bank.chemistry);
    let price = price.map(|p| Money::new(p.get() * bank.capacity.get() / 100.0));
    Some(NearBank { bank, lasts, of, price })
}
