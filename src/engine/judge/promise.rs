//! Does the design hold what it promises?

use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::bank::Job;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::promise::{Promise, Trial};
use crate::plan::{Place, Section};
use crate::quantity::*;

const RULE: &str =
    "stepped through from switching to switching with these very settings; approximation, see the days of use";

/// What the trials show.
pub(crate) fn check(
    site: &Installation,
    battery: &BatteryDesign,
    cut_off: &CutOffDesign,
    promise: &Promise,
) -> Vec<Finding> {
    let broken = promise.broken().map(|trial| broken(site, battery, cut_off, trial));
    // Days without charge that fail make the usual weeks fail as well: said once.
    let usual = promise.unusual().filter(|_| promise.held()).map(|trial| usual(site, trial));
    broken.into_iter().chain(usual).collect()
}

fn broken(site: &Installation, battery: &BatteryDesign, cut_off: &CutOffDesign, trial: &Trial) -> Finding {
    let lasts = trial.failed_at.unwrap_or(Hours::ZERO);
    let text = format!(
        "{}, power fails after {lasts} of the {} without charge: {}{}",
        trial.conditions.words(),
        trial.tried,
        reason(cut_off, trial),
        stood(site, trial)
    );
    let place = |key| Place::of(Section::ServiceBattery, key);
    let mut finding =
        Finding::new(Kind::PromiseBroken, Subject::ServiceBattery, text).rule(RULE).at(place("capacity_ah"));
    if let (Some(chemistry), Some(bank)) = (site.chemistry(), &battery.bank)
        && lasts > Hours::ZERO
    {
        let needed = bank.capacity * (trial.tried / lasts);
        let job = Job { site, chemistry, own: true, subject: Subject::ServiceBattery };
        if let Some(enough) = job.standard(needed, site.service_battery.in_parallel, &mut Notes::unkept()) {
            let words = format!("about {} last that long", enough.capacity);
            finding = finding.remedy_number(words, place("capacity_ah"), enough.capacity.get());
        }
    }
    let days = Days::new((lasts.get() / 24.0 * 10.0).floor() / 10.0);
    if days.get() >= 0.1 {
        finding =
            finding.remedy_number(format!("or plan {days} without charge"), place("days_without_charge"), days.get());
    }
    if site.cut_off.cut.is_some() {
        let words = "or leave the cut-off voltage out, so that it is chosen to last";
        finding = finding.remedy_edit(words, Place::of(Section::CutOff, "cut_v"), None);
    }
    finding.remedy("or use less, or keep a smaller reserve")
}

fn usual(site: &Installation, trial: &Trial) -> Finding {
    let failed = trial.failed_at.unwrap_or(Hours::ZERO);
    let text = format!(
        "in a usual week {}, power fails on day {:.0}{}",
        trial.conditions.words(),
        (failed.get() / 24.0).floor() + 1.0,
        stood(site, trial)
    );
    Finding::new(Kind::UsualWeeks, Subject::ServiceBattery, text)
        .rule(RULE)
        .at(Place::of(Section::ServiceBattery, "days_without_charge"))
        .remedy("bring in more: drive longer or on more days, a larger charger, more sun, the mains")
        .remedy("or plan as many days without charge as the longest gap has, for a larger battery")
}

/// What gave out.
fn reason(cut_off: &CutOffDesign, trial: &Trial) -> String {
    if trial.dead > Hours::ZERO {
        "the battery itself gives no more".into()
    } else if trial.sensed.is_some_and(|v| v < cut_off.cut) {
        format!("the cut-off at {} opens", cut_off.cut)
    } else {
        "a load switches itself off for low voltage".into()
    }
}

fn stood(site: &Installation, trial: &Trial) -> String {
    let worst = trial.worst.and_then(|(load, hours)| Some((site.loads.get(load)?, hours)));
    worst.map_or(String::new(), |(load, hours)| {
        format!("; {} stands without power for {hours} of {}", load.name, trial.tried)
    })
}
