//! Which conductor joins the service battery's minus to the vehicle's body?
//!
//! The thinnest that stands what the devices let through into the body
//! (k² S², IEC 60364-4-43 434.5.2), is no thinner than the largest positive that
//! can touch it, and carries all that comes back through the body.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::installation::working::{Notes, Working, sum};
use crate::engine::judge::bond::{BondLimits, FAULT, LARGEST, LOAD, Stands};
use crate::engine::parts::bond::Bond;
use crate::engine::physics::conductor::ampacity::while_on;
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::physics::conductor::short_time::{Intermittent, Pulsed};
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::fault::fuse::Fuses;
use crate::plan::ReturnPath;
use crate::quantity::*;

/// The bond of a design; of no size where there is nothing that a fault could come from.
pub fn bond(site: &Installation, runs: &[RunDesign], fuses: &Fuses, notes: &mut Notes) -> Bond {
    let bond = chosen(site, runs, fuses);
    explain(site, runs, &bond, notes);
    bond
}

fn chosen(site: &Installation, runs: &[RunDesign], fuses: &Fuses) -> Bond {
    let mut bond =
        Bond { length: site.bond.length, load: load(site, runs), pulsed: pulsed(site, runs), ..Bond::default() };
    (bond.largest, bond.largest_by) = largest(site, runs);
    (bond.energy, bond.energy_by) = energy(site, fuses);
    if bond.largest_by.is_none() {
        return bond;
    }
    let limits = BondLimits::of(site, bond.pulsed);
    let sizes: Vec<Cable> = site.catalogue.sizes(site.family()).map(Cable::of).collect();
    let fits = |cable: &Cable| limits.holds(&bond, limits.stands(cable));
    let least = sizes.iter().find(|c| fits(c)).cloned();
    bond.least = least.as_ref().map(|c| c.label().to_string());
    let given = site.bond.size.as_deref().and_then(|label| Cable::labelled(&site.catalogue, label));
    bond.pinned = given.is_some();
    let Some(cable) = given.or(least) else { return bond };
    let Stands { ampacity, energy, .. } = limits.stands(&cable);
    (bond.ampacity, bond.stands) = (ampacity, energy);
    bond.area = cable.conductor.area;
    bond.size = Some(cable.label().to_string());
    bond.ruling = ruling(&bond, &limits, &sizes);
    bond
}

/// What decides: the demand without which a thinner one would do.
fn ruling(bond: &Bond, limits: &BondLimits, sizes: &[Cable]) -> &'static str {
    let thinner = |without: Bond| {
        let thin = sizes.iter().filter(|c| c.conductor.area < bond.area);
        thin.map(|c| limits.stands(c)).any(|stands| limits.holds(&without, stands))
    };
    if bond.pinned {
        "given"
    } else if thinner(Bond { largest: SquareMillimetres::ZERO, ..bond.clone() }) {
        "largest positive"
    } else if thinner(Bond { load: Amps::ZERO, ..bond.clone() }) {
        "load"
    } else {
        "fault"
    }
}

/// Each run that comes back through the body and does not hang on another one that does.
fn by_the_body(site: &Installation) -> Vec<usize> {
    let chassis = |branch: usize| {
        let run = site.circuits.branches.get(branch).and_then(|b| site.runs.get(b.run));
        run.is_some_and(|r| r.return_path == ReturnPath::Chassis)
    };
    let first = |branch: &usize| {
        let path = site.circuits.path_of(*branch);
        chassis(*branch) && !path.iter().any(|b| b != branch && chassis(*b))
    };
    (0..site.circuits.branches.len()).filter(first).map(|b| site.circuits.branches[b].run).collect()
}

/// All that comes back through the body.
fn load(site: &Installation, runs: &[RunDesign]) -> Amps {
    by_the_body(site).into_iter().map(|run| runs.get(run).map_or(Amps::ZERO, |r| r.current)).sum()
}

/// How that comes and goes, taken as one load that is on as long as the longest and off as short as the shortest.
fn pulsed(site: &Installation, runs: &[RunDesign]) -> Option<Pulsed> {
    let all: Vec<&RunDesign> = by_the_body(site).into_iter().filter_map(|run| runs.get(run)).collect();
    let cycles = || all.iter().filter_map(|r| r.pulsed).map(|p| p.cycle);
    let on = cycles().map(|c| c.on).reduce(Seconds::max)?;
    let off = cycles().map(|c| c.off).reduce(Seconds::min)?;
    let rest = all.iter().map(|r| r.pulsed.map_or(r.current, |p| p.rest)).sum();
    Some(Pulsed { cycle: Intermittent { on, off }, rest })
}

