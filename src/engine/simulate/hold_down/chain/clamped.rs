//! What do the tightened nuts use of a hollow floor, or of wood, and what does a pull add to that?
//!
//! The clamp is there whatever the battery weighs, and only what a pull adds to it grows with the mass. So such a link
//! has a use that lasts, and the mass that it holds is that at which both together reach its strength; where the clamp
//! alone is more than it stands, it holds nothing.
//! Hollow floor: both faces lie on the spacer as two springs; the pull bends the one under the spreader further and lets
//! the other off. Once that one is free the whole pull bends the first, which is the deck's own link. Its ribs are
//! pressed by what draws the faces together and by the whole pull, the safe side: one rib alone, since a stud may stand
//! beside it.
//! Wood: the plate presses with the preload and the whole pull, the safe side, since the stud gives as the wood does.
//! Under an ear or base wood is let off by the pull: what the torque crushes there costs preload, and is no link. What a
//! basket's ears press there as they pry is in the strip's own links ([`super::basket`]), what a base presses as its
//! battery tips in [`super::tray`].

use super::found::{Clamped, Found, Pulls};
use super::metal::{deck_used, wood_crush};
use super::result::Link;
use crate::engine::physics::steel::shock::Thrown;
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::engine::simulate::hold_down::spacer::faces;
use crate::plan::Deck;

/// The links between the tightened nuts, where the deck is hollow or of wood.
pub(crate) fn clamped(given: &Fixing<'_>, thrown: Thrown, pulls: Pulls, found: &mut Found) {
    let (carrier, sizes, rules) = (given.carrier, given.sizes, given.rules);
    if let Some(faces) = faces(carrier, sizes, rules, given.torque) {
        let each = deck_used(carrier, sizes, rules, 1.0);
        let (least, lasts) = (faces.used(), each * faces.force.get());
        found.add_clamped(Link::Floor, thrown, Clamped { least, lasts, each: each * faces.share }, pulls);
        let each = 1.0 / faces.rib;
        found.add_clamped(Link::Rib, thrown, Clamped { least: 0.0, lasts: each * faces.force.get(), each }, pulls);
    } else if carrier.deck == Deck::Plywood && sizes.spacer.is_none() {
        let each = 1.0 / (sizes.spreader.get().powi(2) * wood_crush(rules));
        let lasts = given.torque.greatest.get() * each;
        found.add_clamped(Link::Wood, thrown, Clamped { least: 0.0, lasts, each }, pulls);
    }
}
