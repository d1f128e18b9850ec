//! Which battery is fitted?

use crate::catalogue::Chemistry;
use crate::engine::physics::cell::store::Store;
use crate::quantity::*;

/// Equal blocks in parallel.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bank {
    /// Chemistry key.
    pub chemistry: String,
    /// Capacity of the whole bank.
    pub capacity: AmpHours,
    /// Blocks in parallel.
    pub blocks: u32,
    /// Capacity of one block.
    pub block: AmpHours,
    /// Mass of the whole bank.
    pub mass: Kilograms,
    /// Working internal resistance, new, warm, half full.
    pub resistance: Ohms,
    /// Working internal resistance at the coldest, aged, at the reserve.
    pub resistance_worst: Ohms,
    /// Least resistance, for fault currents.
    pub resistance_fault: Ohms,
    /// Short-circuit current at the posts: full resting voltage over the least resistance.
    pub fault: Amps,
    /// Usual resistance of a full, warm bank of its kind, or what is known of this one.
    pub resistance_likely: Ohms,
    /// Short-circuit current that follows from it.
    pub fault_likely: Amps,
}

impl Bank {
    /// Its voltage and resistance, given its chemistry.
    pub fn store<'a>(&self, chemistry: &'a Chemistry) -> Store<'a> {
        Store { chemistry, capacity: self.capacity, base: self.resistance }
    }
}
