//! Laws of fuses, on generated needs and plans.

use crate::generated_plan::plan;
use loomwright::catalogue::Catalogue;
use loomwright::engine::judge::fuse::limits::FuseLimits;
use loomwright::engine::simulate::fault::fuse::FuseNeed;
use loomwright::engine::{Design, FarEnd, FindingKind, Severity, SizeRow, Starts, Subject, design};
use loomwright::quantity::*;
use proptest::prelude::*;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| Catalogue::embedded().unwrap());

fn need() -> impl Strategy<Value = FuseNeed> {
    (0.1f64..200.0, 1.0f64..6.0, 0.0f64..3.0, -10.0f64..90.0, 1.0f64..500.0, 0.0f64..20_000.0).prop_map(
        |(steady, times, lasts, air, ampacity, prospective)| FuseNeed {
            loading: Share::new(0.8),
            air: Celsius::new(air),
            steady: Amps::new(steady),
            starts: Starts::one(Amps::new(steady * times), Seconds::new(lasts)),
            ampacity: Amps::new(ampacity),
            prospective: Amps::new(prospective),
            circuit: Volts::new(14.6),
            ..FuseNeed::default()
        },
    )
}

proptest! {
    /// The rating lies between what the load asks for and what the cable allows, and breaks the fault.
    #[test]
    fn a_chosen_fuse_lies_in_its_window(need in need()) {
        if let Some(choice) = FuseLimits::of(&CATALOGUE).first(None, &need) {
            prop_assert!(choice.rating >= choice.at_least && choice.rating <= choice.at_most);
            prop_assert!(choice.style.ratings.contains(&choice.rating));
            let breaks = choice.style.breaking_at(need.circuit).unwrap().amps;
            prop_assert!(breaks >= need.prospective);
        }
    }

    /// More steady current never gives a smaller fuse, and never one where less current had none.
    #[test]
    fn more_current_never_gives_a_smaller_fuse(need in need(), more in 1.0f64..3.0) {
        let steady = need.steady * more;
        let bigger = FuseNeed { steady, ..need };
        let (small, big) = (FuseLimits::of(&CATALOGUE).first(None, &need), FuseLimits::of(&CATALOGUE).first(None, &bigger));
        match (small, big) {
            (Some(small), Some(big)) => prop_assert!(big.rating >= small.rating, "{need:?}"),
            (None, Some(_)) => prop_assert!(need.starts.iter().any(|s| s.current > need.steady), "{need:?}"),
            _ => {}
        }
    }

    /// A cable that carries more takes a fuse wherever the thinner one did, never a bigger one of the same style.
    #[test]
    fn a_thicker_cable_takes_a_fuse_too(need in need(), more in 1.0f64..3.0) {
        let thicker = FuseNeed { ampacity: need.ampacity * more, ..need };
        if let Some(choice) = FuseLimits::of(&CATALOGUE).first(None, &need) {
            let then = FuseLimits::of(&CATALOGUE).first(None, &thicker).unwrap();
            prop_assert!(then.style.order <= choice.style.order);
            prop_assert!(then.style.key != choice.style.key || then.rating == choice.rating);
        }
    }
}

/// A plan whose sizes and battery stay as they are whatever else changes.
fn fixed(seed: u64) -> loomwright::plan::Plan {
    let mut plan = plan(seed, 3 + (seed as usize * 7) % 20, false, &CATALOGUE);
    plan.service_battery.capacity = Some(AmpHours::new(100.0));
    let sized = design(&plan, &CATALOGUE);
    for (run, sized) in plan.runs.iter_mut().zip(&sized.runs) {
        run.size = sized.size.as_ref().map(|s| s.label.clone());
        run.fuse = sized.fuses.first().and_then(|f| f.rating);
        run.fuse_style = sized.fuses.first().map(|f| f.style.clone());
    }
    plan
}

fn fuses(design: &Design) -> impl Iterator<Item = &loomwright::engine::FuseDesign> {
    design.runs.iter().filter_map(|r| r.fuses.iter().find(|f| !f.far_end))
}

/// Resistance anywhere never raises a fault current anywhere: a switch in one run, then a longer run.
#[test]
fn more_resistance_never_raises_a_fault_current() {
    for seed in 0..60 {
        let plan = fixed(seed);
        let before = design(&plan, &CATALOGUE);
        let run = seed as usize % plan.runs.len();
        let mut switched = plan.clone();
        switched.runs[run].switch_mohm = Milliohms::new(5.0);
        let mut longer = plan.clone();
        longer.runs[run].length = longer.runs[run].length * 2.0;
        for changed in [switched, longer] {
            let after = design(&changed, &CATALOGUE);
            let mut lower = 0;
            for (a, b) in fuses(&before).zip(fuses(&after)) {
                assert!(b.prospective.get() <= a.prospective.get() + 1e-9, "seed {seed}: {} {}", a.at, b.prospective);
                assert!(b.far_fault.get() <= a.far_fault.get() + 1e-9, "seed {seed}: {} {}", a.at, b.far_fault);
                lower += usize::from(b.far_fault.get() < a.far_fault.get());
            }
            let unfused = before.runs[run].fuses.is_empty() || before.runs[run].branch.is_none();
            assert!(lower > 0 || unfused, "seed {seed}: run {run} weakens no fault");
        }
    }
}

