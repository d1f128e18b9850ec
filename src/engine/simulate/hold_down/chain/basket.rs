//! How far are the strips, straps and welds of a basket used?
//!
//! Downward and across, the cross strips are frames ([`super::strips`]). Along
//! the vehicle the legs bend over their width, the end straps carry the battery
//! as beams, and welds hand that to the legs. Wood under the ears holds them flat
//! only as far as it is not crushed: beyond that they turn, and the strip bears
//! what they held. Left out: help from the long strip, from friction, and from the
//! deck above the battery.

use super::found::{Eased, Found, Pulls, Throw, most};
use super::metal::{Metal, wood_crush};
use super::result::Link;
use super::strips::{Felt, Strip, Thrust};
use crate::catalogue::Axis;
use crate::engine::physics::steel::plate::{angle_area, angle_modulus, bears_out, curved, drawn, flat};
use crate::engine::physics::steel::shock::{Thrown, weight};
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::engine::simulate::hold_down::result::{ShockCase, Strength};
use crate::plan::Deck;

/// The cross strip as a frame.
pub(crate) fn strip(given: &Fixing<'_>, strength: &Strength) -> Strip {
    let (carrier, sizes, inside) = (given.carrier, given.sizes, &given.shape.inside);
    let t = sizes.thickness.get();
    let wide = inside.across.get() + t;
    let tip = (t / 2.0 + carrier.rim.get()).max(3.0);
    let out = strength.studs.iter().map(|s| s.across.get().abs()).fold(0.0, f64::max) - wide / 2.0;
    let gap = given.shape.clearance.map_or(carrier.clearance, |c| c.across);
    Strip {
        wide,
        high: inside.upright.get().max(1.0),
        stud: out.clamp(1.0, tip - 1.0),
        tip,
        corner: (gap.get() + t / 2.0).clamp(1.0, wide * 0.4),
        width: sizes.strip_width.get(),
        thickness: t,
    }
}

/// What comes on the strip that bears most.
pub(crate) fn thrust(given: &Fixing<'_>, strength: &Strength, case: &ShockCase) -> Thrust {
    let strips = f64::from(given.sizes.rows.max(1));
    let above = (given.shape.inside.upright - strength.lever).get().max(0.0);
    let rows = 2.0 * most(&case.tensions);
    match case.force.thrown {
        Thrown::Up => Thrust { down: 0.0, side: 0.0, above },
        Thrown::Left | Thrown::Right => {
            Thrust { down: weight(strength.total_mass).get() / strips, side: 2.0 * most(&case.shears), above }
        }
        _ => Thrust { down: rows, side: 0.0, above },
    }
}

/// Each link of the basket; the pulls of its studs.
pub(crate) fn links(throw: Throw<'_>, found: &mut Found) -> Pulls {
    let Throw { given, strength, case, metal } = throw;
    let strip = strip(given, strength);
    let thrust = thrust(given, strength, case);
    let felt = |corners| given.frames.felt(&strip, thrust, corners).unwrap_or_default();
    let (even, corners) = (felt(false), felt(true));
    let thrown = case.force.thrown;
    // A leg is a lever from the deck to the mass, bent over the width of its strip.
    let along = thrown.axis() == Axis::Along;
    let edge = if along { most(&case.shears) * strength.lever.get() } else { 0.0 };
    let stress = Stress { given, metal, strip, edge };
    let bent = [Link::Strip, Link::Bend, Link::Leg];
    if given.carrier.deck == Deck::Plywood {
        let wood = wood_holds(given, metal, &strip);
        let loose = |corners| given.frames.loose(&strip, thrust, corners).unwrap_or_default();
        let (loose_even, loose_corners) = (loose(false), loose(true));
        for link in bent {
            let eased = |held: &Felt, loose: &Felt| Eased {
                held: stress.bent(link, held),
                loose: stress.bent(link, loose),
                bears: wood / held.ear.max(1e-9),
            };
            found.add_eased(link, thrown, eased(&even, &loose_even), eased(&corners, &loose_corners));
        }
    } else {
        bent.iter().for_each(|l| found.add(*l, thrown, stress.bent(*l, &even), stress.bent(*l, &corners)));
    }
    found.add(Link::Ear, thrown, stress.ear(&even), stress.ear(&corners));
    straps(given, case, metal, &strip, found);
    if thrown == Thrown::Up {
        let inside = given.shape.battery.unwrap_or(given.shape.inside);
        let pressed = case.force.upright.get().max(0.0) / (inside.along.get() * inside.across.get()).max(1.0);
        let limit = given.rules.lid_pressure.value.get();
        found.add(Link::Case, thrown, pressed / limit, pressed / limit);
    }
    (even.stud, corners.stud)
}

