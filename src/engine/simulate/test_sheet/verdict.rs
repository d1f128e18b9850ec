//! The explanation in the words of the plan: runs, milliohms, heat, what to look at.
//!
//! Heat is I²R at the current that was read, and at the run's largest steady current, as if all the
//! excess sat in one joint: the worst that it can be. How hot that joint gets depends on
//! what it sits in; the figure for it is rough.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::test_sheet::equation::{Equation, weighed};
use crate::engine::simulate::test_sheet::flow::{Flow, Wiring};
use crate::engine::simulate::test_sheet::hypothesis::{Excess, Explanation, explain};
use crate::engine::simulate::test_sheet::next::{Guess, next};
use crate::engine::simulate::test_sheet::result::{Dead, Fault, MeterErrors, Test, Verdict};
use crate::plan::{Reading, ReturnPath, point};
use crate::quantity::*;

/// What the readings of one side say.
pub(crate) fn verdict(
    wiring: &Wiring<'_>,
    meter: &MeterErrors,
    tests: &[(Test, Flow)],
    (all, outside): (&[Equation], bool),
    side: Side,
) -> Verdict {
    let list: Vec<&Equation> = all.iter().filter(|e| e.side == side).collect();
    if let Some(dead) = empty(wiring, side).or_else(|| dead(wiring, &list)) {
        return Verdict::Dead(dead);
    }
    let fault = |e: &Excess| fault(wiring, &list, e);
    let ask = |guesses: &[Guess]| next(wiring, meter, tests, side, guesses);
    match explain(&weighed(wiring, &list, meter)) {
        Explanation::Nothing => Verdict::Nothing,
        Explanation::Contradiction => Verdict::Contradiction,
        // A row outside its band is never called sound, however little it weighs beside a guessed current.
        Explanation::Sound(_) if outside => Verdict::Contradiction,
        Explanation::Sound(notices) => sound(wiring, &notices, side),
        Explanation::One(excess, instead) => {
            let Some(found) = fault(&excess) else { return Verdict::Contradiction };
            let next = instead.and_then(|(a, b)| ask(&[vec![excess], vec![a, b]]));
            let unless = instead.and_then(|(a, b)| Some((wiring.run_of(a.run)?, wiring.run_of(b.run)?)));
            Verdict::Bad { fault: found, unless, next }
        }
        Explanation::Two(a, b) => match (fault(&a), fault(&b)) {
            (Some(a), Some(b)) => Verdict::BadTwice(a, b),
            _ => Verdict::Contradiction,
        },
        Explanation::Unclear { candidates, several } => {
            let guesses: Vec<Guess> = candidates.iter().map(|c| vec![*c]).collect();
            Verdict::Unclear { candidates: candidates.iter().filter_map(fault).collect(), several, next: ask(&guesses) }
        }
    }
}

/// Posts below this have no charge that could be told.
const EMPTY: Volts = Volts::new(6.0);
/// A point that has less than this share of the posts' voltage is as good as cut off.
const CUT: f64 = 0.5;

/// A battery without voltage at its own posts.
fn empty(wiring: &Wiring<'_>, side: Side) -> Option<Dead> {
    let at = side.battery();
    let posts = wiring.site.readings.iter().filter(|r| r.at == at).filter_map(|r| r.voltage);
    let posts = posts.chain(wiring.site.readings.iter().filter(|r| seen(wiring, r, side)).filter_map(|r| r.posts));
    let read = posts.reduce(Volts::min).filter(|v| *v < EMPTY)?;
    Some(Dead { at: at.into(), read, posts: read, runs: Vec::new() })
}

fn seen(wiring: &Wiring<'_>, reading: &Reading, side: Side) -> bool {
    let circuits = &wiring.site.circuits;
    let service = circuits.path_to(&reading.at).is_some() && reading.with.trim() != point::CHARGER;
    service == (side == Side::Service)
}