/// Where nothing is found wrong, every rule that a fuse is shown with is kept; where one is broken, a finding says so.
#[test]
fn margins_and_findings_agree() {
    let mut judged = 0;
    for seed in 0..120 {
        let plan = plan(seed, 3 + (seed as usize * 5) % 20, seed % 2 == 0, &CATALOGUE);
        let design = design(&plan, &CATALOGUE);
        for run in &design.runs {
            for fuse in &run.fuses {
                for margin in fuse.margins.iter().filter(|m| !m.holds()) {
                    let kinds: &[FindingKind] = match margin.rule {
                        "steady current" => &[FindingKind::FuseSmall],
                        "cable ampacity" => &[FindingKind::FuseBig, FindingKind::FuseMissing],
                        "start surge" => &[FindingKind::FuseSurge, FindingKind::FuseSmall],
                        "breaking capacity" => &[FindingKind::FuseBreaking],
                        "far-end fault" => &[FindingKind::FuseFarFault],
                        "let-through energy" => &[FindingKind::LetThrough],
                        "distance from the source" => &[FindingKind::FuseFar],
                        _ => continue, // the ratio of two fuses, which gates may make good
                    };
                    judged += 1;
                    let said = design.findings.iter().any(|f| kinds.contains(&f.kind));
                    assert!(said, "seed {seed}: R{} {margin:?}", run.run + 1);
                }
            }
        }
    }
    assert!(judged > 20, "only {judged} broken rules tried");
}

/// No run that has a size is left without protection unless a finding says so.
#[test]
fn every_sized_run_is_protected_or_found() {
    for seed in 200..320 {
        let plan = plan(seed, 3 + (seed as usize * 5) % 20, seed % 2 == 0, &CATALOGUE);
        let design = design(&plan, &CATALOGUE);
        // A cable in air too hot for its insulation carries nothing, and is found for that.
        let carries = |size: &SizeRow| size.ampacity.get() > 0.0;
        for run in design.runs.iter().filter(|r| r.branch.is_some() && r.size.as_ref().is_some_and(carries)) {
            let stopped = |kinds: &[FindingKind]| {
                design.findings.iter().any(|f| kinds.contains(&f.kind) && f.subject == Subject::Run(run.run))
            };
            let own = plan.runs[run.run].own_fuse;
            let rated = run.fuses.iter().any(|f| f.rating.is_some());
            assert!(
                !own || rated || stopped(&[FindingKind::FuseNone, FindingKind::SizeNone]),
                "seed {seed}: R{}",
                run.run + 1
            );
            assert!(
                run.far_end != FarEnd::Open || stopped(&[FindingKind::FuseMissing]),
                "seed {seed}: R{}",
                run.run + 1
            );
            if !own && !stopped(&[FindingKind::FuseMissing]) {
                let (rating, carries) = (protector(&plan, &design, run.run), run.size.as_ref().unwrap().ampacity);
                assert!(rating.is_none_or(|r| r <= carries), "seed {seed}: R{} {rating:?} {carries}", run.run + 1);
            }
        }
    }
}

/// Rating of the nearest fuse on the way to the battery.
fn protector(plan: &loomwright::plan::Plan, design: &Design, run: usize) -> Option<Amps> {
    let branch = design.installation.circuits.of_run[run]?;
    let way = design.installation.circuits.path_of(branch);
    let fused = way.iter().rev().find(|b| plan.runs[design.installation.circuits.branches[**b].run].own_fuse)?;
    design.runs[design.installation.circuits.branches[*fused].run].fuses.first()?.rating
}

/// As long as it is said that a run may become, sizes and fuses as chosen, no far-end fault is more than a
/// note; a little longer, one is.
#[test]
fn the_longest_length_holds_forward() {
    let grave = |design: &Design| {
        let kinds = [FindingKind::FuseFarFault, FindingKind::LetThrough];
        let all = design.findings.iter().filter(|f| kinds.contains(&f.kind) && f.severity != Severity::Note);
        all.count()
    };
    let (mut tried, mut first) = (0, 0);
    for seed in 0..80 {
        let mut plan = plan(seed, 3 + (seed as usize * 5) % 12, seed % 2 == 0, &CATALOGUE);
        let design = loomwright::engine::design(&plan, &CATALOGUE);
        for (run, shown) in plan.runs.iter_mut().zip(&design.runs) {
            run.size = shown.size.as_ref().map(|s| s.label.clone());
            if let Some(fuse) = shown.fuses.first() {
                (run.fuse, run.fuse_style) = (fuse.rating, Some(fuse.style.clone()));
            }
        }
        let pinned = loomwright::engine::design(&plan, &CATALOGUE);
        for shown in pinned.runs.iter().filter(|r| r.fuses.len() == 1) {
            let Some((longest, "far-end fault")) = shown.longest else { continue };
            let own = plan.runs[shown.run].length;
            if longest.get() < 0.05 {
                continue;
            }
            let with = |length: f64| {
                let mut longer = plan.clone();
                longer.runs[shown.run].length = Metres::new(length);
                grave(&loomwright::engine::design(&longer, &CATALOGUE))
            };
            let (at, beyond) = (with(longest.get() * 0.999), with(longest.get() * 1.001));
            // Nearer than the far end a fault may be the worse one where the fuse waits as long for both: then a shorter
            // run is no better than the one planned, and the length said is on the safe side.
            if longest < own && with(own.get()) <= at {
                continue;
            }
            assert!(at < beyond, "seed {seed} R{}: {own}, longest {longest}: {at}, {beyond}", shown.run + 1);
            tried += 1;
            first += u32::from(longest < own);
        }
    }
    assert!(tried > 20, "only {tried} lengths tried, {first} shorter than planned");
}
