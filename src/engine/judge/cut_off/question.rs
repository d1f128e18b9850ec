//! What no setting makes good for a battery alone: a current it does not give, a setting where harm has begun.

use crate::catalogue::Chemistry;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::cut_off::settings::harmful;
use crate::engine::judge::finding::{Finding, Kind};
use crate::plan::{Place, Section};
use crate::quantity::*;

pub(crate) fn check(chemistry: &Chemistry, capacity: AmpHours, current: Amps, cut: Volts) -> Vec<Finding> {
    rate(chemistry, capacity, current).into_iter().chain(low(chemistry, cut)).collect()
}

fn rate(chemistry: &Chemistry, capacity: AmpHours, current: Amps) -> Option<Finding> {
    let most = Amps::new(capacity.get() * chemistry.rate.max_c);
    if current <= most {
        return None;
    }
    let needed = AmpHours::new((current.get() / chemistry.rate.max_c).ceil());
    let text = format!("{current} is more than the {most} that {capacity} of {} give steadily", chemistry.name);
    let finding = Finding::new(Kind::BatteryRate, Subject::ServiceBattery, text)
        .rule(format!("highest discharge {} C: {}", chemistry.rate.max_c, chemistry.rate.from.max_c.words()))
        .at(Place::of(Section::ServiceBattery, "capacity_ah"));
    Some(finding.remedy(format!("ask for {needed} or more, or for {most} or less")))
}

fn low(chemistry: &Chemistry, cut: Volts) -> Option<Finding> {
    Some(harmful(chemistry, cut)?.remedy(format!(
        "keep a reserve of {} or more, and set it no lower than {}",
        chemistry.low.reserve,
        chemistry.low.floor().0 + Volts::new(0.1)
    )))
}
