//! Which fuses, where, and do they clear every fault in time?
//!
//! - [`choice`]: the smallest rating between load and cable; [`window`], [`unmade`]: its findings.
//! - [`pick`]: the fuse of one end of one run, given or chosen.
//! - [`sources`], [`link`], [`faults`]: largest and smallest fault currents; [`breaking`].
//! - [`gates`], [`clearing`], [`far_fault`], [`let_through`]: when it opens and what comes through.
//! - [`selectivity`], [`chain`]: fuses in a row, runs without one; [`far_end`]: sources beyond.
//! - [`part`]: fuses raised so that only the nearest opens; [`grow`]: cables that grow for want of a fuse.
//! - [`longest`]: how long the fuses let a run become.
//! - [`placement`]: how far from the source. [`memory`]: what rests on remembered figures.
//!
//! Operating times may raise a finding; they never take away one that a rule
//! without them raises: the rating against the ampacity, the breaking capacity,
//! the fuse's place and the runs without a fuse are judged without gates.

pub mod choice;
pub mod grow;
pub mod longest;
pub mod part;
pub mod pick;
pub mod result;
pub mod workings;

use crate::engine::choose::fuse::choice::{FuseNeed, fuse_for_cable};
use crate::engine::installation::Installation;
use crate::engine::judge::fuse::{breaking, chain, far_fault, memory, placement, unmade, window};
#[cfg(test)]
mod tests;

use crate::engine::choose::fuse::pick::Fuse;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::result::{FarEnd, RunDesign};
use crate::engine::simulate::fault::ground::Ground;
use crate::quantity::*;

/// Fuse every run that has a size: fills `fuses` and `far_end` of `runs`, in the plan's order.
pub fn protect(
    site: &Installation,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    runs: &mut [RunDesign],
    book: &mut Book,
) {
    let ground = Ground::new(site, battery, charger, runs);
    let near = near_fuses(&ground);
    let ends: Vec<FarEnd> = (0..site.circuits.branches.len()).map(|b| ground.far_end(b, &near)).collect();
    let far: Vec<Option<Fuse>> = ends
        .iter()
        .enumerate()
        .map(|(b, end)| if *end == FarEnd::Fused { ground.pick(b, true, Ohms::ZERO) } else { None })
        .collect();
    for (branch, end) in ends.iter().enumerate() {
        let fuses = [near.get(branch), far.get(branch)].into_iter().flatten().flatten();
        for fuse in fuses {
            judge(&ground, fuse, &near, book);
        }
        if ground.run(branch).is_some_and(|r| !r.own_fuse) {
            chain::find_unfused(&ground, branch, &near, book);
        }
        chain::find_open_end(&ground, branch, *end, book);
    }
    memory::find(&ground, near.iter().chain(&far).flatten(), book);
    let lengths = longest::longest(&ground, &near, &far);
    let shown: Vec<_> = (0..ends.len())
        .map(|b| (designs(&ground, b, &near, &far), by_size(&ground, near.get(b).and_then(Option::as_ref))))
        .collect();
    for (((branch, (fuses, by_size)), end), length) in site.circuits.branches.iter().zip(shown).zip(ends).zip(lengths) {
        let Some(run) = runs.get_mut(branch.run) else { continue };
        for (row, fuse) in run.sizes.iter_mut().zip(by_size) {
            row.fuse = fuse;
            if let Some(used) = run.size.as_mut().filter(|u| u.label == row.label) {
                used.fuse = fuse;
            }
        }
        run.fuses = fuses;
        run.far_end = end;
        if let Some((length, working)) = length {
            run.longest = Some((length, longest::FAR_END));
            book.work(Subject::Run(branch.run), "longest", working);
        }
        longest::note_late(run, book);
    }
}

/// The fuse that each size of a run would take at this place; the one used where the size is used.
fn by_size(ground: &Ground, fuse: Option<&Fuse>) -> Vec<Option<Amps>> {
    let Some((fuse, design)) = fuse.and_then(|f| Some((f, ground.design(f.branch)?))) else { return Vec::new() };
    let pin = ground.run(fuse.branch).and_then(|r| r.fuse_style.as_deref());
    let used = design.size.as_ref().map(|s| s.label.as_str());
    let of = |row: &crate::engine::simulate::circuit::result::SizeRow| {
        if used == Some(row.label.as_str()) {
            return fuse.rating;
        }
        let need = FuseNeed { ampacity: row.ampacity, ..fuse.need };
        fuse_for_cable(&ground.site.catalogue, pin, &need).map(|c| c.rating)
    };
    design.sizes.iter().map(of).collect()
}

/// Largest fault current at the near end of each branch of the topology, with the sizes of `runs`.
pub fn prospective_currents(
    site: &Installation,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    runs: &[RunDesign],
) -> Vec<Amps> {
    let ground = Ground::new(site, battery, charger, runs);
    (0..site.circuits.branches.len()).map(|b| ground.prospective(b).amps).collect()
}

/// A fuse at the near end of every run that has its own; parents first, since
/// the fuse-links upstream are in the way of the fault.
fn near_fuses<'a>(ground: &Ground<'a>) -> Vec<Option<Fuse<'a>>> {
    let mut near: Vec<Option<Fuse>> = Vec::with_capacity(ground.links.len());
    for branch in 0..ground.links.len() {
        let own = ground.run(branch).is_some_and(|r| r.own_fuse);
        let before = ground.upward(branch).filter_map(|b| near.get(b)?.as_ref()).map(Fuse::resistance).sum();
        near.push(if own { ground.pick(branch, false, before) } else { None });
    }
    part::part(ground, &mut near);
    clear_again(ground, &mut near);
    near
}

/// Other fuse-links upstream are another resistance in the way of the fault.
fn clear_again(ground: &Ground, near: &mut [Option<Fuse>]) {
    for branch in 0..near.len() {
        let before = ground.upward(branch).skip(1).filter_map(|b| near.get(b)?.as_ref()).map(Fuse::resistance).sum();
        let Some(Some(fuse)) = near.get_mut(branch) else { continue };
        if let Some((style, rating)) = fuse.fitted() {
            fuse.clearing = ground.clearing(branch, false, style, rating, fuse.prospective.amps, before);
        }
    }
}

fn judge(ground: &Ground, fuse: &Fuse, near: &[Option<Fuse>], book: &mut Book) {
    unmade::find(ground, fuse, book);
    window::find(ground, fuse, book);
    breaking::find(ground, fuse, book);
    far_fault::find(ground, fuse, book);
    placement::find(ground, fuse, book);
    if let Some(up) = ground.upstream(fuse.branch, near).filter(|_| !fuse.far_end) {
        chain::find(ground, fuse, up, book);
    }
    workings::keep(ground, fuse, book);
}

fn designs(
    ground: &Ground,
    branch: usize,
    near: &[Option<Fuse>],
    far: &[Option<Fuse>],
) -> Vec<crate::engine::simulate::circuit::result::FuseDesign> {
    let upstream = ground.upstream(branch, near);
    let near = near.get(branch).into_iter().flatten().map(|f| result::shown(ground, f, upstream));
    let far = far.get(branch).into_iter().flatten().map(|f| result::shown(ground, f, None));
    near.chain(far).collect()
}
