//! Laws of sized runs, on generated plans.

use crate::chains::grave;
use crate::generated_many::plans;
use crate::generated_plan::plan;
use loomwright::catalogue::Catalogue;
use loomwright::engine::choose::circuit::basis::Basis;
use loomwright::engine::choose::circuit::pick::pick;
use loomwright::engine::simulate::circuit::demand::{Demand, Terminal};
use loomwright::engine::simulate::circuit::levels::Levels;
use loomwright::engine::simulate::circuit::picked::{Picked, PickedRun};
use loomwright::engine::{Design, FindingKind, Severity, design};
use loomwright::plan::Plan;
use loomwright::quantity::Volts;

/// Every number of a design is a number: none is NaN or infinite, shown or kept.
#[test]
fn every_plan_has_a_finite_design() {
    let catalogue = Catalogue::embedded().unwrap();
    let many = plans(60);
    for seed in 0..many {
        let plan = plan(seed, 3 + (seed as usize * 7) % 40, true, &catalogue);
        let design = design(&plan, &catalogue);
        assert_eq!(design.runs.len(), plan.runs.len());
        assert_eq!(design.loads.len(), plan.loads.len());
        let words = format!("{:?} {:?} {:?}", design.runs, design.loads, design.copper);
        assert!(!words.contains("NaN") && !words.contains("inf"), "seed {seed}: {words}");
        for (topic, working) in design.workings().iter() {
            let figures = working.inputs.iter().map(|i| i.value).chain([working.result]);
            for figure in figures {
                assert!(figure.value.is_finite(), "seed {seed}: {topic:?} {working:?}");
            }
        }
        for finding in &design.findings {
            assert!(!finding.remedies.is_empty(), "seed {seed}: {finding:?}");
            assert!(!finding.text.contains('–'), "seed {seed}: {finding:?}");
        }
    }
}

/// A design without a complaint about drop keeps every class in the solved network, and the
/// currents it was sized for are never exceeded there.
#[test]
fn what_is_sized_keeps_its_class_when_solved() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut kept = 0;
    for seed in 300..300 + plans(200) {
        let plan = plan(seed, 3 + (seed as usize * 5) % 12, false, &catalogue);
        let design = design(&plan, &catalogue);
        let complains = |kind| design.findings.iter().any(|f| f.kind == kind);
        use FindingKind::{Collapse, DropHigh, SizeNone, VoltageLow};
        if [DropHigh, SizeNone, Collapse, VoltageLow].into_iter().any(complains) {
            continue;
        }
        for (load, supply) in plan.loads.iter().zip(&design.loads) {
            let Some((voltage, share)) = supply.voltage.zip(supply.drop_share) else { continue };
            assert!(share <= supply.limit, "seed {seed}, {}: {share}", load.name);
            assert!(supply.surge_voltage.is_some_and(|s| s <= voltage), "seed {seed}, {}", load.name);
            kept += 1;
        }
        currents_hold(&design, seed);
    }
    assert!(kept > 300, "{kept} loads looked at");
}

fn currents_hold(design: &Design, seed: u64) {
    for run in &design.runs {
        let Some(size) = &run.size else { continue };
        let solved = run.settled.near - run.settled.far;
        assert!(solved.get() <= size.drop.get() + 1e-9, "seed {seed}, run {}: {solved} over {}", run.run, size.drop);
    }
}

/// On every generated plan small enough, no choice of sizes that keeps each run's own rules and each
/// load's limit is lighter than the one used: all of them are tried. A lighter one that a device then makes worse,
/// as its findings tell with those sizes given, is no better.
///
/// Where the search over sizes and devices is broken off `copper.least` says so: a better answer may be left, in one
/// plan of a hundred at the most.
#[test]
fn no_choice_of_sizes_is_lighter() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut compared, mut proven, mut left) = (0, Vec::new(), Vec::new());
    let many = plans(450);
    for seed in 5000..5000 + many {
        let plan = plan(seed, 4 + seed as usize % 3, false, &catalogue);
        let design = design(&plan, &catalogue);
        let levels = Levels::of(&design.installation, &design.battery, &design.charger, design.budget.peak);
        let demand = Demand::of(&design.installation, &levels, &design.charger);
        let picked = pick(&Basis {
            site: &design.installation,
            battery: &design.battery,
            charger: &design.charger,
            demand: &demand,
            levels,
        })
        .unwrap();
        let least = |branch: usize| {
            let run = &picked.runs[branch];
            let standing = run.candidates.iter().filter(|c| c.stands()).map(|c| c.drop).reduce(Volts::min);
            let given = run.pinned.map(|c| run.candidates[c].drop);
            given.or(standing).or(run.candidates.last().map(|c| c.drop)).unwrap_or(Volts::new(f64::INFINITY))
        };
        let path = |t: &Terminal| t.branch.map(|b| design.installation.circuits.path_of(b)).unwrap_or_default();
        let reached = |t: &Terminal| path(t).into_iter().map(least).sum::<Volts>() <= t.limit;
        // Where nothing breaks a fault the strongest device is taken, whatever copper that asks for.
        let unbroken =
            design.findings.iter().any(|f| f.kind == FindingKind::FuseBreaking && f.severity == Severity::Stop);
        if unbroken || picked.hopeless.iter().any(|h| *h) || !demand.terminals.iter().all(reached) {
            continue;
        }
        let Some((least, sizes)) = lightest_by_trying(&picked, &design, &demand) else { continue };
        // Trying all takes each run's device as it was chosen; chosen together it may be lighter still.
        if picked.mass.get() > least + 1e-9 {
            let other = loomwright::engine::design(&pinned(&plan, &design, &sizes), &catalogue);
            let (other, used) = (harm(&other, &catalogue), harm(&design, &catalogue));
            let better = other.0 < used.0 || (other.0 == used.0 && other.1 < used.1 - 1e-6);
            if better {
                let words = format!("seed {seed}: {}, by trying all {least} kg", picked.mass);
                if design.copper.least { &mut proven } else { &mut left }.push(words);
            }
        }
        assert_eq!(design.copper.mass, picked.mass, "seed {seed}");
        compared += 1;
    }
    assert!(compared * 5 >= many, "only {compared} plans compared");
    assert!(proven.is_empty(), "{proven:#?}");
    assert!(left.len() as u64 * 100 <= compared, "{left:#?}");
    println!("{compared} plans compared; lighter where the search was broken off: {left:#?}");
}

