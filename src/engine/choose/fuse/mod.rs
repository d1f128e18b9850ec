//! Which fuses, and where?
//!
//! Devices at the near ends are chosen together with the sizes
//! (`choose/circuit/together`), those at far ends that are fed from there too
//! afterwards; given ones are taken as they are.

pub mod longest;
pub mod near;
pub mod options;
pub mod pick;
pub mod result;
pub mod ruling;

#[cfg(test)]
mod tests;

use crate::engine::choose::fuse::longest::{FAR_END, longest, note_late};
use crate::engine::choose::fuse::near::{chosen, near_fuses};
use crate::engine::choose::fuse::pick::far_fuse;
use crate::engine::choose::fuse::result::{by_size, explain, shown};
use crate::engine::choose::fuse::ruling::ruling;
use crate::engine::installation::Installation;
use crate::engine::installation::working::Notes;
use crate::engine::judge::fuse::far_end::far_end;
use crate::engine::physics::side_by_side::in_parts;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::{FarEnd, RunDesign};
use crate::engine::simulate::fault::fuse::{Fuse, Fuses};
use crate::engine::simulate::fault::loops::FaultLoops;

/// Fuse every run that has a size: fills `fuses`, `far_end` and `longest` of `runs`, in the plan's order.
pub fn protect<'a>(
    site: &'a Installation,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    runs: &mut [RunDesign],
    notes: &mut Notes,
) -> Fuses<'a> {
    let mut loops = FaultLoops::new(site, battery, charger, runs);
    let branches = 0..site.circuits.branches.len();
    let devices = chosen(&mut loops);
    let near = near_fuses(&loops, &devices);
    let far_ends: Vec<FarEnd> = branches.clone().map(|b| far_end(&loops, b, &near)).collect();
    let at_far_end = |b: usize| far_fuse(&loops, b, &near).map(|f| Fuse { ruling: ruling(&loops, &f, &near), ..f });
    let far = branches.clone().map(|b| if far_ends[b] == FarEnd::Fused { at_far_end(b) } else { None }).collect();
    let fuses = Fuses { near, far, far_ends };
    if notes.are_kept() {
        fuses.near.iter().chain(&fuses.far).flatten().for_each(|fuse| explain(&loops, fuse, notes));
    }
    let lengths = longest(&loops, &fuses, notes);
    let shown = in_parts(branches.len(), 64, |b| (shown(&loops, b, &fuses), by_size(&loops, b, &fuses)));
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
