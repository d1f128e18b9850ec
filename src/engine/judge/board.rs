//! Do the boards have the ways and the bars for what hangs on them?
//!
//! And cables that are not in the plan: from a panel to each of its loads, and of
//! what hangs straight on the battery's posts. Nobody has sized or fused them
//! yet; this says so, with numbers.

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::judge::fuse::limits::FuseLimits;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::{Board, Place, Section, point};
use crate::quantity::Amps;
use std::collections::BTreeMap;

/// Panels, boards and what hangs on the posts.
pub(crate) fn check(site: &Installation, runs: &[RunDesign], budget: &Budget) -> Vec<Finding> {
    [panels(site, runs, budget), boards(site, runs), post_leads(site)].concat()
}

/// Each board: its ways, its bar, and whether anything leads to it.
fn boards(site: &Installation, runs: &[RunDesign]) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (index, board) in site.boards.iter().enumerate() {
        findings.extend(ways(site, index, board));
        match site.circuits.to_point.get(&board.name).and_then(|&b| site.circuits.branches.get(b)) {
            Some(feed) => findings.extend(runs.get(feed.run).and_then(|feed| bar(index, board, feed))),
            None => findings.push(
                Finding::new(
                    Kind::BoardLoose,
                    Subject::Point(board.name.clone()),
                    format!("no run leads to `{}`", board.name),
                )
                .rule("a board is fed by a run of its own")
                .at(Place::board(index, "name"))
                .remedy(format!("add 1 run that ends at `{}`", board.name)),
            ),
        }
    }
    findings
}

/// Every lead and every run that begins at it takes a way.
fn ways(site: &Installation, index: usize, board: &Board) -> Option<Finding> {
    let begin = site.circuits_at(&board.name) as u32;
    let has = board.ways.filter(|has| *has < begin)?;
    let text = format!("{begin} circuits begin at `{}`, which has {has} ways", board.name);
    Some(
        Finding::new(Kind::BoardWays, Subject::Point(board.name.clone()), text)
            .rule("a way for each circuit, with its own fuse or breaker")
            .at(Place::board(index, "ways"))
            .remedy_number(
                format!("take a board of {begin} ways or more"),
                Place::board(index, "ways"),
                f64::from(begin),
            ),
    )
}

/// What flows through its bar, and the fuse before it, against the bar's rating.
fn bar(index: usize, board: &Board, feed: &RunDesign) -> Option<Finding> {
    let rating = board.rating?;
    let fuse = feed.fuses.iter().find(|f| !f.far_end).and_then(|f| f.rating);
    let (severity, text, needs) = if feed.current > rating {
        let text = format!("{} may flow through the bar of `{}`, which carries {rating}", feed.current, board.name);
        (Severity::Stop, text, feed.current)
    } else {
        let fuse = fuse.filter(|fuse| *fuse > rating)?;
        let text = format!("the {fuse} fuse before `{}` is more than the {rating} that its bar carries", board.name);
        (Severity::Caution, text, fuse)
    };
    let needs = Amps::new(needs.get().ceil());
    Some(
        Finding::new(Kind::BoardRating, Subject::Point(board.name.clone()), text)
            .as_severity(severity)
            .rule("a bar carries no more than its maker's rating, and the device before it opens at no more (common practice, no source)")
            .at(Place::board(index, "rating_a"))
            .remedy(format!("take a board whose bar carries {needs} or more, or let fewer loads hang on it")),
    )
}

/// A note for each point that feeds several loads over one fuse.
fn panels(site: &Installation, runs: &[RunDesign], budget: &Budget) -> Vec<Finding> {
    let mut findings = Vec::new();
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
        findings.push(
            Finding::new(Kind::PanelFuses, Subject::Point(point.into()), text)
                .rule("a fuse wherever a cable becomes thinner, as every end with a source: 33 CFR 183.455")
                .at(Place::load(small, "at"))
                .remedy(format!(
                    "give each of the {} its own fuse at `{point}`, no larger than its cable carries",
                    loads.len()
                ))
                .remedy(format!(
                    "or enter how long the cable to {} is, 1 m or as it is: then it is sized and fused",
                    site.loads[small].name
                )),
        );
    }
    findings
}

/// A caution for each thing that hangs on the service battery without a run: its leads have no fuse here.
fn post_leads(site: &Installation) -> Vec<Finding> {
    let mut findings = Vec::new();
    let posts = |at: &str| at == point::SERVICE_BATTERY;
    let near = FuseLimits::of(&site.catalogue).placement(site);
    let within = near.map_or(String::new(), |p| format!(" within {} of the post", p.bare));
    let rule = near.map_or_else(
        || "a fuse at every source end".into(),
        |p| format!("a fuse at every source end: {}", p.from.bare.words()),
    );
    let mut found = |subject: Subject, what: &str, place: Place| {
        let text = format!(
            "{what} hangs on the battery's posts by its own leads, which have no size in this plan, and no fuse{within}"
        );
        findings.push(Finding::new(Kind::LeadsUnplanned, subject, text).rule(rule.clone()).at(place).remedy(format!(
            "add 1 run from `{}` to a point of its own and connect it there; then cable and fuse are sized",
            point::SERVICE_BATTERY
        )));
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
    findings
}
