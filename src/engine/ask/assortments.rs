//! How many different sizes to buy: the fewest there can be, and what each more would save in copper.

use crate::engine::ask::work_out::picked;
use crate::engine::choose::circuit::assortment::{at_most, different};
use crate::engine::choose::circuit::optimum::lightest;
use crate::engine::choose::circuit::pick::question;
use crate::engine::design::Design;
use crate::quantity::*;

/// The lightest choice with so many different sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct Assortment {
    /// The sizes to buy, by growing area.
    pub labels: Vec<String>,
    /// Copper with these.
    pub mass: Kilograms,
    /// Whether it is proven that no other sizes of this number are lighter.
    pub least: bool,
}

/// From the least number of different sizes up to that of the least copper; pinned sizes stay.
///
/// Not part of [`crate::engine::design`], since it tries many sets; under a
/// millisecond for a plan of ten runs. Empty when nothing keeps every rule.
pub fn assortments(design: &Design) -> Vec<Assortment> {
    let Some((demand, picked)) = picked(design) else { return Vec::new() };
    let (question, _) = question(&picked.runs, &design.installation.circuits, &demand);
    let labels = question.labels(&picked.runs);
    let Some(best) = lightest(&question.nodes, None) else { return Vec::new() };
    let mut all: Vec<Assortment> = Vec::new();
    for most in 1..=different(&labels, &best.choice) {
        let Some(answer) = at_most(&question.nodes, &labels, &best, most) else { continue };
        let mut used: Vec<usize> = labels.iter().zip(&answer.choice).map(|(options, c)| options[*c]).collect();
        let area = |c: usize| picked.shelf.cables[c].conductor.area.get();
        used.sort_by(|a, b| area(*a).total_cmp(&area(*b)).then(a.cmp(b)));
        used.dedup();
        let labels = used.into_iter().map(|c| picked.shelf.cables[c].label().to_string()).collect();
        // One more size that saves nothing is no choice to offer.
        if all.last().is_none_or(|last| answer.mass < last.mass) {
            all.push(Assortment { labels, mass: answer.mass, least: answer.exact });
        }
    }
    all
}
