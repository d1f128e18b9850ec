//! A fault current, the largest or the smallest, with all that it follows from.

use crate::engine::physics::reckon::Reckoned;
use crate::quantity::*;
use crate::reckon;

/// The largest fault current at a place.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Prospective {
    /// In all, at the most.
    pub amps: Amps,
    /// In all, with a usual battery of this kind, or with what is known of this one.
    pub likely: Amps,
    /// Full voltage of the battery on this side; zero when it has no size.
    pub emf: Volts,
    /// Its least resistance.
    pub internal: Ohms,
    /// Its usual resistance.
    pub usual: Ohms,
    /// Cold path from it.
    pub path: Ohms,
    /// The fuse-links in that path, cold.
    pub links: Ohms,
    /// What the other sources add.
    pub others: Amps,
    /// What of that the battery of the other side adds, through a relay.
    pub other_battery: Amps,
}

/// The smallest fault current at the far end.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FarFault {
    /// The current.
    pub amps: Amps,
    /// Voltage of the battery at its reserve, cold.
    pub emf: Volts,
    /// Its worst resistance.
    pub internal: Ohms,
    /// Hot path, joints and fuse-links in it.
    pub path: Ohms,
    /// The branch at whose end it is smallest.
    pub branch: usize,
}

impl Prospective {
    /// E / (r + R), bounded for no resistance (an ideal source does not exist: 0.1 mΩ at the least), and the others.
    pub fn by_ohm(&self) -> Reckoned<Amps, 5> {
        self.with(self.internal)
    }

    /// The same with a resistance of the battery.
    pub fn with(&self, internal: Ohms) -> Reckoned<Amps, 5> {
        reckon!(Amps: E / max(0.0001, r + R + links) + others,
            E: "full resting voltage of the battery" = self.emf,
            r: "its internal resistance" = internal,
            R: "path out and back, cold" = self.path,
            links: "fuse-links on the way, cold, at the least" = self.links,
            others: "what charger, solar, mains charger, alternator or the other battery add" = self.others)
    }
}

impl FarFault {
    /// E / (r + R), bounded for no resistance.
    pub fn by_ohm(&self) -> Reckoned<Amps, 3> {
        reckon!(Amps: E / max(0.0001, r + R),
            E: "resting voltage of the battery at its reserve, cold" = self.emf,
            r: "its internal resistance then, aged" = self.internal,
            R: "path out and back as hot as the insulation stands, joints and fuse-links in it" = self.path)
    }
}

/// E / R, zero for no voltage and bounded for no resistance (an ideal source does not exist: 0.1 mΩ at the least).
pub fn short_circuit(emf: Volts, resistance: Ohms) -> Amps {
    emf.max(Volts::ZERO) / resistance.max(Ohms::new(1e-4))
}
