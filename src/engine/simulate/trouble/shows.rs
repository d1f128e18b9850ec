//! How can a fault show in this reading, if at all?
//!
//! Most of what is wired lies on no way that a reading is about, and between two probes one bad part looks like
//! another. What cannot show needs no circuit to be solved for it, and what looks alike is solved once.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::trouble::cause::{Cause, Fault, OPEN, added};
use crate::engine::simulate::trouble::predict::{Measurement, Probe};
use crate::engine::simulate::trouble::state::On;
use crate::engine::simulate::trouble::wired::{Pole, Spot, Wired};

/// How a fault shows: two with the same marks show the same, alone and beside any other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mark {
    /// Not at all.
    Silent,
    /// By ohms that it adds.
    Adds {
        /// How many.
        ohms: f64,
        /// On the way of the load, on that to the charger, on that from it.
        flows: [bool; 3],
        /// Before the red probe, and before the black one.
        before: [bool; 2],
        /// Where the body lies beside it.
        bodied: bool,
    },
    /// By ohms in this branch, where more than one way may carry a current.
    In(usize, f64),
    /// As nothing else does.
    Own(Fault),
}

/// Whether a fault does nothing but resist: where no current flows it is not seen.
pub fn only_resists(fault: &Fault) -> bool {
    matches!(fault.cause, Cause::Part(_)) && fault.size < OPEN / 2.0
}

impl Wired<'_> {
    /// How a fault changes what a measurement shows; rather as nothing else does where it is not clear.
    pub fn mark(&self, fault: &Fault, what: &Measurement) -> Mark {
        let own = |may: bool| if may { Mark::Own(*fault) } else { Mark::Silent };
        let engine = matches!(what.on, On::Engine | On::Full);
        match fault.cause {
            Cause::ProtectionOpen => own(true),
            Cause::WrongFuse(part) if what.probe == Probe::Printed(part) => own(true),
            Cause::Chafed(branch) if what.probe == Probe::ToBody(branch) => own(true),
            Cause::SenseReversed if what.probe == Probe::Sense => own(true),
            Cause::Part(_) | Cause::WrongFuse(_) | Cause::Chafed(_) | Cause::SenseReversed => self.part(fault, what),
            Cause::LoadDead(load) => own(what.on == On::Load(load)),
            Cause::NeverStops(_) => own(what.on == On::Rest),
            Cause::WeakAlternator | Cause::ChargerOff | Cause::Profile => own(engine),
            Cause::StarterWorn => Mark::Silent,
            Cause::EnableWire => own(engine || what.probe == Probe::Enable),
            Cause::LostCapacity => own(what.probe == Probe::Capacity),
            Cause::CutOffSetting => own(what.probe == Probe::Setting),
            Cause::PanelDead => own(what.probe == Probe::Panel),
        }
    }

    /// Whether a current or a probe meets the part that a fault changes.
    fn part(&self, fault: &Fault, what: &Measurement) -> Mark {
        let placed = added(self, fault).and_then(|(part, ohms)| Some((part, *self.parts.get(part)?, ohms)));
        let Some((index, part, ohms)) = placed else { return Mark::Own(*fault) };
        let branch = part.branch;
        let on = |way: Option<&[usize]>| way.is_some_and(|way| way.contains(&branch));
        let flows = match what.on {
            On::Rest => [false; 3],
            On::Load(load) => [on(self.way_to(load)), false, false],
            On::Engine | On::Full => [false, on(self.feed_way()), on(self.charge_way())],
        };
        let before = match what.probe {
            Probe::Between(red, black) => [red, black].map(|spot| self.lies_before(index, spot)),
            _ => [false; 2],
        };
        // What never stops flows wherever it leads; the cut-off senses at both poles.
        let anywhere = match what.probe {
            Probe::Sense => self.sensed_way().contains(&branch),
            Probe::Battery | Probe::Lead(_) => what.on == On::Rest,
            Probe::Between(..) => what.on == On::Rest && before.contains(&true),
            _ => false,
        };
        if anywhere {
            return if what.probe == Probe::Sense { Mark::Own(*fault) } else { Mark::In(branch, ohms) };
        }
        if !flows.contains(&true) && !before.contains(&true) {
            return Mark::Silent;
        }
        let side = self.site.circuits.branches.get(branch).map(|b| b.side);
        let bodied = side == Some(Side::Feed) && part.pole == Pole::Minus;
        Mark::Adds { ohms, flows, before, bodied }
    }

    /// Whether a part lies between the post of its battery and a spot.
    fn lies_before(&self, part: usize, spot: Spot) -> bool {
        let mut at = spot;
        while let Some(branch) = at.branch {
            if self.chain(branch, at.pole).iter().take(at.after).any(|p| *p == part) {
                return true;
            }
            let parent = self.site.circuits.branches.get(branch).and_then(|b| b.parent);
            at = Spot { branch: parent, after: usize::MAX, ..at };
        }
        false
    }
}
