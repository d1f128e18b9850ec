//! The first power: negatives back on, then one fuse after another, with what to expect.

use crate::engine::{FuseDesign, Side};
use crate::papers::document::{Document, Table};
use crate::papers::facts::Columns;
use crate::papers::job::{Job, place, rating};
use crate::plan::{ChargerKind, point};
use crate::quantity::{Amps, Volts, Watts};

/// A device between two terminals that lets nothing flow yet shows what is before it.
const NEAR: &str = "0.05 V";

/// The section: steps, blanks for both batteries, the fuses in their order.
pub fn section(job: &Job, paper: &mut Document) {
    let inverter = job.plan.inverter.rating > Watts::ZERO;
    let mut steps = vec![
        "All fuses are still out; all loads and switches are off.".to_string(),
        "Put the negative back on the service battery. With every fuse out nothing may spark: if it does, take it off \
         and find what is connected past its fuse. Measure at the posts and write it down."
            .into(),
    ];
    if starter(job) {
        steps.push(
            "Put the negative back on the starter battery; a small spark from the vehicle's own devices is usual. Measure \
             at the posts and write it down."
                .into(),
        );
    }
    steps.push(
        "Put in the fuses one at a time in the order below, the way of charging first. After each measure at the far \
         end, everything still off. No sound, no smell, no warm cable; if there is, take the fuse out."
            .into(),
    );
    steps.extend(asleep(job));
    steps.extend(closes(job));
    if inverter {
        steps.push(
            "The inverter's fuse comes last, with the inverter switched off. Its capacitors fill in the first instant, \
             with a spark and a current that can blow the fuse: fill them first through a 12 V 21 W lamp (or a resistor \
             of 25 to 50 Ω) held across the open fuse holder until it has gone dark, then put the fuse in at once. \
             No sparks where a battery gasses. (common practice, no source; the inverter's own instructions come first)"
                .into(),
        );
    }
    let (sun, mains) = (job.plan.solar.array > Watts::ZERO, job.plan.mains.current > Amps::ZERO);
    let sources = [(sun, "uncover the solar array"), (mains, "plug in the mains charger")];
    let last: Vec<&str> = sources.iter().filter(|s| s.0).map(|s| s.1).collect();
    if !last.is_empty() {
        steps.push(format!("When all fuses are in, if not before: {}.", last.join(", then ")));
    }
    paper.steps(steps);
    let mut posts = vec![("Service battery's posts", format!("________ V{}", rested(job)))];
    if starter(job) {
        posts.push(("Starter battery's posts", "________ V, engine off".to_string()));
    }
    paper.facts(posts);
    paper.table(fuses(job));
}

/// A battery whose own protection has opened shows next to nothing.
fn asleep(job: &Job) -> Option<String> {
    let own = job.design.installation.chemistry()?.low.own_protection?;
    let battery = &job.plan.service_battery;
    let by = match battery.woken_by.words() {
        words if words.is_empty() => {
            "by what its sheet names, or a charger that starts on a battery at 0 V".to_string()
        }
        words => format!("by what its sheet names: {words}"),
    };
    Some(format!(
        "Should the service battery's posts show next to 0 V, its own protection has opened (its low cut is {own}): take \
         every load off and wake it {by}. Never by a bare jumper from another battery: hundreds of amperes would flow."
    ))
}

fn starter(job: &Job) -> bool {
    job.design.installation.circuits.branches.iter().any(|b| b.side == Side::Feed)
}

/// What a healthy battery shows, as the test sheet takes it.
fn rested(job: &Job) -> String {
    posts(job).map_or(String::new(), |posts| format!(" (rested and well charged about {posts})"))
}

fn posts(job: &Job) -> Option<Volts> {
    job.design.test_sheet().tests.iter().find(|t| t.side == Side::Service).map(|t| t.posts)
}

