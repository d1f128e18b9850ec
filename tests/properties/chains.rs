//! Laws of sizes and devices chosen together, on generated plans: a few each run, as many as
//! `LOOMWRIGHT_PLANS` says on demand.

use crate::generated_plan::plan;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, FindingKind, FuseDesign, Severity, Subject, design};
use loomwright::plan::Plan;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| Catalogue::embedded().unwrap());

fn plans() -> impl Iterator<Item = (u64, Plan)> {
    let many = std::env::var("LOOMWRIGHT_PLANS").ok().and_then(|n| n.parse().ok()).unwrap_or(30);
    (5000..5000 + many).map(|seed| (seed, plan(seed, 3 + (seed as usize * 5) % 15, seed % 2 == 0, &CATALOGUE)))
}

fn near(design: &Design, run: usize) -> Option<&FuseDesign> {
    design.runs[run].fuses.iter().find(|f| !f.far_end)
}

/// Away from the battery that feeds it no rating that was chosen is larger than the one before it, but where a stop
/// or a caution would be the price; seldom.
#[test]
fn no_chosen_rating_rises_away_from_its_battery() {
    let (mut pairs, mut rising) = (0, 0);
    for (seed, plan) in plans() {
        let design = design(&plan, &CATALOGUE);
        let circuits = &design.installation.circuits;
        for branch in 0..circuits.branches.len() {
            let way: Vec<_> =
                circuits.path_of(branch).iter().filter_map(|b| near(&design, circuits.branches[*b].run)).collect();
            for two in way.windows(2).filter(|two| !two[0].pinned && !two[1].pinned) {
                let (Some(up), Some(down)) = (two[0].rating, two[1].rating) else { continue };
                pairs += 1;
                if down > up {
                    rising += 1;
                    println!("seed {seed}: {down} behind {up} at {}", two[1].at);
                }
            }
        }
    }
    assert!(pairs > 20, "only {pairs} pairs");
    assert!(rising * 20 <= pairs, "{rising} of {pairs} rise");
}

/// No device stands above its breaking capacity without the finding.
#[test]
fn beyond_its_breaking_capacity_is_found() {
    for (seed, plan) in plans() {
        let design = design(&plan, &CATALOGUE);
        for run in &design.runs {
            for fuse in run.fuses.iter().filter(|f| f.rating.is_some() && f.prospective > f.breaking) {
                let kinds = [FindingKind::FuseBreaking, FindingKind::FuseUnmade];
                let said =
                    design.findings.iter().any(|f| kinds.contains(&f.kind) && f.subject == Subject::Run(run.run));
                assert!(said, "seed {seed}: R{} {fuse:?}", run.run + 1);
            }
        }
    }
}

/// What was chosen, entered as given, is judged alike: no more and no fewer stops and cautions of cables and fuses.
#[test]
fn what_is_chosen_is_judged_alike_when_given() {
    for (seed, plan) in plans() {
        let free = design(&plan, &CATALOGUE);
        let mut given = plan.clone();
        for (run, chosen) in given.runs.iter_mut().zip(&free.runs) {
            run.size = chosen.size.as_ref().map(|s| s.label.clone());
            // One rating is given for both ends of a run.
            if let (Some(fuse), 1) = (chosen.fuses.first(), chosen.fuses.len()) {
                (run.fuse, run.fuse_style) = (fuse.rating, Some(fuse.style.clone()));
            }
        }
        let grave = |design: &Design| {
            let fuses = [
                FindingKind::FuseBreaking,
                FindingKind::FuseFarFault,
                FindingKind::FuseSurge,
                FindingKind::FuseSelective,
                FindingKind::LetThrough,
                FindingKind::FuseMissing,
            ];
            let of =
                |severity| design.findings.iter().filter(|f| f.severity == severity && fuses.contains(&f.kind)).count();
            (of(Severity::Stop), of(Severity::Caution))
        };
        let (a, b) = (grave(&free), grave(&design(&given, &CATALOGUE)));
        assert_eq!(a, b, "seed {seed}");
    }
}
