//! What is wrong, in plain words, and which causes make it look so?
//!
//! How well a cause fits is simulated: what it does to the load, to charging, to the cut-off. A cause that does
//! nothing of the kind keeps a small chance, since people describe what they see as they can.

use crate::engine::simulate::trouble::cause::{Cause, Fault, Faults, size_of};
use crate::engine::simulate::trouble::predict::DEAD;
use crate::engine::simulate::trouble::state::On;
use crate::engine::simulate::trouble::wired::{PartKind, Wired};
use crate::quantity::*;

/// What somebody sees.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Symptom {
    /// A load does nothing.
    #[default]
    Dark,
    /// A load is dim, slow, or stops by itself.
    Weak,
    /// The battery is flat too early.
    Flat,
    /// The cut-off opens too early.
    CutEarly,
    /// The charger does nothing, or little.
    NoCharge,
    /// A fuse has gone.
    FuseGone,
    /// A joint is warm.
    Warm,
    /// The engine cranks weakly.
    Starter,
}

impl Symptom {
    /// Every one.
    pub const ALL: [Symptom; 8] = [
        Symptom::Dark,
        Symptom::Weak,
        Symptom::Flat,
        Symptom::CutEarly,
        Symptom::NoCharge,
        Symptom::FuseGone,
        Symptom::Warm,
        Symptom::Starter,
    ];

    /// Whether it is of a load that must be named: without one no current is known that warms a joint.
    pub fn is_of_a_load(self) -> bool {
        matches!(self, Symptom::Dark | Symptom::Weak | Symptom::Warm)
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Symptom::Dark => "dark",
            Symptom::Weak => "weak",
            Symptom::Flat => "flat",
            Symptom::CutEarly => "cut-early",
            Symptom::NoCharge => "no-charge",
            Symptom::FuseGone => "fuse-gone",
            Symptom::Warm => "warm",
            Symptom::Starter => "starter",
        }
    }

    /// In plain words.
    pub fn words(self) -> &'static str {
        match self {
            Symptom::Dark => "a load does nothing",
            Symptom::Weak => "a load is dim, slow or stops by itself",
            Symptom::Flat => "the battery is flat too early",
            Symptom::CutEarly => "the cut-off opens too early",
            Symptom::NoCharge => "the charger does nothing, or little",
            Symptom::FuseGone => "a fuse has gone",
            Symptom::Warm => "a joint is warm",
            Symptom::Starter => "the engine cranks weakly",
        }
    }
}

/// Chance that a cause which does nothing of the kind is nevertheless behind it: common practice, no source.
const ODD: f64 = 1e-3;
/// Drop that is noticed.
const NOTICED: f64 = 0.3;

/// How likely this fault makes the symptom, 0 to 1.
pub fn fits(wired: &Wired<'_>, symptom: Symptom, load: Option<usize>, fault: Fault) -> f64 {
    let faults: Faults = [Some(fault), None];
    match symptom {
        Symptom::Dark | Symptom::Weak => load.map_or(ODD, |load| at_load(wired, symptom, load, &faults)),
        Symptom::Flat => flat(wired, &faults, fault),
        Symptom::CutEarly => cut_early(wired, load, &faults, fault),
        Symptom::NoCharge => no_charge(wired, &faults),
        Symptom::FuseGone => fuse_gone(wired, load, fault),
        Symptom::Warm => warm(wired, load, &faults, fault),
        Symptom::Starter => match fault.cause {
            Cause::WeakAlternator | Cause::StarterWorn => 1.0,
            Cause::Part(part) if wired.parts[part].kind == PartKind::Earth => 0.3,
            Cause::NeverStops(_) => 0.1,
            _ => ODD,
        },
    }
}

fn volts_at(wired: &Wired<'_>, load: usize, faults: &Faults) -> Option<f64> {
    wired.volts_at(&wired.state(faults, On::Load(load), wired.usual()), load)
}

