//! Does the carrier hold the battery, and how is it made?
//!
//! From the battery's mass, the shock level and the plan's `[carrier]`:
//! dimensions and steel (`shape`, `basket`, `bend`), forces and studs
//! (`loads`, `sharing`, `utilisation`, `strength`, `hold_down`), preload
//! (`torque`). What is left out stands in
//! [`LIMITS`] and must be shown with the figures.

#[cfg(test)]
mod tests;
pub mod torque;

use crate::catalogue::cite;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::hold_down::fixing::Fixing;
use crate::engine::simulate::hold_down::result::{CarrierDesign, LIMITS, Lift, Lifting};
use crate::engine::simulate::hold_down::{shape, strength};
use crate::plan::HoldDownStyle;
use crate::quantity::Kilograms;

/// Design the carrier; `None` when the plan has none, or names what the catalogue does not have.
///
/// The mass is the one of the battery's label where the plan gives it, else that of `bank`.
pub fn carrier(site: &Installation, bank: Option<&Bank>, notes: &mut Notes) -> Option<CarrierDesign> {
    let wanted = &site.hold_down;
    if wanted.style == HoldDownStyle::None {
        return None;
    }
    let size = site.catalogue.stud(&wanted.stud)?;
    let class = site.catalogue.stud_class(&wanted.stud_class)?;
    let rod = site.catalogue.stud(&wanted.rod)?;
    let shock = site.catalogue.shock(&wanted.shock)?;
    let rules = &site.catalogue.rules;
    let factor = rules.bolt_partial.value;
    let studs = Strengths::of(size, class, factor);
    let rods = Strengths::of(rod, class, factor);
    notes.reckon(&Subject::Carrier, "proof load", Strengths::proof_load(size, class), |r| {
        r.working(format!("proof load of {} {}", size.key, class.key))
            .source(cite([&class.from.proof, &size.from.stress_area]))
    });
    let torque = torque::torque(wanted.torque, size, &studs, rules, notes);
    let shape = shape::shape(wanted, rules, notes);
    let mass = site.service_battery.mass.or(bank.map(|b| b.mass)).filter(|m| m.get() > 0.0);
    let pattern = shape.as_ref().map(|s| strength::pattern(wanted, &site.studs, s, size));
    let strength = match (mass, &shape, &pattern) {
        (Some(battery), Some(shape), Some(pattern)) => {
            let given = Fixing { carrier: wanted, rules, shape, battery, shock, size, studs, rods, torque: &torque };
            Some(strength::strength(&given, pattern, notes))
        }
        _ => None,
    };
    let steel = shape.as_ref().map_or(Kilograms::ZERO, |s| s.steel_mass);
    Some(CarrierDesign {
        style: wanted.style,
        battery_mass: mass,
        lifting: mass.map(|m| lifting(site, bank, m, steel)),
        shape,
        strength,
        torque,
        locking: wanted.locking,
        limits: LIMITS,
    })
}

/// The heaviest piece: a basket goes up with its batteries in it, else block by block.
fn lifting(site: &Installation, bank: Option<&Bank>, mass: Kilograms, steel: Kilograms) -> Lifting {
    let blocks = site.service_battery.in_parallel.or(bank.map(|b| b.blocks)).unwrap_or(1).max(1);
    let piece = match site.hold_down.style {
        HoldDownStyle::StripBasket => mass + steel,
        _ => mass / f64::from(blocks),
    };
    let rules = &site.catalogue.rules;
    let by = if piece <= rules.lift_one.value {
        Lift::One
    } else if piece <= rules.lift_two.value {
        Lift::Two
    } else {
        Lift::Jack
    };
    Lifting { mass: piece, by }
}
