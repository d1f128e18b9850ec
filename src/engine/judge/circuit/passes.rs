//! What does a run pass on its way that could harm it, or that it could harm?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::{Subject, run_name};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::plan::{Obstacle, Place};
use crate::quantity::Metres;

const MANUALS: &str = "vehicle makers' body-builder manuals (from memory, verify)";

/// One finding for each sort of thing that a run passes; an edge wants its grommet and no more.
pub fn check(site: &Installation) -> Vec<Finding> {
    let laid = site.runs.iter().enumerate().filter(|(run, _)| !site.is_way(*run));
    let met = |(run, _): (usize, _)| {
        let worth = [Obstacle::FuelLine, Obstacle::BrakeLine, Obstacle::Exhaust, Obstacle::Hinge, Obstacle::Tyre];
        let passes = worth.into_iter().filter(move |o| site.runs[run].passes.count(*o) > 0);
        passes.filter_map(move |obstacle| finding(site, run, obstacle))
    };
    laid.flat_map(met).collect()
}

fn finding(site: &Installation, run: usize, obstacle: Obstacle) -> Option<Finding> {
    let times = site.runs[run].passes.count(obstacle);
    let guard = site.catalogue.rules.guard.value;
    let conduit: Metres = guard * times as f64;
    let (severity, what, rule, mends) = match obstacle {
        Obstacle::FuelLine => (
            Severity::Stop,
            "is fastened to a fuel or gas line",
            "no cable on a fuel or gas line: a chafed one sets it on fire",
            "lead it apart, on clips of its own every 300 mm".to_string(),
        ),
        Obstacle::BrakeLine => (
            Severity::Stop,
            "is fastened to a brake line",
            "no cable on a brake line: a chafed one burns a hole into it",
            "lead it apart, on clips of its own every 300 mm".to_string(),
        ),
        Obstacle::Exhaust => (
            Severity::Caution,
            "passes an exhaust without heat shield at less than 200 mm",
            "at least 200 mm from an exhaust without shield",
            format!("keep it 200 mm away, or shield it: {conduit} of heat-proof sleeve are on the parts list"),
        ),
        Obstacle::Hinge => (
            Severity::Note,
            "passes a hinge",
            "a cable that moves breaks strand by strand where it is clamped",
            format!(
                "a loop with slack in {conduit} of flexible conduit, clamped on both sides, along the axis of the hinge"
            ),
        ),
        Obstacle::Tyre => (
            Severity::Note,
            "passes a tyre",
            "stones and a thrown tread cut a cable",
            format!("lead it behind the rail or in {conduit} of conduit"),
        ),
        Obstacle::Edge => return None,
    };
    let text = format!("{} {what}, {times} time{}", run_name(&site.runs, run), if times == 1 { "" } else { "s" });
    Some(
        Finding::new(Kind::RunPasses, Subject::Run(run), text)
            .as_severity(severity)
            .rule(format!("{rule}: {MANUALS}"))
            .at(Place::run(run, "passes"))
            .remedy(mends),
    )
}
