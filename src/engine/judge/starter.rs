//! Does the engine still start, over the plan's own days?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::promise::Promise;
use crate::plan::{Place, Section};
use crate::quantity::*;

/// The starter battery falls below what starting needs.
pub(crate) fn check(site: &Installation, charger: &ChargerDesign, promise: &Promise) -> Option<Finding> {
    let trial = promise.start_lost()?;
    let (battery, lost) = (&site.starter_battery, trial.start_lost?);
    let usual = promise.usual.iter().any(|t| t.start_lost.is_some());
    let when = if usual { "in a usual week" } else { "parked for the days without charge" };
    let hanging: Vec<&str> = site.loads.iter().filter(|l| l.on_starter).map(|l| l.name.as_str()).collect();
    let what = if hanging.is_empty() { String::new() } else { format!("; it feeds {}", hanging.join(", ")) };
    let text = format!(
        "{when} {}, the starter battery of {} has less than the {} that starting needs after {lost}{what}",
        trial.conditions.words(),
        battery.capacity,
        battery.keep,
    );
    let rule = "charge counted hour by hour: loads, parked draw and charger out, the hot alternator's spare in; \
                approximation, common practice, no source";
    let mut finding = Finding::new(Kind::StartLost, Subject::StarterBattery, text)
        .rule(rule)
        .at(Place::of(Section::StarterBattery, "capacity_ah"));
    if !hanging.is_empty() {
        finding = finding.remedy(format!("let the service battery feed {}, behind its cut-off", hanging.join(", ")));
    }
    let over = charger.bounds.alternator().map(|bound| bound.amps).reduce(Amps::min);
    if let Some(most) = over.filter(|most| usual && charger.steady > *most && most.get() >= 0.5) {
        let most = (most.get() * 2.0).floor() / 2.0;
        let words = format!("a charger of {} leaves the starter battery alone", Amps::new(most));
        finding = finding.remedy_number(words, Place::of(Section::Charger, "current_a"), most);
    }
    if let Some(days) = charger.starts_for.filter(|days| days.get() >= 0.1) {
        finding = finding.remedy(format!("drive, or charge it, within {days} of parking"));
    }
    Some(
        finding.remedy(format!(
            "or a larger starter battery, or less than {} of draw while parked",
            site.vehicle.parked_draw
        )),
    )
}
