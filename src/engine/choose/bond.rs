//! Which conductor joins the service battery's minus to the vehicle's body?
//!
//! The thinnest that stands what the devices let through into the body
//! (k² S², IEC 60364-4-43 434.5.2), is no thinner than the largest positive that
//! can touch it, and carries all that comes back through the body.

use crate::engine::installation::Installation;
use crate::engine::installation::circuits::Side;
use crate::engine::judge::bond::{BondLimits, Stands};
use crate::engine::parts::bond::Bond;
use crate::engine::physics::conductor::cable::Cable;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::engine::simulate::fault::fuse::Fuses;
use crate::plan::ReturnPath;
use crate::quantity::*;

/// The bond of a design; of no size where there is nothing that a fault could come from.
pub fn bond(site: &Installation, runs: &[RunDesign], fuses: &Fuses) -> Bond {
    let mut bond = Bond { length: site.bond.length, load: load(site, runs), ..Bond::default() };
    (bond.largest, bond.largest_by) = largest(site, runs);
    (bond.energy, bond.energy_by) = energy(site, fuses);
    if bond.largest_by.is_none() {
        return bond;
    }
    let limits = BondLimits::of(site);
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

/// All that comes back through the body: each run with such a return that does not hang on another one.
fn load(site: &Installation, runs: &[RunDesign]) -> Amps {
    let chassis = |branch: usize| {
        let run = site.circuits.branches.get(branch).and_then(|b| site.runs.get(b.run));
        run.is_some_and(|r| r.return_path == ReturnPath::Chassis)
    };
    let first = |branch: &usize| {
        let path = site.circuits.path_of(*branch);
        chassis(*branch) && !path.iter().any(|b| b != branch && chassis(*b))
    };
    let current = |branch: usize| runs.get(site.circuits.branches[branch].run).map_or(Amps::ZERO, |r| r.current);
    (0..site.circuits.branches.len()).filter(first).map(current).sum()
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
