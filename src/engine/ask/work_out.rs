//! The workings of a size that is not the one used, made when somebody looks at it.
//!
//! Twenty sizes of each run have too many numbers to explain all of them at
//! every keystroke; [`work_out_size`] gives those of one size.

use crate::engine::choose::circuit::basis::Basis;
use crate::engine::choose::circuit::pick::pick;
use crate::engine::choose::circuit::size_workings::RunInSize;
use crate::engine::design::Design;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working, Workings};
use crate::engine::simulate::circuit::demand::Demand;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::loss::mean_squares;
use crate::engine::simulate::circuit::picked::Picked;
use crate::quantity::Amps;

/// The workings of `label` in `run` under [`Subject::Size`]; `None` where there is no such run, or no such size
/// beside the one used.
pub fn work_out_size(design: &Design, run: usize, label: &str) -> Option<Workings> {
    let found = work_out(design, |r, l| r == run && l == label);
    let any = found.iter().next().is_some();
    any.then_some(found)
}

/// The same of every size of every run.
pub fn work_out_sizes(design: &Design) -> Workings {
    work_out(design, |_, _| true)
}

/// The sizes of a design, chosen once more with all that was tried, and the currents that asked for them.
pub(super) fn picked(design: &Design) -> Option<(Demand, Picked<'_>)> {
    let Design { installation: site, battery, charger, .. } = design;
    let levels = Levels::of(site, battery, charger, design.budget.peak);
    let demand = Demand::of(site, &levels, charger);
    let picked = pick(&Basis { site, battery, charger, demand: &demand, levels })?;
    Some((demand, picked))
}

fn work_out(design: &Design, wanted: impl Fn(usize, &str) -> bool) -> Workings {
    let site = &design.installation;
    let mut notes = Notes::kept();
    let Some((demand, picked)) = picked(design) else { return Workings::default() };
    let squares = mean_squares(site, &design.budget, &demand.terminals);
    for ((branch, of_run), square) in site.circuits.branches.iter().zip(&picked.runs).zip(squares) {
        for (index, candidate) in of_run.candidates.iter().enumerate() {
            let label = picked.shelf.cables[candidate.cable].label();
            if index == of_run.used || !wanted(branch.run, label) {
                continue;
            }
            let subject = Subject::Size(branch.run, label.to_string());
            let owner = Subject::Run(branch.run);
            let (far, nominal) = (branch.far.as_str(), site.nominal(branch.side));
            let size =
                RunInSize { site, picked: &picked, run: of_run, candidate, subject, owner, far, nominal, square };
            size.write(&mut notes);
            // Where the plan gives the fuse, what this size would take by itself.
            let row = design.runs.get(branch.run).and_then(|r| r.sizes.get(index));
            if let Some(rating) = row.and_then(|row| row.fuse) {
                fuse(&size, rating, &mut notes);
            }
        }
    }
    notes.into_workings()
}

fn fuse(size: &RunInSize<'_>, rating: Amps, notes: &mut Notes) {
    let (asked, carries) = (&size.run.asked, size.candidate.ampacity.used());
    let working = Working::new("fuse that this size leaves room for", "", rating)
        .with_from("I", "largest steady current", asked.current, size.owner.clone(), "current")
        .with("S", "largest short current", asked.surge)
        .with_from("A", "ampacity", carries.max(Amps::ZERO), size.subject.clone(), "ampacity")
        .source("smallest standard rating that carries current and start, and that the cable stands")
        .note("breaking capacity and far-end faults are looked at for the size used");
    notes.add(size.subject.clone(), "fuse", || working);
}
