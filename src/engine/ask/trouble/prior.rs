//! How often is each thing at fault, before anything was measured?
//!
//! Weights against each other: joints and contacts before cables, cables before devices. Common practice, no source.

use crate::engine::simulate::trouble::cause::{Cause, OPEN};
use crate::engine::simulate::trouble::wired::{PartKind, Wired};

/// Ohms of a bad part are tried in steps of this ratio.
const STEP: f64 = 1.2;
/// Least and most volts that a bad part takes at the current of the test, by which its ohms are tried.
const DROPS: (f64, f64) = (0.2, 120.0);

/// Weight of a cause.
pub fn weight(wired: &Wired<'_>, cause: Cause) -> f64 {
    match cause {
        Cause::Part(part) => match wired.parts.get(part).map(|p| p.kind) {
            Some(PartKind::Earth) => 6.0,
            Some(PartKind::Contact) => 5.0,
            Some(PartKind::Fuse) => 5.0,
            Some(PartKind::NearJoint | PartKind::FarJoint) => 3.0,
            Some(PartKind::CutOff) => 2.0,
            Some(PartKind::Cable) | None => 0.5,
        },
        Cause::LoadDead(_) => 4.0,
        Cause::LostCapacity | Cause::StarterWorn => 4.0,
        Cause::EnableWire => 3.0,
        Cause::NeverStops(_) | Cause::WeakAlternator | Cause::ChargerOff | Cause::PanelDead => 2.0,
        Cause::CutOffSetting | Cause::ProtectionOpen => 2.0,
        Cause::Profile => 1.5,
        Cause::WrongFuse(_) | Cause::Chafed(_) | Cause::SenseReversed => 0.5,
    }
}

/// The sizes in which a cause is tried, each with its share of the weight; `amps` flow in the test.
pub fn sizes(wired: &Wired<'_>, cause: Cause, amps: f64) -> Vec<(f64, f64)> {
    let even = |sizes: &[f64]| sizes.iter().map(|s| (*s, 1.0 / sizes.len() as f64)).collect();
    match cause {
        Cause::Part(part) => {
            let kind = wired.parts.get(part).map(|p| p.kind);
            let open = match kind {
                Some(PartKind::Fuse | PartKind::Cable) => 0.8,
                Some(PartKind::CutOff) => 0.6,
                _ => 0.35,
            };
            let count = ((DROPS.1 / DROPS.0).ln() / STEP.ln()).ceil() as i32;
            let least = DROPS.0 / amps.max(0.05);
            let mut all = vec![(OPEN, open)];
            all.extend((0..count).map(|n| (least * STEP.powi(n), (1.0 - open) / f64::from(count))));
            all
        }
        Cause::WeakAlternator => even(&[0.6, 1.0, 1.4, 1.8]),
        Cause::Profile => even(&[0.5, 0.8, 1.1]),
        Cause::LostCapacity => even(&[0.3, 0.4, 0.5, 0.6, 0.7]),
        Cause::CutOffSetting => even(&[0.3, 0.6, 1.0]),
        Cause::WrongFuse(_) => even(&[0.3, 0.5, 0.7]),
        _ => even(&[1.0]),
    }
}