/// A point at which the voltage of the posts is missing: in the runs to it that no other reading shows alive.
fn dead(wiring: &Wiring<'_>, list: &[&Equation]) -> Option<Dead> {
    let cut = |e: &&&Equation| e.drop > CUT * e.posts;
    let worst = list.iter().filter(cut).max_by(|a, b| a.drop.total_cmp(&b.drop))?;
    let on_way = |e: &Equation, branch: usize| e.currents.get(branch).is_some_and(|i| i.abs() > 0.0);
    let alive = |branch: &usize| list.iter().any(|e| e.drop <= CUT * e.posts && on_way(e, *branch));
    let way: Vec<usize> = (0..worst.currents.len()).filter(|b| on_way(worst, *b)).collect();
    // A point beyond that is cut off as well says nothing new; one nearer the battery narrows it down.
    let nearest = list.iter().filter(cut).filter(|e| way.iter().any(|b| on_way(e, *b)));
    let common = |b: &usize| nearest.clone().all(|e| on_way(e, *b));
    let mut runs: Vec<usize> = way.iter().filter(|b| common(b) && !alive(b)).copied().collect();
    if runs.is_empty() {
        runs = way.into_iter().filter(|b| !alive(b)).collect();
    }
    let volts = |v: f64| Volts::new(v);
    let runs = runs.into_iter().filter_map(|b| wiring.run_of(b)).collect::<Vec<_>>();
    (!runs.is_empty()).then(|| Dead {
        at: worst.at.clone(),
        read: volts(worst.posts - worst.drop),
        posts: volts(worst.posts),
        runs,
    })
}

fn sound(wiring: &Wiring<'_>, notices: &[f64], side: Side) -> Verdict {
    let of_side = wiring.site.circuits.branches.iter().enumerate().filter(|(_, b)| b.side == side);
    let (mut seen, mut unseen) = (Vec::new(), Vec::new());
    for (index, branch) in of_side {
        match notices.get(index).filter(|n| n.is_finite()) {
            Some(ohms) => seen.push((branch.run, Ohms::new(*ohms))),
            None => unseen.push(branch.run),
        }
    }
    seen.sort_by_key(|s| s.0);
    unseen.sort_unstable();
    Verdict::Sound { notices: seen, unseen }
}

fn fault(wiring: &Wiring<'_>, list: &[&Equation], excess: &Excess) -> Option<Fault> {
    let segment = wiring.segments.get(excess.run)?.as_ref()?;
    let resistance = Ohms::new(excess.ohms);
    let sees = |e: &&&Equation| e.currents.get(excess.run).is_some_and(|i| i.abs() > 0.0);
    let flowed = list.iter().filter_map(|e| e.currents.get(excess.run)).map(|i| i.abs()).fold(0.0, f64::max);
    let current = Amps::new(flowed);
    let full = segment.full;
    let heat = |current: Amps| current * (current * resistance);
    Some(Fault {
        run: segment.run,
        excess: resistance,
        error: Ohms::new(excess.error),
        current,
        heat: heat(current),
        full,
        full_heat: heat(full),
        warming: Kelvins::new(heat(full).get() * wiring.site.catalogue.rules.joint_warming.value),
        readings: list.iter().filter(sees).count(),
        look_at: look_at(wiring, excess.run),
    })
}

/// Where resistance hides in a run, likeliest first.
fn look_at(wiring: &Wiring<'_>, branch: usize) -> Vec<String> {
    let Some(branch) = wiring.site.circuits.branches.get(branch) else { return Vec::new() };
    let Some(run) = wiring.site.runs.get(branch.run) else { return Vec::new() };
    let mut list = Vec::new();
    if run.return_path == ReturnPath::Chassis {
        list.push("the chassis joint: bare metal under the lug, a tight nut, grease over it".to_string());
    }
    if run.own_fuse {
        list.push("the fuse-link in its holder: loose or blackened blades, nuts of bolted links".to_string());
    }
    if run.joints > 0 {
        list.push(format!("its {} crimps and lugs: pull each, look for heat marks, tighten each nut", run.joints));
    }
    if branch.far == point::CUT_OFF || branch.near == point::CUT_OFF {
        list.push("the cut-off's terminals and contact".to_string());
    }
    if run.switch_mohm.get() > 0.0 {
        list.push("its switches and plugs: read the drop across each".to_string());
    }
    list.push(format!("the cable itself: size and the {} of length as planned, no broken strands", run.length));
    list
}
