//! How far are the rim, base, rods and lid of a tray or cabinet used?
//!
//! The rim is a lever over its bend: the battery presses on it evenly over its
//! height, or at its upper edge as a stiff case that tips gives it. Studs and
//! rods pull at the base around them. A cabinet's walls are welded to its floor
//! all round. On wood the edge over which it tips is pressed in. Left out: help
//! from friction and from corners that are welded.

use super::found::{Found, Pulls, Throw, most};
use super::result::Link;
use crate::catalogue::Axis;
use crate::engine::physics::steel::plate::{base_pull, bears_out, curved, drawn, flat, hook_stress};
use crate::engine::physics::steel::shock::Thrown;
use crate::plan::{Deck, HoldDownStyle, RodFoot};

/// Width of the bar that the rods press on the lid; common practice, no source.
const BAR: f64 = 30.0;

/// Each link of the tray; the pulls of its studs.
pub(crate) fn links(throw: Throw<'_>, found: &mut Found) -> Pulls {
    let Throw { given, strength, case, metal } = throw;
    let (carrier, sizes) = (given.carrier, given.sizes);
    let (thrown, inside) = (case.force.thrown, &given.shape.inside);
    let t = sizes.thickness.get();
    let battery = (given.carried - given.besides).get() / strength.total_mass.get().max(1e-6);
    let (push, long) = match thrown.axis() {
        Axis::Along => (case.force.along.get().abs() * battery, inside.across.get()),
        Axis::Across => (case.force.across.get().abs() * battery, inside.along.get()),
        Axis::Upright => (0.0, 1.0),
    };
    if push > 0.0 && carrier.style == HoldDownStyle::Tray {
        let (rim, r) = (carrier.rim.get(), sizes.bend_radius.get());
        let left = drawn(t, r, given.shape.k_factor.get());
        let used = |lever: f64| push * lever * curved(t, r) / flat(long, left) / metal.yields;
        found.add(Link::Rim, thrown, used(rim / 2.0), used(rim));
    }
    if push > 0.0 && carrier.style == HoldDownStyle::Cabinet {
        let weld = push / (2.0 * (inside.along + inside.across).get() * sizes.weld_throat.get()) / metal.weld;
        found.add(Link::Weld, thrown, weld, weld);
    }
    let pull = most(&case.tensions);
    let base = pull / base_pull(t, metal.yields);
    found.add(Link::Base, thrown, base, base);
    if let Some(rods) = strength.hold_down.as_ref().filter(|r| r.axis == thrown.axis()) {
        let used = rods.utilisation.get();
        found.add(Link::Rods, thrown, used, used);
        if carrier.rod_foot == RodFoot::Hook {
            let stands = given.rod_yields.get() / given.rules.metal_partial.value.max(1.0);
            let opens = rods.tension.get() * hook_stress(given.rod.diameter.get()) / stands;
            found.add(Link::Hook, thrown, opens, opens);
        }
        let held = rods.tension.get() / base_pull(t, metal.yields);
        found.add(Link::Base, thrown, held, held);
    }
    if thrown == Thrown::Up {
        let wide = given.shape.battery.unwrap_or(*inside).across.get();
        let bars = f64::from(carrier.rods.div_ceil(2).max(1));
        let pressed = case.force.upright.get().max(0.0) * battery / (bars * BAR * wide).max(1.0);
        let used = pressed / given.rules.lid_pressure.value.get();
        found.add(Link::Case, thrown, used, used);
    }
    if carrier.deck == Deck::Plywood {
        foot(throw, found);
    }
    (pull, pull)
}

/// Wood under the base: pressed down all over it, or along the edge over which the battery tips, by its weight and by all
/// that the studs pull.
fn foot(Throw { given, case, metal, .. }: Throw<'_>, found: &mut Found) {
    let (thrown, inside) = (case.force.thrown, &given.shape.inside);
    if thrown == Thrown::Up {
        return;
    }
    // Along an edge nothing beside it holds the wood up, as it does around a washer.
    let crush = given.rules.plywood_crush.value.get() / given.rules.plywood_partial.value.max(1.0);
    let pulls: f64 = case.tensions.iter().map(|t| t.get()).sum();
    let down = pulls + (-case.force.upright.get()).max(0.0);
    let (long, deep) = match thrown.axis() {
        Axis::Along => (inside.across.get(), inside.along.get()),
        Axis::Across | Axis::Upright => (inside.along.get(), inside.across.get()),
    };
    let stiff = bears_out(given.sizes.thickness.get(), metal.yields, crush);
    let reach = if thrown.axis() == Axis::Upright { deep } else { stiff.min(deep / 2.0) };
    let used = down / (long * reach).max(1.0) / crush;
    found.add(Link::Foot, thrown, used, used);
}
