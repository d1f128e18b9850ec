//! Can the engine always be started?

use crate::engine::installation::Installation;
use crate::engine::installation::alternator::lowest_driving_voltage;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::cut_off::starter::StarterGuard;
use crate::plan::{Place, Section, Value};

/// Nothing where a wire stops the charger with the engine.
pub(crate) fn check(site: &Installation, guard: &StarterGuard) -> Vec<Finding> {
    if guard.by_wire {
        return Vec::new();
    }
    release(site, guard).into_iter().chain(engage(site, guard)).collect()
}

fn release(site: &Installation, guard: &StarterGuard) -> Option<Finding> {
    let keep = site.starter_battery.keep;
    if guard.leaves.get() >= keep.get() - 1e-9 {
        return None;
    }
    let chemistry = site.catalogue.chemistry(&site.starter_battery.chemistry)?;
    let (releases, least) = (site.charger.releases_at, guard.release_at_least);
    let text = format!(
        "with the engine off the charger draws {} until {releases}, which leaves the starter battery {}; {keep} are \
         needed to start",
        guard.draws, guard.leaves
    );
    Some(
        Finding::new(Kind::StarterLow, Subject::StarterBattery, text)
            .rule(format!("resting voltage less current x resistance; {}", chemistry.resting.words()))
            .at(Place::of(Section::Charger, "releases_v"))
            .remedy_edit(
                "an enable wire from an engine-running signal stops it with the engine",
                Place::of(Section::Charger, "enable_signal"),
                Some(Value::Flag(true)),
            )
            .remedy_number(
                format!("or release at {least} or more"),
                Place::of(Section::Charger, "releases_v"),
                least.get(),
            ),
    )
}

fn engage(site: &Installation, guard: &StarterGuard) -> Option<Finding> {
    let (engages, full, good) = (site.charger.engages_at, guard.full, guard.engage_at_least);
    if engages > full {
        return None;
    }
    let text = format!("the charger engages at {engages}, which a full starter battery shows at rest ({full})");
    let chemistry = site.catalogue.chemistry(&site.starter_battery.chemistry)?;
    let low = lowest_driving_voltage(site);
    Some(
        Finding::new(Kind::StarterLow, Subject::StarterBattery, text)
            .rule(format!(
                "without an enable wire the charger must start only at voltages that a running engine brings; {}",
                chemistry.resting.words()
            ))
            .at(Place::of(Section::Charger, "engages_v"))
            .remedy_number(
                format!("engage at {good}; the alternator brings at least {low}"),
                Place::of(Section::Charger, "engages_v"),
                good.get(),
            ),
    )
}
