//! How big is the carrier inside and out, and does battery and deck leave room?
//!
//! Inside dimensions as given, or battery and clearance at both sides and
//! above. The height taken is inside height and the steel above or below it.

use crate::catalogue::Rules;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::hold_down::Sizes;
use crate::engine::physics::steel::bend::{Bends, bend_allowance, k_factor};
use crate::engine::simulate::hold_down::basket::Steel;
use crate::engine::simulate::hold_down::result::{Box3, Shape};
use crate::plan::{HoldDown, HoldDownStyle};
use crate::quantity::*;
use crate::reckon;

/// Shape and steel; `None` when neither inside nor battery dimensions say how big it is.
pub(crate) fn shape(carrier: &HoldDown, sizes: &Sizes, rules: &Rules, notes: &mut Notes) -> Option<Shape> {
    let gap = carrier.clearance;
    let inside = Box3 {
        along: carrier.length.or(carrier.battery_length.map(|b| b + 2.0 * gap))?,
        across: carrier.width.or(carrier.battery_width.map(|b| b + 2.0 * gap))?,
        upright: carrier.height.or(carrier.battery_height.map(|b| b + gap))?,
    };
    let battery = battery(carrier);
    let clearance = battery.map(|b| Box3 {
        along: (inside.along - b.along) / 2.0,
        across: (inside.across - b.across) / 2.0,
        upright: inside.upright - b.upright,
    });
    let (k_factor, allowance) = bend(carrier, sizes, notes);
    let bends = Bends { radius: sizes.bend_radius, thickness: sizes.thickness, allowance };
    let blanks = Steel { carrier, sizes, bends, rules }.blanks(&inside, notes).unwrap_or_default();
    let steel_mass = blanks.iter().map(|b| b.mass).sum();
    let outside_height = inside.upright + sizes.thickness * steel_above_and_below(carrier.style);
    Some(Shape {
        inside,
        battery,
        clearance,
        outside_height,
        height_left: carrier.free_height.map(|free| free - outside_height),
        k_factor,
        bend_allowance: allowance,
        ear_reach: sizes.thickness + carrier.rim,
        blanks,
        steel_mass,
    })
}

fn battery(carrier: &HoldDown) -> Option<Box3> {
    Some(Box3 { along: carrier.battery_length?, across: carrier.battery_width?, upright: carrier.battery_height? })
}

/// Thicknesses of steel above and below: two strips cross under a basket; a cabinet has floor and lid.
fn steel_above_and_below(style: HoldDownStyle) -> f64 {
    match style {
        HoldDownStyle::None => 0.0,
        HoldDownStyle::Tray => 1.0,
        HoldDownStyle::StripBasket | HoldDownStyle::Cabinet => 2.0,
    }
}

/// How far the neutral line lies in the thickness, and the arc of it in a bend of 90°.
fn bend(carrier: &HoldDown, sizes: &Sizes, notes: &mut Notes) -> (Share, Millimetres) {
    let (about, r, t) = (&Subject::Carrier, sizes.bend_radius, sizes.thickness);
    let k = carrier.k_factor.or_else(|| by_trial(carrier, sizes, notes)).unwrap_or_else(|| {
        notes.reckon(about, "K-factor", k_factor(r, t), |k| {
            k.working("K-factor")
                .source("DIN 6935 (from memory, verify)")
                .note("a test bend in your own tools is better: enter its K-factor")
        })
    });
    let allowance = notes.reckon(about, "bend allowance", bend_allowance(Degrees::new(90.0), r, t, k), |b| {
        b.working("bend allowance of 90°")
            .from("K", Subject::Carrier, "K-factor")
            .source("length of the neutral line, plain geometry")
    });
    (k, allowance)
}

/// What the maker's own trial strip says of the neutral line: it was so long flat, and its two outside legs are so
/// long together once bent by 90°. What no bend can give is taken as the nearest that one can.
fn by_trial(carrier: &HoldDown, sizes: &Sizes, notes: &mut Notes) -> Option<Share> {
    let (flat, legs) = (carrier.trial_flat?, carrier.trial_legs?);
    let reckoned = reckon!(Share: min(max(((flat - legs + 2.0 * (r + t)) / (pi / 2.0) - r) / t, 0.2), 0.5),
        flat: "trial strip, flat" = flat,
        legs: "both its outside legs, bent" = legs,
        pi: "circle number" = Figure::number(std::f64::consts::PI),
        r: "inside radius" = sizes.bend_radius,
        t: "thickness" = sizes.thickness);
    Some(notes.reckon(&Subject::Carrier, "K-factor", reckoned, |k| {
        k.working("K-factor of the trial strip").source("entered by you: a test bend in your own tools")
    }))
}
