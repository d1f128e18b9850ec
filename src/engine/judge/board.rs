//! Cables that are not in the plan: from a panel to each of its loads, and of
//! what hangs straight on the battery's posts. Nobody has sized or fused them
//! yet; this says so, with numbers.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::{Place, Section, point};
use crate::quantity::Amps;
use std::collections::BTreeMap;

/// A note for each point that feeds several loads over one fuse.
pub(crate) fn panels(site: &Installation, runs: &[RunDesign], budget: &Budget, book: &mut Book) {
    let mut at: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (i, load) in site.loads.iter().enumerate().filter(|(_, l)| !l.inverter && l.count > 0) {
        at.entry(&load.at).or_default().push(i);
    }
    for (point, loads) in at.into_iter().filter(|(_, loads)| loads.len() > 1) {
        let Some(run) = site.circuits.to_point.get(point).and_then(|&b| site.circuits.branches.get(b)).map(|b| b.run)
        else {
            continue;
        };
        let Some(fuse) = runs.get(run).and_then(|r| r.fuses.iter().find(|f| !f.far_end)?.rating) else { continue };
        let running = |i: &usize| budget.loads.get(*i).map_or(Amps::ZERO, |b| b.running);
        let Some(small) = loads.iter().copied().min_by(|a, b| running(a).get().total_cmp(&running(b).get())) else {
            continue;
        };
        let text = format!(
            "the cables from `{point}` to its {} loads are not in this plan; the fuse of {fuse} before it protects none that \
             is thinner than R{}'s, and {} draws only {}",
            loads.len(),
            run + 1,
            site.loads[small].name,
            running(&small)
        );
        book.find(
            Finding::new(Kind::PanelFuses, Subject::Point(point.into()), text)
                .rule("a fuse wherever a cable becomes thinner, as every end with a source: 33 CFR 183.455")
                .at(Place::load(small, "at"))
                .remedy(format!(
                    "give each of the {} its own fuse at `{point}`, no larger than its cable carries",
                    loads.len()
                ))
                .remedy(format!("or plan the cable to {} as 1 run of its own", site.loads[small].name)),
        );
    }
}

/// A caution for each thing that hangs on the service battery without a run: its leads have no fuse here.
pub(crate) fn post_leads(site: &Installation, book: &mut Book) {
    let posts = |at: &str| at == point::SERVICE_BATTERY;
    let mut found = |subject: Subject, what: &str, place: Place| {
        let text = format!(
            "{what} hangs on the battery's posts by its own leads, which have no size and no fuse in this plan"
        );
        book.find(
            Finding::new(Kind::LeadsUnplanned, subject, text)
                .rule("a fuse at every source end, within 0.177 m of the post: 33 CFR 183.455")
                .at(place)
                .remedy(format!(
                    "add 1 run from `{}` to a point of its own and connect it there; then cable and fuse are sized",
                    point::SERVICE_BATTERY
                )),
        );
    };
    for (i, load) in site.loads.iter().enumerate().filter(|(_, l)| !l.inverter && l.count > 0 && posts(&l.at)) {
        found(Subject::Load(i), &load.name, Place::load(i, "at"));
    }
    for (size, at, subject, what, section) in [
        (site.inverter.rating.get(), &site.inverter.at, Subject::Inverter, "the inverter", Section::Inverter),
        (site.solar.array.get(), &site.solar.at, Subject::Solar, "the solar controller", Section::Solar),
        (site.mains.current.get(), &site.mains.at, Subject::Mains, "the mains charger", Section::Mains),
    ] {
        if size > 0.0 && posts(at) {
            found(subject, what, Place::of(section, "at"));
        }
    }
}
