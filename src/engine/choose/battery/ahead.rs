//! What will lie between the battery and where the cut-off senses, before a cable is chosen?
//!
//! A guess from lengths and the peak current. A bank that lasts only as if nothing lay there would be left once the
//! cables are known, and all of them sized again for a larger one. What is decided rests on the cables themselves: where
//! they turn out otherwise the bank is looked at anew.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::engine::installation::run::ways;
use crate::engine::installation::working::Notes;
use crate::engine::physics::fuse_link::rating::styles;
use crate::engine::simulate::budget::budget;
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::plan::Run;
use crate::quantity::*;

/// About what a square millimetre of such a cable carries, in A, sized for its drop as most are. Our own.
const DENSITY: f64 = 1.5;
/// What is counted of it, rather too little than too much: a bank asked for by more than there will be is sized for in
/// vain. Our own.
const COUNTED: f64 = 0.75;
/// Copper at 50 °C, in ohm mm²/m: 17.24 nΩ m at 20 °C (IEC 60028), 1.118 times that.
const COPPER: f64 = 0.01927;

/// With all that may be on.
pub fn path_ahead(site: &Installation) -> SensingPath {
    let inverter = (site.inverter.rating / site.nominal(Side::Service)).max(Amps::ZERO);
    let peak = budget(site, &mut Notes::unkept()).peak.max(inverter);
    let path = site.circuits.path_to(&site.cut_off.senses_at).unwrap_or_default();
    let one = |branch: usize| {
        let branch = site.circuits.branches.get(branch)?;
        let run = site.runs.get(branch.run)?;
        let area = SquareMillimetres::new((peak.get() / DENSITY).max(1.0));
        let copper = Ohms::new(ways(run) * run.length.get() * COPPER / area.get());
        Some(copper + site.besides_copper(run, &branch.far, area) + link(site, run, peak))
    };
    let resistance: Ohms = path.into_iter().filter_map(one).sum();
    SensingPath { resistance: resistance * COUNTED, ..SensingPath::default() }
}

/// The first link that carries it.
fn link(site: &Installation, run: &Run, peak: Amps) -> Ohms {
    let least = run.fuse.unwrap_or(peak / site.fuse_loading().get());
    let all = styles(&site.catalogue, run.fuse_style.as_deref()).filter(|_| run.own_fuse);
    let fitting = all.filter_map(|style| Some((style, *style.ratings.iter().find(|rating| **rating >= least)?)));
    fitting.map(|(style, rating)| style.warm_resistance(rating)).next().unwrap_or(Ohms::ZERO)
}