/// The plan with a size given for each run.
fn pinned(plan: &Plan, design: &Design, sizes: &[usize]) -> Plan {
    let mut plan = plan.clone();
    for (branch, size) in sizes.iter().enumerate() {
        let at = design.installation.circuits.branches[branch].run;
        plan.runs[at].size = Some(design.runs[at].sizes[*size].label.clone());
    }
    plan
}

/// Stops, ratings that rise away from their battery, cautions; then the copper, half a kilogram for each caution of
/// service, and a fifth of one for each step to a less plain style.
fn harm(design: &Design, catalogue: &Catalogue) -> ([usize; 3], f64) {
    let count = |severity: Severity| design.findings.iter().filter(|f| f.severity == severity).count();
    let styles = design.runs.iter().flat_map(|r| &r.fuses).filter_map(|f| catalogue.fuse_style(&f.style));
    let steps: f64 = styles.map(|style| f64::from(style.order - 1)).sum();
    let [.., service] = grave(design);
    let least = [count(Severity::Stop), rising(design), count(Severity::Caution) - service];
    (least, design.copper.mass.get() + service as f64 / 2.0 + steps / 5.0)
}

/// How many devices stand behind a smaller one.
fn rising(design: &Design) -> usize {
    let circuits = &design.installation.circuits;
    let near = |branch: usize| {
        let run = &design.runs[circuits.branches[branch].run];
        run.fuses.iter().find(|f| !f.far_end)?.rating
    };
    let smaller_before = |branch: &usize| {
        let path = circuits.path_of(*branch);
        let before = path[..path.len() - 1].iter().rev().find_map(|b| near(*b));
        before.is_some_and(|up| near(*branch).is_some_and(|down| down > up))
    };
    (0..circuits.branches.len()).filter(smaller_before).count()
}

/// By trying every combination: the mass, and which candidate of each branch; `None` when there are too many.
fn lightest_by_trying(picked: &Picked, design: &Design, demand: &Demand) -> Option<(f64, Vec<usize>)> {
    let options = |run: &PickedRun| -> Vec<usize> {
        let standing = (0..run.candidates.len()).filter(|c| run.candidates[*c].stands()).collect::<Vec<_>>();
        match run.pinned {
            Some(pinned) => vec![pinned],
            None if standing.is_empty() => vec![run.candidates.len() - 1],
            None => standing,
        }
    };
    let options: Vec<Vec<usize>> = picked.runs.iter().map(options).collect();
    if options.iter().map(|o| o.len() as f64).product::<f64>() > 60_000.0 {
        return None;
    }
    let paths: Vec<(Vec<usize>, f64)> = demand
        .terminals
        .iter()
        .filter_map(|t| Some((design.installation.circuits.path_of(t.branch?), t.limit.get())))
        .collect();
    let mut choice = vec![0; options.len()];
    let mut best = (f64::INFINITY, Vec::new());
    loop {
        let used = |b: usize| &picked.runs[b].candidates[options[b][choice[b]]];
        let mass: f64 = (0..options.len()).map(|b| used(b).mass.get()).sum();
        let keeps =
            |(path, limit): &(Vec<usize>, f64)| path.iter().map(|b| used(*b).drop.get()).sum::<f64>() <= limit + 1e-12;
        if mass < best.0 && paths.iter().all(keeps) {
            best = (mass, (0..options.len()).map(|b| options[b][choice[b]]).collect());
        }
        let Some(next) = (0..options.len()).find(|i| choice[*i] + 1 < options[*i].len()) else { break };
        choice[next] += 1;
        choice[..next].fill(0);
    }
    Some(best)
}