/// How the cut-off closes, which a battery fresh from the shop may be too low for.
fn closes(job: &Job) -> Option<String> {
    let set = &job.design.cut_off;
    if set.cut == Volts::ZERO {
        return None;
    }
    if let Some(counter) = set.counter {
        return Some(format!(
            "A counter that was just joined knows nothing of the charge: fill the battery whole, let the counter take it \
             for full, and see that it shows 100 %. It closes at {} counted, and opens at {} or at {}.",
            counter.closes, counter.opens, set.cut
        ));
    }
    let alone = match posts(job) {
        Some(posts) if posts >= set.reconnect => {
            format!("a rested battery that is well charged shows about {posts}, one that is not shows less")
        }
        Some(posts) => format!("a rested battery shows about {posts} at most, so it cannot close yet"),
        None => "a rested battery may show less".into(),
    };
    let site = &job.design.installation;
    let before = |at: &str| site.circuits.path_to(at).is_some_and(|path| !behind(job, &path));
    let ways = [
        (job.design.charger.current.is_some() && before(point::CHARGER), "start the engine"),
        (job.plan.mains.current > Amps::ZERO && before(&job.plan.mains.at), "plug in the mains charger"),
        (job.plan.solar.array > Watts::ZERO && before(&job.plan.solar.at), "uncover the solar array"),
    ];
    let ways: Vec<&str> = ways.into_iter().filter_map(|(there, way)| there.then_some(way)).collect();
    let how =
        if ways.is_empty() { "put a charger made for this battery on its posts".into() } else { ways.join(", or ") };
    Some(format!(
        "With its own fuse in the cut-off closes by itself at {} or more at its sensing wire; {alone}. Where it stays \
         open: {how} until it closes, note the voltage, and only then go on with what lies behind it.",
        set.reconnect
    ))
}

/// Whether any run of a path lies behind the cut-off.
fn behind(job: &Job, path: &[usize]) -> bool {
    let branches = &job.design.installation.circuits.branches;
    path.iter().filter_map(|n| branches.get(*n)).any(|b| b.behind_cut_off)
}

fn fuses(job: &Job) -> Table {
    type Row<'a> = (usize, &'a FuseDesign);
    let side = |run: usize| job.design.installation.circuits.branch_of(run).map_or(Side::Service, |b| b.side);
    let expect = |r: &Row<'_>| match side(r.0) {
        Side::Feed => "as the starter battery".into(),
        Side::Service => "as the service battery".into(),
    };
    let caption = format!("Expect: the same as at the posts, within {NEAR} (common practice, no source)");
    Columns::new()
        .words("run", "Run", |r: &Row<'_>| job.design.installation.run_number(r.0))
        .text("at", "Fuse at", |r| &r.1.at)
        .text("style", "Style", |r| &r.1.style_name)
        .words("rating", "Fuse", |r| rating(r.1))
        .words("measure_at", "Measure at", |r| far(job, r.0, r.1, side(r.0)))
        .words("expect", "Expect", expect)
        .blank("found", "Found V")
        .blank("done", "Done")
        .list("first-power", caption, &in_order(job))
}

fn in_order<'a>(job: &'a Job) -> Vec<(usize, &'a FuseDesign)> {
    let topology = &job.design.installation.circuits;
    // What hangs behind the inverter's point waits for its fuse.
    let inverter = |run: usize| {
        let path = topology.index_of(run).map(|n| topology.path_of(n)).unwrap_or_default();
        let at = |n: &usize| topology.branches.get(*n).is_some_and(|b| b.far == job.plan.inverter.at);
        job.plan.inverter.rating > Watts::ZERO && path.iter().any(at)
    };
    let mut all: Vec<_> = job.design.runs.iter().flat_map(|r| r.fuses.iter().map(|f| (r.run, f))).collect();
    let charging = topology.path_to(point::CHARGER).unwrap_or_default();
    // What charges comes first, and of the rest the inverter last.
    let turn = |run: usize| match topology.index_of(run) {
        Some(n) if charging.contains(&n) && !behind(job, &charging) => 0,
        Some(n) if topology.branches.get(n).is_some_and(|b| b.side == Side::Feed) => 1,
        _ => 2 + usize::from(inverter(run)),
    };
    all.sort_by_key(|(run, fuse)| (turn(*run), topology.index_of(*run), fuse.far_end));
    all
}

/// The other end of the run; of a charger, which of its terminals.
fn far(job: &Job, run: usize, fuse: &FuseDesign, side: Side) -> String {
    let Some(planned) = job.design.installation.runs.get(run) else { return String::new() };
    let other = if planned.to == fuse.at { &planned.from } else { &planned.to };
    match (other.as_str(), side) {
        (point::CHARGER, _) if job.plan.charger.kind == ChargerKind::None => other.clone(),
        (point::CHARGER, Side::Feed) => "charger, input terminal".into(),
        (point::CHARGER, Side::Service) => "charger, output terminal".into(),
        (point::CUT_OFF, _) => "cut-off, input terminal".into(),
        (at, _) if at == job.plan.inverter.at && job.plan.inverter.rating > Watts::ZERO => {
            format!("{at}, DC terminals")
        }
        (at, _) => place(job, at),
    }
}