fn at_load(wired: &Wired<'_>, symptom: Symptom, load: usize, faults: &Faults) -> f64 {
    let dead = size_of(faults, Cause::LoadDead(load)).is_some() || size_of(faults, Cause::SenseReversed).is_some();
    let (Some(sound), Some(now)) = (volts_at(wired, load, &[None, None]), volts_at(wired, load, faults)) else {
        return ODD;
    };
    let lowest = wired.site.loads.get(load).and_then(|l| l.lowest).map_or(DEAD, |v| v.get().min(DEAD));
    let dark = if dead || now < lowest { 1.0 } else { ODD };
    let weak = if sound - now >= NOTICED && now > 0.5 { 1.0 } else { ODD };
    if symptom == Symptom::Dark { dark.max(weak * 0.15) } else { weak.max(dark * 0.05) }
}

fn flat(wired: &Wired<'_>, faults: &Faults, fault: Fault) -> f64 {
    match fault.cause {
        Cause::NeverStops(_) | Cause::LostCapacity | Cause::PanelDead => 1.0,
        Cause::Profile => 0.7,
        _ => no_charge(wired, faults) * 0.8,
    }
}

fn cut_early(wired: &Wired<'_>, load: Option<usize>, faults: &Faults, fault: Fault) -> f64 {
    match fault.cause {
        Cause::LostCapacity | Cause::CutOffSetting | Cause::ProtectionOpen | Cause::SenseReversed => 1.0,
        Cause::NeverStops(_) | Cause::Profile => 0.4,
        Cause::Part(part) => {
            let on_way = wired.sensed_way().contains(&wired.parts[part].branch);
            let dip = load.and_then(|l| Some(volts_at(wired, l, &[None, None])? - volts_at(wired, l, faults)?));
            if on_way && dip.is_none_or(|dip| dip >= NOTICED) { 1.0 } else { ODD.max(no_charge(wired, faults) * 0.3) }
        }
        _ => ODD.max(no_charge(wired, faults) * 0.3),
    }
}

fn no_charge(wired: &Wired<'_>, faults: &Faults) -> f64 {
    if wired.feed_way().is_none() || wired.charge_way().is_none() {
        return ODD;
    }
    let given = |faults| wired.state(faults, On::Engine, wired.usual()).total.get();
    let (sound, now) = (given(&[None, None]), given(faults));
    let weak = size_of(faults, Cause::WeakAlternator).is_some();
    if weak {
        0.7
    } else if sound < -0.1 && now > sound * 0.85 {
        1.0
    } else {
        ODD
    }
}

fn fuse_gone(wired: &Wired<'_>, load: Option<usize>, fault: Fault) -> f64 {
    let on_way = |branch: usize| load.and_then(|l| wired.way_to(l)).is_none_or(|way| way.contains(&branch));
    match fault.cause {
        Cause::Part(part) if wired.parts[part].kind == PartKind::Fuse && on_way(wired.parts[part].branch) => 0.5,
        Cause::WrongFuse(part) if on_way(wired.parts[part].branch) => 1.0,
        Cause::Chafed(branch) if on_way(branch) => 1.0,
        _ => ODD,
    }
}

fn warm(wired: &Wired<'_>, load: Option<usize>, faults: &Faults, fault: Fault) -> f64 {
    let Cause::Part(part) = fault.cause else { return ODD };
    let of = wired.parts[part];
    let Some(load) = load.or_else(|| heaviest(wired, of.branch)) else { return ODD };
    let current = wired.current(&wired.state(faults, On::Load(load), wired.usual()), of.branch).get();
    if current * current * fault.size >= 1.0 && of.kind != PartKind::Cable { 1.0 } else { ODD }
}

/// The load behind a branch that takes most.
pub fn heaviest(wired: &Wired<'_>, branch: usize) -> Option<usize> {
    let behind = |l: &usize| wired.way_to(*l).is_some_and(|way| way.contains(&branch));
    let takes = |l: &usize| wired.site.loads.get(*l).map_or(Amps::ZERO, |l| l.running());
    (0..wired.site.loads.len()).filter(behind).max_by(|a, b| takes(a).get().total_cmp(&takes(b).get()))
}
