//! What can be at fault in the finished installation?
//!
//! Each cause is a change to the plan's own circuit, with a size: ohms that a part has too much (10⁹ for an open one),
//! volts that a source or a setting is off, the share of a capacity that is left.

use crate::engine::simulate::trouble::wired::{PartKind, Wired};
use crate::plan::{ChargerKind, point};
use crate::quantity::*;

/// Resistance of a part that is open.
pub const OPEN: f64 = 1e9;

/// What is at fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cause {
    /// A part has too much resistance or is open, by its index.
    Part(usize),
    /// A fuse smaller than planned has gone, by its part.
    WrongFuse(usize),
    /// The plus cable of this branch has chafed through to the body, and its fuse has gone.
    Chafed(usize),
    /// A load, or its own leads, takes nothing.
    LoadDead(usize),
    /// A load never stops.
    NeverStops(usize),
    /// The alternator gives too little voltage.
    WeakAlternator,
    /// The starter battery is worn, or its own straps are bad: nothing of the installation shows it.
    StarterWorn,
    /// The charger is off or dead.
    ChargerOff,
    /// The wire that switches the charger on carries nothing.
    EnableWire,
    /// The charger stops at too low a voltage.
    Profile,
    /// The battery has lost capacity.
    LostCapacity,
    /// The cut-off is set too high.
    CutOffSetting,
    /// Plus and minus of the cut-off's sense wires are exchanged.
    SenseReversed,
    /// The battery's own protection has opened.
    ProtectionOpen,
    /// The solar panel gives nothing.
    PanelDead,
}

/// A cause with its size, in the unit of its kind (ohms, volts or a share).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fault {
    /// What.
    pub cause: Cause,
    /// How much.
    pub size: f64,
}

/// One or two faults at once.
pub type Faults = [Option<Fault>; 2];

/// The part that a fault changes, and the ohms it adds there.
pub fn added(wired: &Wired<'_>, fault: &Fault) -> Option<(usize, f64)> {
    match fault.cause {
        Cause::Part(part) => Some((part, fault.size)),
        Cause::WrongFuse(part) => Some((part, OPEN)),
        Cause::Chafed(branch) => Some((opens(wired, branch)?, OPEN)),
        // With its sense wires exchanged it sees less than nothing, and stays open.
        Cause::SenseReversed => {
            let contact = wired.parts.iter().position(|p| p.kind == PartKind::CutOff)?;
            Some((contact, OPEN))
        }
        _ => None,
    }
}

/// The size of a cause among the faults.
pub fn size_of(faults: &Faults, cause: Cause) -> Option<f64> {
    faults.iter().flatten().find(|f| f.cause == cause).map(|f| f.size)
}

/// The fuse that goes when the cable of a branch touches the body: the nearest before it.
pub fn opens(wired: &Wired<'_>, branch: usize) -> Option<usize> {
    let way = wired.site.circuits.path_of(branch);
    let fuse = |p: &&usize| wired.parts.get(**p).is_some_and(|p| p.kind == PartKind::Fuse);
    let find = |b: &usize| wired.chains.get(*b)?[0].iter().find(fuse).copied();
    way.iter().rev().find_map(find)
}

/// Everything that can be at fault in this installation.
pub fn causes(wired: &Wired<'_>) -> Vec<Cause> {
    let site = wired.site;
    let mut all: Vec<Cause> = (0..wired.parts.len()).map(Cause::Part).collect();
    let fuses = wired.parts.iter().enumerate().filter(|(_, p)| p.kind == PartKind::Fuse);
    for (index, part) in fuses {
        all.extend([Cause::WrongFuse(index), Cause::Chafed(part.branch)]);
    }
    let drawing = site.loads.iter().enumerate().filter(|(_, l)| l.power > Watts::ZERO && !l.name.is_empty());
    all.extend(drawing.flat_map(|(i, _)| [Cause::LoadDead(i), Cause::NeverStops(i)]));
    if wired.feed_way().is_some() && wired.charger.current.is_some() {
        all.extend([Cause::WeakAlternator, Cause::StarterWorn, Cause::ChargerOff, Cause::Profile]);
        if site.charger.enable_signal && site.charger.kind != ChargerKind::None {
            all.push(Cause::EnableWire);
        }
    }
    if site.service_battery.capacity.is_some() || wired.internal > Ohms::ZERO {
        all.push(Cause::LostCapacity);
    }
    if site.circuits.to_point.contains_key(point::CUT_OFF) {
        all.extend([Cause::CutOffSetting, Cause::SenseReversed]);
    }
    if site.chemistry().is_some_and(|c| c.low.own_protection.is_some()) {
        all.push(Cause::ProtectionOpen);
    }
    if site.solar.array > Watts::ZERO {
        all.push(Cause::PanelDead);
    }
    all
}
