//! The explanation in the words of the plan: runs, milliohms, heat, what to look at.
//!
//! Heat is I²R at the run's largest steady current, as if all the excess sat
//! in one joint: the worst that it can be. How hot that joint gets depends on
//! what it sits in; the figure for it is rough.

use crate::engine::installation::circuits::Side;
use crate::engine::simulate::test_sheet::equation::{Equation, weighed};
use crate::engine::simulate::test_sheet::flow::{Flow, Wiring};
use crate::engine::simulate::test_sheet::hypothesis::{Excess, Explanation, explain};
use crate::engine::simulate::test_sheet::next::{Guess, next};
use crate::engine::simulate::test_sheet::result::{Fault, MeterErrors, Test, Verdict};
use crate::plan::{ReturnPath, point};
use crate::quantity::*;

/// What the readings of one side say.
pub(crate) fn verdict(
    wiring: &Wiring<'_>,
    meter: &MeterErrors,
    tests: &[(Test, Flow)],
    all: &[Equation],
    side: Side,
) -> Verdict {
    let list: Vec<&Equation> = all.iter().filter(|e| e.side == side).collect();
    let fault = |e: &Excess| fault(wiring, &list, e);
    let ask = |guesses: &[Guess]| next(wiring, meter, tests, side, guesses);
    match explain(&weighed(&list, wiring.segments, meter)) {
        Explanation::Nothing => Verdict::Nothing,
        Explanation::Contradiction => Verdict::Contradiction,
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
    let heat = segment.full * (segment.full * resistance);
    Some(Fault {
        run: segment.run,
        excess: resistance,
        error: Ohms::new(excess.error),
        current: segment.full,
        heat,
        warming: Kelvins::new(heat.get() * wiring.site.catalogue.rules.joint_warming.value),
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
