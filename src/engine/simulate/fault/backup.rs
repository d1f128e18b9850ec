//! Does a device upstream break what a small one cannot?
//!
//! A device that cannot break its prospective current is backed up when one
//! upstream, on the only way by which a battery can feed the fault, breaks that
//! current and clears it within [`WITHIN`], and the conductors between them stand
//! what comes through (IEC 60364-4-43, 434.5.1: a building standard, used by
//! analogy). Above its last gate the upstream link takes at most that gate's I²t
//! over the current squared, and is counted with [`LEAST`] at the least.
//!
//! Left out: what the small device itself stands, which only a maker's tested
//! combination proves; judge grades by how far it is beyond its own.

use crate::catalogue::FuseStyle;
use crate::engine::physics::fuse_link::gates::latest;
use crate::engine::physics::fuse_link::let_through::{cable_stands, energy};
use crate::engine::physics::fuse_link::rating::{breaking, cold_carrying};
use crate::engine::simulate::fault::backer::{Backer, Backup};
use crate::engine::simulate::fault::current::Prospective;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// The upstream device clears within this time: 0.1 s, practice, no source.
pub const WITHIN: Seconds = Seconds::new(0.1);
/// No link is counted as quicker than this: 10 ms, practice, no source.
pub const LEAST: Seconds = Seconds::new(0.01);

/// How long a link takes at most, and what comes through: by its gates, above the last of them by its energy.
pub fn clears(style: &FuseStyle, carried: Amps, current: Amps) -> Option<Seconds> {
    let last = style.gates.iter().rev().find(|g| g.max.is_some())?;
    let (edge, time) = (carried * last.of_rating, last.max?);
    if current.get() <= edge.get() {
        return latest(&style.gates, current / carried);
    }
    Some(Seconds::new(energy(edge, time).get() / (current.get() * current.get())).max(LEAST))
}

/// What backs up a device at the near end of a branch; `near` has the devices of all branches before it.
pub fn backup<'a>(
    loops: &FaultLoops<'a, '_>,
    branch: usize,
    near: &[Option<Fuse<'a>>],
    fault: &Prospective,
    circuit: Volts,
) -> Option<Backup<'a>> {
    // A battery that feeds the fault another way goes on when the device upstream has opened.
    if fault.other_battery.get() > 0.0 || fault.emf.get() <= 0.0 {
        return None;
    }
    let remaining = (fault.others - fault.other_battery).max(Amps::ZERO);
    let through = fault.amps - remaining;
    let mut stands = AmpsSquaredSeconds::new(f64::INFINITY);
    for up in loops.upward(branch).skip(1) {
        if let Some(link) = loops.link(up).filter(|l| l.is_sized()) {
            stands = AmpsSquaredSeconds::new(stands.get().min(cable_stands(link.adiabatic_k, link.area).get()));
        }
        let Some((style, rating)) = near.get(up).and_then(|f| f.as_ref()?.fitted()) else { continue };
        let by = Backer::Branch(up);
        if let Some(found) = one(loops, style, rating, through, circuit, stands) {
            return Some(Backup { by, style, rating, clears: found, certain: true, remaining });
        }
    }
    let blocks = loops.sources.blocks.filter(|_| loops.is_service(branch))?;
    let (by, style, rating) = (Backer::Blocks, blocks.style, blocks.rating);
    // Of large blocks no style may break the most, though one breaks the likely.
    let most = (through, true);
    let likely = ((fault.likely - remaining).max(Amps::ZERO), false);
    [most, likely].into_iter().find_map(|(through, certain)| {
        let clears = one(loops, style, rating, through / blocks.count, circuit, stands)?;
        Some(Backup { by, style, rating, clears, certain, remaining })
    })
}

/// How soon one device clears a current that it breaks, where that is soon enough for the conductors.
fn one(
    loops: &FaultLoops,
    style: &FuseStyle,
    rating: Amps,
    current: Amps,
    circuit: Volts,
    stands: AmpsSquaredSeconds,
) -> Option<Seconds> {
    if breaking(style, circuit).get() < current.get() {
        return None;
    }
    let time = clears(style, rating * cold_carrying(style, loops.site.surroundings.coldest), current)?;
    (time <= WITHIN && energy(current, time).get() <= stands.get()).then_some(time)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::Catalogue;

    /// 100 A of a style whose last gate is 1,000 % and 0.042 s: 42 kA²s (by hand). At 2 kA that takes 10.5 ms; at
    /// 10 kA 0.42 ms, which is counted as 10 ms; at 700 A the gate of 600 %, 1 s, is what is promised.
    #[test]
    fn above_the_last_gate_by_its_energy() {
        let catalogue = Catalogue::embedded().unwrap();
        let style = catalogue.fuse_style("cartridge-t").unwrap();
        let at = |amps: f64| clears(style, Amps::new(100.0), Amps::new(amps)).unwrap().get();
        assert!((at(2000.0) - 0.0105).abs() < 1e-9, "{}", at(2000.0));
        assert_eq!(at(10_000.0), 0.01);
        assert_eq!(at(700.0), 1.0);
    }
}
