//! How big is the carrier inside and out, and does battery and deck leave room?
//!
//! Inside dimensions as given, or battery and clearance at both sides and
//! above. The height taken is inside height and the steel above or below it.

use crate::catalogue::Rules;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::steel::bend::{Bends, bend_allowance, k_factor};
use crate::engine::simulate::hold_down::basket::blanks;
use crate::engine::simulate::hold_down::result::{Blank, Box3, Shape};
use crate::plan::{HoldDown, HoldDownStyle};
use crate::quantity::*;

/// Shape and steel; `None` when neither inside nor battery dimensions say how big it is.
pub(crate) fn shape(carrier: &HoldDown, rules: &Rules, notes: &mut Notes) -> Option<Shape> {
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
    let k = carrier.k_factor.unwrap_or_else(|| k_factor(carrier.bend_radius, carrier.thickness));
    let allowance = allowance(carrier, k, notes);
    let bends = Bends { radius: carrier.bend_radius, thickness: carrier.thickness, allowance };
    let blanks = blanks(carrier, &inside, &bends, rules.steel_density.value).unwrap_or_default();
    let steel_mass = blanks.iter().map(|b| b.mass).sum();
    let outside_height = inside.upright + carrier.thickness * steel_above_and_below(carrier.style);
    work(carrier, &inside, &blanks, allowance, rules, notes);
    Some(Shape {
        inside,
        battery,
        clearance,
        outside_height,
        height_left: carrier.free_height.map(|free| free - outside_height),
        k_factor: k,
        bend_allowance: allowance,
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

fn allowance(carrier: &HoldDown, k: Share, notes: &mut Notes) -> Millimetres {
    let (r, t) = (carrier.bend_radius, carrier.thickness);
    if carrier.k_factor.is_none() {
        notes.add(Subject::Carrier, "K-factor", || {
            let formula = "min(max((0.65 + 0.5 * ln(min(r / t, 5)) / ln(10)) / 2, 0.2), 0.5)";
            Working::new("K-factor", formula, Figure::number(k.get()))
                .with("r", "inside radius", r)
                .with("t", "thickness", t)
                .source("DIN 6935 (from memory, verify)")
                .note("a test bend in your own tools is better: enter its K-factor")
        });
    }
    let quarter = Degrees::new(90.0);
    let allowance = bend_allowance(quarter, r, t, k);
    notes.add(Subject::Carrier, "bend allowance", || {
        Working::new("bend allowance of 90°", "angle * pi / 180 * (r + K * t)", allowance)
            .with("angle", "angle bent through", quarter)
            .with("pi", "circle number", Figure::number(std::f64::consts::PI))
            .with("r", "inside radius", r)
            .with_from("K", "K-factor", Figure::number(k.get()), Subject::Carrier, "K-factor")
            .with("t", "thickness", t)
            .source("length of the neutral line, plain geometry")
    });
    allowance
}

fn work(carrier: &HoldDown, inside: &Box3, blanks: &[Blank], allowance: Millimetres, rules: &Rules, notes: &mut Notes) {
    for blank in blanks {
        notes.add(Subject::Carrier, format!("mass of {}", blank.name), || {
            let formula = if blank.name == "tray" { "" } else { "n * length * width * t * rho / 1000000000" };
            Working::new(format!("mass of {} × {}", blank.count, blank.name), formula, blank.mass)
                .with("n", "how many", Figure::new(f64::from(blank.count), Unit::Count))
                .with("length", "flat length", blank.length)
                .with("width", "flat width", blank.width)
                .with("t", "thickness", blank.thickness)
                .with("rho", "density of steel, kg/m³", Figure::number(rules.steel_density.value))
                .source(rules.steel_density.from.words())
                .note("holes are not taken off; the corners of a tray are")
        });
    }
    let Some(cross) = blanks.iter().find(|b| b.name == "cross strip") else { return };
    notes.add(Subject::Carrier, "blank length", || {
        let formula = "2 * (ear - r) + 2 * (H - 2 * r - t) + W - 2 * r + 4 * BA";
        Working::new("flat length of a cross strip", formula, cross.length)
            .with("ear", "ear beyond the leg", carrier.rim)
            .with("r", "inside radius", carrier.bend_radius)
            .with("H", "inside height, deck to bottom", inside.upright)
            .with("t", "thickness", carrier.thickness)
            .with("W", "inside width", inside.across)
            .with_from("BA", "bend allowance", allowance, Subject::Carrier, "bend allowance")
            .source("straight parts and four bends of 90°, plain geometry")
    });
}
