//! The workings of a size that is not the one used, made when somebody looks at it.
//!
//! Twenty sizes of each run have too many numbers to explain all of them at
//! every keystroke; [`work_out_size`] adds those of one size to a design.

use super::demand::Demand;
use super::levels::Levels;
use super::loss::mean_squares;
use super::pick::{Given, pick};
use super::size_workings::OfSize;
use crate::catalogue::Catalogue;
use crate::engine::book::Book;
use crate::engine::design::Design;
use crate::engine::subject::Subject;
use crate::engine::working::Working;
use crate::plan::Plan;
use crate::quantity::Amps;

/// Add the workings of `label` in `run` under [`Subject::Size`]; nothing where there is no such run or size.
pub fn work_out_size(plan: &Plan, catalogue: &Catalogue, design: &mut Design, run: usize, label: &str) {
    let levels = Levels::of(plan, catalogue, &design.battery, &design.charger, design.budget.peak);
    let topology = &design.topology;
    let demand = Demand::of(plan, catalogue, topology, &levels, &design.charger);
    let Some(picked) = pick(&Given::of(plan, catalogue, design, &demand, levels)) else { return };
    let Some(branch) = topology.of_run.get(run).copied().flatten() else { return };
    let Some(of_run) = picked.runs.get(branch) else { return };
    let named = |c: &&super::candidate::Candidate| picked.shelf.cables[c.cable].label() == label;
    let Some(candidate) = of_run.candidates.iter().find(named) else { return };
    let subject = Subject::Size(run, label.to_string());
    let squares = mean_squares(plan, &design.budget, topology, &demand.terminals);
    let mut book = Book { workings: std::mem::take(&mut design.workings), ..Book::default() };
    let size = OfSize {
        plan,
        catalogue,
        picked: &picked,
        run: of_run,
        candidate,
        subject: subject.clone(),
        owner: Subject::Run(run),
        far: &topology.branches[branch].far,
        square: squares[branch],
    };
    size.write(&mut book);
    if let Some(fuse) = candidate.fuse {
        let carries = candidate.ampacity.used();
        let working = Working::new("fuse that this size leaves room for", "", fuse)
            .with_from("I", "largest steady current", of_run.asked.current, Subject::Run(run), "current")
            .with("S", "largest short current", of_run.asked.surge)
            .with_from("A", "ampacity", carries.max(Amps::ZERO), subject.clone(), "ampacity")
            .source("smallest standard rating that carries current and start, and that the cable stands")
            .note("breaking capacity and far-end faults are looked at for the size used");
        book.work(subject, "fuse", working);
    }
    design.workings = book.workings;
}