fn largest(site: &Installation, runs: &[RunDesign]) -> (SquareMillimetres, Option<usize>) {
    let service = site.circuits.branches.iter().filter(|b| b.side == Side::Service);
    let sized = service.filter_map(|b| Some((runs.get(b.run)?.size.as_ref()?.area, Some(b.run))));
    sized.max_by(|a, b| a.0.get().total_cmp(&b.0.get())).unwrap_or((SquareMillimetres::ZERO, None))
}

fn energy(site: &Installation, fuses: &Fuses) -> (AmpsSquaredSeconds, Option<usize>) {
    let through = fuses.near.iter().flatten().filter_map(|fuse| {
        let branch = site.circuits.branches.get(fuse.branch).filter(|b| b.side == Side::Service)?;
        Some((fuse.clearing.through?.energy, Some(branch.run)))
    });
    through.max_by(|a, b| a.0.get().total_cmp(&b.0.get())).unwrap_or((AmpsSquaredSeconds::ZERO, None))
}

/// How its numbers came about.
fn explain(site: &Installation, runs: &[RunDesign], bond: &Bond, notes: &mut Notes) {
    let cable = bond.size.as_deref().and_then(|label| Cable::labelled(&site.catalogue, label));
    let (true, Some(cable), Some(size)) = (notes.are_kept(), cable, &bond.size) else { return };
    let limits = BondLimits::of(site, bond.pulsed);
    notes.add(Subject::Bond, "load", || {
        let current = |run: usize| runs.get(run).map_or(Amps::ZERO, |r| r.current).into();
        let term = |run| (run_name(&site.runs, run).to_string(), current(run), Some((Subject::Run(run), "current")));
        let terms = by_the_body(site).into_iter().map(term).collect();
        sum("all that comes back through the body", bond.load, terms).source(LOAD)
    });
    notes.add(Subject::Bond, "stands", || {
        limits.withstand(&cable).working("energy that the bond stands").source(limits.source(size, true))
    });
    if let Some(run) = bond.energy_by {
        let name = run_name(&site.runs, run);
        notes.add(Subject::Bond, "let-through", || {
            Working::new("most that a device lets through into the body", "E", bond.energy)
                .with_from("E", format!("through the fuse of {name}"), bond.energy, Subject::Run(run), "let-through")
                .source(FAULT)
        });
    }
    if let Some(run) = bond.largest_by {
        notes.add(Subject::Bond, "largest", || {
            Working::new("largest positive that can touch the body", "S", bond.largest)
                .with("S", format!("copper of {}", run_name(&site.runs, run)), bond.largest)
                .source(LARGEST)
        });
    }
    if let Some(ampacity) = limits.ampacity(&cable) {
        notes.add(Subject::Bond, "ampacity", || {
            if let Some(pulsed) = ampacity.pulsed {
                return while_on(ampacity.for_ever(), pulsed)
                    .working("what the bond carries while loads that come and go are on")
                    .source(limits.source(size, false));
            }
            let formula = if ampacity.table.is_some() { "min(A, H)" } else { "H" };
            let whole = Working::new("what the bond carries for ever", formula, bond.ampacity)
                .with("H", "by heat balance", ampacity.heat)
                .source(limits.source(size, false));
            ampacity.table.into_iter().fold(whole, |whole, table| whole.with("A", "by table and factors", table))
        });
    }
    notes.add(Subject::Bond, "size", || {
        let mut size = Working::new("copper of the bond", "", bond.area)
            .with_from("I", "it carries at least", bond.load, Subject::Bond, "load")
            .source(if bond.pinned { "entered by you" } else { "the thinnest that keeps all three" })
            .note(format!("set by: {}", bond.ruling));
        if bond.energy_by.is_some() {
            size = size.with_from("E", "it stands at least", bond.energy, Subject::Bond, "let-through");
        }
        if bond.largest_by.is_some() {
            size = size.with_from("S", "no thinner than", bond.largest, Subject::Bond, "largest");
        }
        size
    });
}