/// Moment by which wood holds an ear flat at its stud: pressed all over what is stiff of the ear from there to its tip, as
/// much as it stands under a washer; wood that is crushed goes on bearing that.
fn wood_holds(given: &Fixing<'_>, metal: &Metal, strip: &Strip) -> f64 {
    let crush = wood_crush(given.rules);
    let stiff = given.size.diameter.get() + bears_out(strip.thickness, metal.yields, crush);
    let reach = (strip.tip - strip.stud).min(strip.stud).min(stiff).max(0.0);
    crush * strip.width * reach * reach / 2.0
}

struct Stress<'a> {
    given: &'a Fixing<'a>,
    metal: &'a Metal,
    strip: Strip,
    edge: f64,
}

impl Stress<'_> {
    fn used(&self, (moment, pull): (f64, f64), thickness: f64, factor: f64, edge: f64) -> f64 {
        let width = self.strip.width;
        let over = flat(thickness, width);
        let stress = factor * moment / flat(width, thickness) + pull / (width * thickness) + edge / over;
        stress / self.metal.yields
    }

    /// Bottom, bends or legs.
    fn bent(&self, link: Link, felt: &Felt) -> f64 {
        let (t, r) = (self.strip.thickness, self.given.sizes.bend_radius.get());
        match link {
            Link::Strip => self.used(felt.bottom, t, 1.0, 0.0),
            Link::Leg => self.used(felt.leg, t, 1.0, self.edge),
            _ => self.used(felt.bend, drawn(t, r, self.given.shape.k_factor.get()), curved(t, r), self.edge),
        }
    }

    fn ear(&self, felt: &Felt) -> f64 {
        let left = (self.strip.width - self.given.size.hole.get()).max(0.1);
        felt.ear / flat(left, self.strip.thickness) / self.metal.yields
    }
}

/// Straps around the basket, and their welds; without any, the long strip's end alone.
fn straps(given: &Fixing<'_>, case: &ShockCase, metal: &Metal, strip: &Strip, found: &mut Found) {
    let (carrier, sizes) = (given.carrier, given.sizes);
    let (thrown, inside) = (case.force.thrown, &given.shape.inside);
    let (push, span) = match thrown.axis() {
        Axis::Along => (case.force.along.get().abs(), inside.across.get()),
        Axis::Across => {
            let gaps = f64::from(sizes.rows.saturating_sub(1).max(1));
            (case.force.across.get().abs() / gaps, inside.along.get() / gaps)
        }
        Axis::Upright => return,
    };
    if carrier.straps == 0 {
        let lever = push * strip.high / 2.0 / flat(strip.width, strip.thickness) / metal.yields;
        if thrown.axis() == Axis::Along {
            found.add(Link::Strap, thrown, lever, lever);
        }
        return;
    }
    let straps = f64::from(carrier.straps);
    let (leg, t) = (sizes.strap_leg.get(), sizes.strap_thickness.get());
    let pull = push / (2.0 * straps) / angle_area(leg, t);
    let used = |moment: f64| (moment / straps / angle_modulus(leg, t) + pull) / metal.yields;
    found.add(Link::Strap, thrown, used(push * span / 8.0), used(push / 2.0 * strip.corner.min(span / 4.0)));
    let weld = push / (2.0 * straps) / (sizes.weld_throat.get() * sizes.weld_length.get()) / metal.weld;
    found.add(Link::Weld, thrown, weld, weld);
}
