//! What is the least number of different sizes to buy, and what does it cost in copper?

use super::assortment::at_most;
use super::demand::Demand;
use super::levels::Levels;
use super::optimum::lightest;
use super::pick::{pick, question};
use crate::catalogue::Catalogue;
use crate::engine::design::Design;
use crate::plan::Plan;
use crate::quantity::*;

/// The smallest assortment.
#[derive(Clone, Debug, PartialEq)]
pub struct Fewest {
    /// The sizes to buy, by growing area.
    pub labels: Vec<String>,
    /// Copper with these.
    pub mass: Kilograms,
    /// Copper with any number of sizes.
    pub least: Kilograms,
}

/// The least number of different sizes that keeps every rule; pinned sizes stay.
///
/// Not part of [`crate::engine::design`], since it tries many sets; a few
/// milliseconds for a plan of ten runs. `None` when nothing keeps every rule.
pub fn fewest_sizes(plan: &Plan, catalogue: &Catalogue, design: &Design) -> Option<Fewest> {
    let levels = Levels::of(plan, catalogue, &design.battery, design.budget.peak);
    let demand = Demand::of(plan, catalogue, &design.topology, &levels, &design.charger);
    let least: Vec<_> = design.runs.iter().map(|r| r.least_for_fuse).collect();
    let picked = pick(plan, catalogue, &design.topology, &demand, &levels, &least)?;
    let (question, _) = question(&picked.runs, &design.topology, &demand);
    let labels = question.labels(&picked.runs);
    let best = lightest(&question.nodes, None)?;
    let all = super::assortment::different(&labels, &best.choice);
    let fewest = (1..=all).find_map(|most| at_most(&question.nodes, &labels, &best, most))?;
    let mut used: Vec<usize> = labels.iter().zip(&fewest.choice).map(|(options, c)| options[*c]).collect();
    used.sort_by(|a, b| {
        let area = |c: usize| picked.shelf.cables[c].conductor.area.get();
        area(*a).total_cmp(&area(*b)).then(a.cmp(b))
    });
    used.dedup();
    let labels = used.into_iter().map(|c| picked.shelf.cables[c].label().to_string()).collect();
    Some(Fewest { labels, mass: fewest.mass, least: best.mass })
}
