//! Which link between the battery and the vehicle is the weakest, and what does it hold?
//!
//! Each link has its own use of strength in each direction of shock, and the
//! worst counts. All loads are proportional to the mass, so the mass that the
//! weakest link holds follows directly; what the tightened nuts use of a floor is
//! not ([`super::clamped`]), and the weakest is the link that holds the least.
//! First yield is the limit; plastic reserve is not counted on.

use super::basket;
use super::clamped::clamped;
use super::found::{Found, Pulls, Throw, most};
use super::metal::{Metal, deck_used, spreader_used};
use super::result::{Chain, Link};
use super::roads::roads;
use super::tray;
use crate::catalogue::Axis;
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::engine::simulate::hold_down::result::{ShockCase, Strength};
use crate::plan::HoldDownStyle;
use crate::quantity::*;

/// The chain of a carrier whose studs are shared out already.
pub(crate) fn chain(given: &Fixing<'_>, strength: &Strength) -> Chain {
    let mut found = Found { links: Vec::new() };
    let metal = Metal::of(given.carrier.metal, given.rules);
    for case in distinct(&strength.cases) {
        of_case(Throw { given, strength, case, metal: &metal }, &mut found);
    }
    let mut links = found.links;
    links.sort_by(|a, b| a.stands.total_cmp(&b.stands).then(b.used.get().total_cmp(&a.used.get())));
    let whole = strength.total_mass.get() * links.first().map_or(1e3, |l| l.stands);
    let holds = Kilograms::new((whole - (given.shape.steel_mass + given.besides).get()).max(0.0));
    let roads = roads(given, &links);
    Chain { links, holds, roads }
}

/// One of each pair of directions that ask the same of every link, as they do where the studs stand evenly.
pub(crate) fn distinct(cases: &[ShockCase]) -> Vec<&ShockCase> {
    let same = |a: &ShockCase, b: &ShockCase| {
        let near = |a: f64, b: f64| (a - b).abs() <= 1e-9 * a.abs().max(b.abs());
        a.force.thrown.axis() == b.force.thrown.axis()
            && a.force.thrown.axis() != Axis::Upright
            && near(most(&a.tensions), most(&b.tensions))
            && near(most(&a.shears), most(&b.shears))
            && near(rigid(a), rigid(b))
    };
    let mut kept: Vec<&ShockCase> = Vec::with_capacity(cases.len());
    for case in cases {
        if !kept.iter().any(|k| same(k, case)) {
            kept.push(case);
        }
    }
    kept
}

/// Each link when the battery is thrown one way.
pub(crate) fn of_case(throw: Throw<'_>, found: &mut Found) {
    let pulls = match throw.given.carrier.style {
        HoldDownStyle::StripBasket => basket::links(throw, found),
        _ => tray::links(throw, found),
    };
    studs(throw, pulls, found);
}

/// The most that any stud is used under a rigid plate.
fn rigid(case: &ShockCase) -> f64 {
    case.utilisations.iter().fold(0.0, |most, used| f64::max(most, used.get()))
}

/// Studs, their nuts, the spreader plates and the deck.
fn studs(Throw { given, case, metal, .. }: Throw<'_>, pulls: Pulls, found: &mut Found) {
    let (carrier, sizes, thrown) = (given.carrier, given.sizes, case.force.thrown);
    let side = most(&case.shears);
    let (diameter, hole) = (given.size.diameter.get(), given.size.hole.get());
    // Between its two clamped ends a spacer lets the stud bend like a letter S.
    let section =
        given.size.stress_area.get() / 4.0 * (given.size.stress_area.get() * 4.0 / std::f64::consts::PI).sqrt() / 2.0;
    let proof = given.studs.proof.get() / given.size.stress_area.get();
    let bent = sizes.spacer.map_or(0.0, |s| side * s.get() / 2.0 / section / proof);
    let stud = |pull: f64| given.studs.used(Newtons::new(pull), Newtons::new(side)).get().max(rigid(case)) + bent;
    found.add(Link::Stud, thrown, stud(pulls.0), stud(pulls.1));
    let t = sizes.thickness.get();
    let edge = match carrier.style {
        HoldDownStyle::StripBasket => carrier.rim.get().min(sizes.strip_width.get()) / 2.0,
        _ => 3.0 * diameter,
    };
    let bearing = 2.5 * (edge / (3.0 * hole)).min(1.0) * metal.tensile * diameter * t;
    // Mean of the nut's width over flats and over corners, 1.6 diameters.
    let punched = 0.6 * std::f64::consts::PI * 1.6 * diameter * t * metal.tensile;
    let nut = |pull: f64| (side / bearing).max(pull / punched);
    found.add(Link::Nut, thrown, nut(pulls.0), nut(pulls.1));
    let spread = |pull| spreader_used(sizes, metal, diameter, hole, pull);
    found.add(Link::Spreader, thrown, spread(pulls.0), spread(pulls.1));
    let deck = |pull| deck_used(carrier, sizes, given.rules, pull);
    found.add(Link::Deck, thrown, deck(pulls.0), deck(pulls.1));
    clamped(given, thrown, pulls, found);
}
