//! Which part lies one step above or below another, as it is sold?

use crate::engine::design::Design;
use crate::engine::judge::remedy::Edit;
use crate::engine::parts::battery::Bank;
use crate::plan::{Place, Section, Value, point};
use crate::quantity::*;

/// The banks of equal blocks next to one: below and above, each with its number of blocks.
pub fn banks(design: &Design, bank: &Bank) -> [Option<(u32, AmpHours)>; 2] {
    let Some(chemistry) = design.installation.catalogue.chemistry(&bank.chemistry) else { return [None, None] };
    let counts = 1..=chemistry.blocks.max_parallel.max(1);
    let sizes = &chemistry.blocks.sizes;
    let all: Vec<(u32, AmpHours)> =
        counts.flat_map(|n| sizes.iter().map(move |block| (n, *block * f64::from(n)))).collect();
    // Of one capacity the fewest blocks, which come first.
    let below = all.iter().filter(|b| b.1 < bank.capacity).copied().reduce(|a, b| if b.1 > a.1 { b } else { a });
    let above = all.iter().filter(|b| b.1 > bank.capacity).copied().reduce(|a, b| if b.1 < a.1 { b } else { a });
    [below, above]
}

/// A bank as edits.
pub fn bank_edits((blocks, capacity): (u32, AmpHours)) -> Vec<Edit> {
    let edit = |key, value| Edit { place: Place::of(Section::ServiceBattery, key), value: Some(Value::Number(value)) };
    vec![edit("capacity_ah", capacity.get()), edit("in_parallel", f64::from(blocks))]
}

/// The standard charger currents next to the one in hand.
pub fn chargers(design: &Design) -> [Option<Amps>; 2] {
    let Some(now) = design.charger.current else { return [None, None] };
    let sizes = &design.installation.catalogue.devices.chargers.sizes;
    let below = sizes.iter().rev().find(|a| **a < now).copied();
    [below, sizes.iter().find(|a| **a > now).copied()]
}

/// The sizes next to that of a run: below and above.
pub fn sizes(design: &Design, run: usize) -> [Option<String>; 2] {
    let Some(of) = design.runs.get(run) else { return [None, None] };
    let Some(at) = of.sizes.iter().position(|s| s.used) else { return [None, None] };
    let label = |n: Option<usize>| n.and_then(|n| of.sizes.get(n)).map(|s| s.label.clone());
    [label(at.checked_sub(1)), label(at.checked_add(1))]
}

/// The run that feeds the charger from the starter battery.
pub fn feed(design: &Design) -> Option<usize> {
    let branches = design.installation.circuits.branches.iter();
    branches.filter(|b| b.near == point::STARTER_BATTERY).map(|b| b.run).next()
}
