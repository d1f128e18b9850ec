//! Which cables must grow for want of a fuse?
//!
//! A cable whose size the plan leaves open, and whose fuse breaks a rule that
//! a bigger size keeps, is given the smallest size that breaks the fewest
//! rules. A run without a fuse of its own is given the smallest that stands
//! the fuse upstream and what joins behind it. Sizing then begins again with
//! these as least sizes; since they only grow, it ends.

use crate::engine::choose::fuse::near::near_fuses;
use crate::engine::choose::fuse::pick::fuse_at;
use crate::engine::installation::Installation;
use crate::engine::judge::fuse::limits::{FuseLimits, breaks};
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::fault::fuse::Fuse;
use crate::engine::simulate::fault::link::Link;
use crate::engine::simulate::fault::loops::FaultLoops;
use crate::quantity::*;

/// Raise the least sizes, one for each run of the plan, to what the fuses ask for; whether any grew.
pub fn grow_for_fuses(
    site: &Installation,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    runs: &[RunDesign],
    least: &mut [SquareMillimetres],
) -> bool {
    let mut loops = FaultLoops::new(site, battery, charger, runs);
    let near = near_fuses(&loops);
    let mut grew = false;
    for (branch, fuse) in near.iter().enumerate() {
        let run = site.circuits.branches.get(branch).map_or(usize::MAX, |b| b.run);
        if site.runs.get(run).is_none_or(|r| r.size.is_some()) {
            continue;
        }
        let asked = match fuse {
            Some(fuse) if broken(&loops, fuse) != Broken::default() => enough(&mut loops, branch, fuse),
            Some(_) => None,
            None => enough_unfused(&loops, branch, &near),
        };
        if let (Some(area), Some(place)) = (asked, least.get_mut(run)) {
            grew |= area.get() > place.get();
            *place = place.max(area);
        }
    }
    grew
}

/// How many rules a fuse breaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
struct Broken {
    stops: u8,
    cautions: u8,
}

fn broken(loops: &FaultLoops, fuse: &Fuse) -> Broken {
    let Some((style, rating)) = fuse.fitted() else { return Broken { stops: 9, cautions: 0 } };
    let limits = FuseLimits::of(&loops.site.catalogue);
    let most = limits.at_most(fuse.need.ampacity);
    let stops = [rating.get() > most.get(), !breaks(style, &fuse.need), !fuse.clearing.is_stood()];
    let late = !fuse.clearing.opens_in_time(loops.fault_open) && !fuse.clearing.stands_the_wait();
    let cautions = [!limits.rides(style, rating, &fuse.need), late];
    let count = |broken: &[bool]| broken.iter().map(|b| u8::from(*b)).sum();
    Broken { stops: count(&stops), cautions: count(&cautions) }
}

/// The smallest bigger size of a run without its own fuse that stands what the fuse upstream and the
/// sources behind it let through.
fn enough_unfused(loops: &FaultLoops, branch: usize, near: &[Option<Fuse>]) -> Option<SquareMillimetres> {
    let up = loops.upstream(branch, near)?;
    let reach = up.rating? + loops.joined_before(up.branch, branch);
    let stands = |ampacity: Amps| FuseLimits::of(&loops.site.catalogue).at_most(ampacity).get() >= reach.get();
    if loops.link(branch).is_none_or(|link| !link.is_sized() || stands(link.ampacity)) {
        return None;
    }
    loops.bigger(branch, |size| stands(size.ampacity)).map(|size| size.area)
}

/// The smallest bigger size that breaks the fewest rules, fewer than now.
fn enough(loops: &mut FaultLoops, branch: usize, fuse: &Fuse) -> Option<SquareMillimetres> {
    let (run, design) = (loops.run(branch)?, loops.design(branch)?);
    let area = design.size.as_ref().map_or(SquareMillimetres::ZERO, |s| s.area);
    let now = *loops.links.get(branch)?;
    let mut best: Option<(Broken, SquareMillimetres)> = Some((broken(loops, fuse), SquareMillimetres::ZERO));
    for size in design.sizes.iter().filter(|s| s.area.get() > area.get()) {
        *loops.links.get_mut(branch)? = Link::with_size(loops.site, run, &loops.branch(branch)?.far, Some(size));
        let Some(then) = fuse_at(loops, branch, false, fuse.clearing.links_before) else { continue };
        let then = broken(loops, &then);
        if best.is_none_or(|(b, _)| then < b) {
            best = Some((then, size.area));
        }
        if then == Broken::default() {
            break;
        }
    }
    *loops.links.get_mut(branch)? = now;
    best.map(|(_, area)| area).filter(|a| a.get() > 0.0)
}
