//! Does the carrier hold the battery, and how is it made?
//!
//! From the battery's mass, the shock level and the plan's `[hold_down]`: sizes (`sizes`), and
//! what simulate makes of them. What is left out stands in [`LIMITS`] and must be shown with the
//! figures.

pub(crate) mod bounds;
pub(crate) mod offers;
pub(crate) mod sizes;
#[cfg(test)]
mod tests;
pub mod torque;

use crate::catalogue::cite;
use crate::engine::choose::hold_down::bounds::explain;
use crate::engine::choose::hold_down::offers::usual;
use crate::engine::choose::hold_down::sizes::Choice;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::steel::utilisation::Strengths;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::hold_down::build::Build;
use crate::engine::simulate::hold_down::built::built;
use crate::engine::simulate::hold_down::mounted::{Given, borne, mounted};
use crate::engine::simulate::hold_down::result::{CarrierDesign, LIMITS, Lift, Lifting};
use crate::engine::simulate::hold_down::spacer::squeeze;
use crate::engine::simulate::hold_down::strength::pattern;
use crate::plan::HoldDownStyle;
use crate::quantity::Kilograms;

/// Design the carrier; `None` when the plan has none, or names what the catalogue does not have.
///
/// The mass is the one of the battery's label where the plan gives it, else that of `bank`.
/// The devices that may hang on it are those of `charger` and `cut_off`.
pub fn carrier(
    site: &Installation,
    bank: Option<&Bank>,
    (charger, cut_off): (&ChargerDesign, &CutOffDesign),
    notes: &mut Notes,
) -> Option<CarrierDesign> {
    let build = Build::of(site)?;
    let mass = site.service_battery.mass.or(bank.map(|b| b.mass)).filter(|m| m.get() > 0.0);
    let choice = sizes::choice(&build, mass);
    let sizes = choice.as_ref().and_then(Choice::lightest).unwrap_or_else(|| usual(site));
    explain(site, choice.as_ref(), &sizes, notes);
    let size = site.catalogue.stud(&sizes.stud)?;
    notes.reckon(&Subject::Carrier, "proof load", Strengths::proof_load(size, build.class), |r| {
        r.working(format!("proof load of {} {}", size.key, build.class.key))
            .source(cite([&build.class.from.proof, &size.from.stress_area]))
    });
    let torque = torque::torque(site.hold_down.torque, size, &build.studs(size), &site.catalogue.rules, notes);
    let shape = build.shape(&sizes, notes);
    let strength = mass.zip(shape.as_ref()).and_then(|(m, shape)| build.strength(&sizes, shape, &torque, m, notes));
    let steel = shape.as_ref().map_or(Kilograms::ZERO, |s| s.steel_mass);
    let laid = shape.as_ref().map(|s| (s, pattern(&site.hold_down, &sizes, &site.studs, s, size)));
    let built = laid.and_then(|(s, studs)| built(&site.hold_down, &site.as_built, &site.drilled, s, &studs, size));
    let mounted = mounted(&Given { site, charger, cut_off, shape: shape.as_ref(), sizes: Some(&sizes) }, notes);
    let spacer = squeeze(&site.hold_down, &sizes, &site.catalogue.rules, &torque, notes);
    Some(CarrierDesign {
        style: site.hold_down.style,
        sizes,
        battery_mass: mass,
        lifting: mass.map(|m| lifting(site, bank, m, steel + borne(site))),
        shape,
        strength,
        torque,
        spacer,
        built,
        mounted,
        locking: site.hold_down.locking,
        limits: LIMITS,
    })
}

/// The heaviest piece: a basket goes up with its batteries in it and `bare`, its steel and devices; else block by block.
fn lifting(site: &Installation, bank: Option<&Bank>, mass: Kilograms, bare: Kilograms) -> Lifting {
    let blocks = site.service_battery.in_parallel.or(bank.map(|b| b.blocks)).unwrap_or(1).max(1);
    let piece = match site.hold_down.style {
        HoldDownStyle::StripBasket => mass + bare,
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
