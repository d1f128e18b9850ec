//! Is the cut-off right?

pub mod counter;
pub mod limits;
pub mod order;
pub mod question;
pub mod settings;
pub mod signal;
pub mod starter;
pub mod wiring;

use crate::engine::installation::Installation;
use crate::engine::judge::cut_off::settings::Settings;
use crate::engine::judge::finding::Finding;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::circuit::result::LoadSupply;
use crate::engine::simulate::cut_off::result::CutOffDesign;

/// All that is to be said of a plan's cut-off; nothing where there is no battery.
pub(crate) fn check(site: &Installation, budget: &Budget, out: &CutOffDesign, supplies: &[LoadSupply]) -> Vec<Finding> {
    let Some(settings) = Settings::of(site, out) else { return Vec::new() };
    let mut found = settings.check(budget, supplies);
    found.extend(wiring::check(site, budget, out));
    found.extend(settings.device());
    found.extend(site.chemistry().and_then(|chemistry| signal::check(site, chemistry, out)));
    found.extend(out.starter.iter().flat_map(|guard| starter::check(site, guard)));
    found
}
