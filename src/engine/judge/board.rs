//! Do the boards have the ways and the bars for what hangs on them?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::circuit::result::RunDesign;
use crate::plan::{Board, Place, Value};
use crate::quantity::Amps;

/// Each board: its ways, its bar, and whether anything leads to it.
pub(crate) fn check(site: &Installation, runs: &[RunDesign]) -> Vec<Finding> {
    let mut findings = unequal(site);
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
                .remedy(format!("add a run that ends at `{}`", board.name)),
            ),
        }
    }
    findings
}

/// Loads that share a way have one device between them, so they cannot ask for two.
fn unequal(site: &Installation) -> Vec<Finding> {
    let mut findings = Vec::new();
    for way in site.own_runs()..site.runs.len() {
        let run = &site.runs[way];
        let sharing = || (way + 1..site.runs.len()).filter(|&r| site.is_way(way) && site.runs[r].from == run.to);
        let asked = sharing().filter_map(|r| site.load_of(r)).filter_map(|l| Some((l, site.loads[l].lead_fuse?)));
        let asked: Vec<(usize, Amps)> = asked.collect();
        let least = asked.iter().copied().min_by(|a, b| a.1.get().total_cmp(&b.1.get()));
        let most = asked.iter().copied().max_by(|a, b| a.1.get().total_cmp(&b.1.get()));
        let (Some((least, small)), Some((most, large))) = (least, most) else { continue };
        if small >= large {
            continue;
        }
        let (least, most) = (&site.loads[least].name, (most, &site.loads[most].name));
        let text = format!(
            "{least} asks for {small} and {} for {large} in the same {} at `{}`, which has one fuse: {small} is taken",
            most.1, run.name, run.from
        );
        let place = Place::load(most.0, "lead_fuse_a");
        findings.push(
            Finding::new(Kind::WayFuses, Subject::Load(most.0), text)
                .rule("loads that share a way share its fuse, so one rating stands for all; the smaller protects every lead")
                .at(place)
                .remedy_edit(format!("leave it at {small} for both"), place, Some(Value::Number(small.get())))
                .remedy_edit(format!("or give {} a way of its own, with its {large}", most.1), Place::load(most.0, "way"), None),
        );
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
