//! How long does the carrier stand rough roads, roughly?

use super::metal::Metal;
use super::result::{Link, LinkUse, Road};
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::plan::CarrierMetal;
use crate::quantity::*;

/// Shaking of three kinds of road, root of the mean square; from memory and rough.
const ROADS: [(&str, f64); 3] = [("good road", 0.1), ("rough road", 0.3), ("track", 0.6)];
/// Fatigue strength of bent and drilled steel at two million cycles over its factor: category 71 of EN 1993-1-9
/// and γMf 1.35. Aluminium: category 28 of EN 1999-1-3, from memory.
const CATEGORY: (f64, f64) = (71.0 / 1.35, 28.0 / 1.35);
/// The carrier swings on its springs and its own bending so often a second: rough.
const BEATS: f64 = 10.0;

/// Hours until a crack: shaking of a narrow band, whose stress ranges follow Rayleigh; Miner's sum with a slope of 3.
pub(crate) fn roads(given: &Fixing<'_>, links: &[LinkUse]) -> Vec<Road> {
    let bent = |l: &&LinkUse| {
        matches!(l.link, Link::Strip | Link::Bend | Link::Ear | Link::Base | Link::Rim | Link::Weld | Link::Strap)
    };
    let worst = links.iter().filter(bent).map(|l| {
        let level = given.shock.level(l.thrown.axis()).0.get();
        l.used.get() / level.max(0.1)
    });
    let metal = Metal::of(given.carrier.metal, given.rules);
    let per_gravity = worst.fold(0.0, f64::max) * metal.yields;
    let category = if given.carrier.metal == CarrierMetal::Aluminium { CATEGORY.1 } else { CATEGORY.0 };
    let road = |(name, shaking): (&'static str, f64)| {
        let range = 2.0 * 2f64.sqrt() * per_gravity * shaking;
        // Mean of the cube of a Rayleigh range: Γ(2.5) = 1.3293.
        let cycles = 2e6 * category.powi(3) / (range.powi(3) * 1.3293).max(1e-9);
        Road { name, shaking: Gravities::new(shaking), lasts: Hours::new((cycles / BEATS / 3600.0).min(1e5)) }
    };
    ROADS.into_iter().map(road).collect()
}
