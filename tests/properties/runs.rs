//! Laws of sized runs, on generated plans.

use crate::generated_plan::plan;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, FindingKind, design};

/// Every number of a design is a number: none is NaN or infinite, shown or kept.
#[test]
fn every_plan_has_a_finite_design() {
    let catalogue = Catalogue::embedded().unwrap();
    for seed in 0..300 {
        let plan = plan(seed, 3 + (seed as usize * 7) % 40, true, &catalogue);
        let design = design(&plan, &catalogue);
        assert_eq!(design.runs.len(), plan.runs.len());
        assert_eq!(design.loads.len(), plan.loads.len());
        let words = format!("{:?} {:?} {:?}", design.runs, design.loads, design.copper);
        assert!(!words.contains("NaN") && !words.contains("inf"), "seed {seed}: {words}");
        for (topic, working) in design.workings.iter() {
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
    for seed in 300..700 {
        let plan = plan(seed, 3 + (seed as usize * 5) % 12, false, &catalogue);
        let design = design(&plan, &catalogue);
        let complains = |kind| design.findings.iter().any(|f| f.kind == kind);
        use FindingKind::{Collapse, DropHigh, SizeNone, VoltageLow};
        if [DropHigh, SizeNone, Collapse, VoltageLow].into_iter().any(complains) {
            continue;
        }
        for (load, supply) in plan.loads.iter().zip(&design.loads) {
            let Some(voltage) = supply.voltage else { continue };
            assert!(supply.drop_share <= supply.limit, "seed {seed}, {}: {}", load.name, supply.drop_share);
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
        let solved = run.near_voltage - run.far_voltage;
        assert!(solved.get() <= size.drop.get() + 1e-9, "seed {seed}, run {}: {solved} over {}", run.run, size.drop);
    }
}
