//! The workings of a size that is not the one used, made when somebody looks at it.
//!
//! Twenty sizes of each run have too many numbers to explain all of them at
//! every keystroke; [`work_out_size`] adds those of one size to a design.

use crate::engine::choose::circuit::pick::{Given, pick};
use crate::engine::choose::circuit::size_workings::OfSize;
use crate::engine::design::Design;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working, Workings};
use crate::engine::judge::book::Book;
use crate::engine::simulate::circuit::demand::Demand;
use crate::engine::simulate::circuit::levels::Levels;
use crate::engine::simulate::circuit::loss::mean_squares;
use crate::quantity::Amps;

/// Add the workings of `label` in `run` under [`Subject::Size`]; nothing where there is no such run or size.
pub fn work_out_size(design: &Design, run: usize, label: &str) -> Option<Workings> {
    let site = &design.installation;
    let levels = Levels::of(site, &design.battery, &design.charger, design.budget.peak);
    let topology = &site.circuits;
    let demand = Demand::of(site, &levels, &design.charger);
    let picked = pick(&Given::of(design, &demand, levels))?;
    let branch = topology.of_run.get(run).copied().flatten()?;
    let of_run = picked.runs.get(branch)?;
    let named =
        |c: &&crate::engine::choose::circuit::candidate::Candidate| picked.shelf.cables[c.cable].label() == label;
    let candidate = of_run.candidates.iter().find(named)?;
    let subject = Subject::Size(run, label.to_string());
    let squares = mean_squares(site, &design.budget, &demand.terminals);
    let mut book = Book { notes: Notes::kept(), ..Book::default() };
    let size = OfSize {
        site,
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
    Some(book.notes.into_workings())
}
