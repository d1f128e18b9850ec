//! Which fuses, and where?
//!
//! Each fuse that the plan leaves open is the smallest within the limits of
//! `judge`, raised where only so the nearest of two opens; given ones are
//! taken as they are. Where none is large enough for its load and small enough
//! for its cable, the cable grows.

pub mod choice;
pub mod grow;
pub mod longest;
pub mod near;
pub mod part;
pub mod pick;
pub mod result;

#[cfg(test)]
mod tests;

use crate::engine::choose::fuse::longest::{FAR_END, longest, note_late};
use crate::engine::choose::fuse::near::near_fuses;
use crate::engine::choose::fuse::pick::fuse_at;
use crate::engine::choose::fuse::result::{by_size, explain, shown};
use crate::engine::installation::Installation;
use crate::engine::installation::working::Notes;
use crate::engine::judge::fuse::far_end::far_end;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::{FarEnd, RunDesign};
use crate::engine::simulate::fault::fuse::Fuses;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// Fuse every run that has a size: fills `fuses`, `far_end` and `longest` of `runs`, in the plan's order.
pub fn protect<'a>(
    site: &'a Installation,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    runs: &mut [RunDesign],
    notes: &mut Notes,
) -> Fuses<'a> {
    let loops = FaultLoops::new(site, battery, charger, runs);
    let branches = 0..site.circuits.branches.len();
    let near = near_fuses(&loops);
    let far_ends: Vec<FarEnd> = branches.clone().map(|b| far_end(&loops, b, &near)).collect();
    let at_far_end = |b: usize| fuse_at(&loops, b, true, Ohms::ZERO).filter(|_| far_ends[b] == FarEnd::Fused);
    let far = branches.clone().map(at_far_end).collect();
    let fuses = Fuses { near, far, far_ends };
    if notes.are_kept() {
        fuses.near.iter().chain(&fuses.far).flatten().for_each(|fuse| explain(&loops, fuse, notes));
    }
    let lengths = longest(&loops, &fuses, notes);
    let shown: Vec<_> = branches.map(|b| (shown(&loops, b, &fuses), by_size(&loops, b, &fuses))).collect();
    for (branch, ((fitted, by_size), length)) in shown.into_iter().zip(lengths).enumerate() {
        let Some(run) = runs.get_mut(site.circuits.branches[branch].run) else { continue };
        for (row, fuse) in run.sizes.iter_mut().zip(by_size) {
            row.fuse = fuse;
            if let Some(used) = run.size.as_mut().filter(|u| u.label == row.label) {
                used.fuse = fuse;
            }
        }
        run.fuses = fitted;
        run.far_end = fuses.far_ends[branch];
        if let Some(length) = length {
            run.longest = Some((length, FAR_END));
        }
        note_late(run, notes);
    }
    fuses
}

/// Largest fault current at the near end of each branch of the topology, with the sizes of `runs`.
pub fn prospective_currents(
    site: &Installation,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    runs: &[RunDesign],
) -> Vec<Amps> {
    let loops = FaultLoops::new(site, battery, charger, runs);
    (0..site.circuits.branches.len()).map(|b| loops.prospective(b).amps).collect()
}
