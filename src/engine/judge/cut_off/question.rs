//! What no setting makes good for a battery alone: a current it does not give, a setting where harm has begun; and
//! what speaks against one that is asked about.

use crate::catalogue::Chemistry;
use crate::engine::installation::cut_off::Device;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::cut_off::limits::{DEEPER, EARLY};
use crate::engine::judge::cut_off::settings::{harmful, no_one_voltage, serve_both};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::plan::{Place, Section};
use crate::quantity::*;

/// `heavy`: whether the heavy current was asked about, not taken as three times the usual one.
pub(crate) fn check(
    chemistry: &Chemistry,
    capacity: AmpHours,
    current: Amps,
    heavy: bool,
    out: &CutOffDesign,
) -> Vec<Finding> {
    let early = high(out).or_else(|| early(out, heavy));
    let found = [rate(chemistry, capacity, current), low(chemistry, out), early, chatter(out)];
    found.into_iter().flatten().collect()
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

fn finding(kind: Kind, key: &'static str, text: String, rule: &str) -> Finding {
    Finding::new(kind, Subject::CutOff, text).rule(rule).at(Place::of(Section::CutOff, key))
}

fn low(chemistry: &Chemistry, out: &CutOffDesign) -> Option<Finding> {
    if let Some(harmful) = harmful(chemistry, out.cut) {
        return Some(harmful.remedy(format!(
            "keep a reserve of {} or more, and set it no lower than {}",
            chemistry.low.reserve,
            chemistry.low.floor().0 + Volts::new(0.1)
        )));
    }
    let usual = out.at_usual()?;
    let (at, reserve) = (usual.trips_at.unwrap_or(Share::ZERO), out.reserve);
    (reserve - at > DEEPER).then(|| {
        let text = format!("at {} it acts at {at}, {} under the reserve of {reserve}", usual.current, reserve - at);
        finding(Kind::CutOffLow, "cut_v", text, "the setting is chosen by the usual current")
            .as_severity(Severity::Caution)
            .remedy(format!("{} keeps about {reserve}", out.nearest))
    })
}

/// A heavy current that is asked about trips it with much charge left.
fn early(out: &CutOffDesign, asked: bool) -> Option<Finding> {
    let (heavy, reserve) = (out.at_currents.last().filter(|_| asked)?, out.reserve);
    let at = heavy.trips_at.filter(|at| *at - reserve > EARLY)?;
    let text = format!("at {} it acts with {at} of the charge left{}", heavy.current, no_one_voltage(out));
    let rule = "a fixed voltage cannot know the current; half of what may be used: common practice, no source";
    let found = finding(Kind::CutOffEarly, "cut_v", text, rule);
    Some(serve_both(found.as_severity(with_left(at, reserve)), out, Device::widest().longest_delay))
}

/// A setting that is asked about, so high that the usual current trips it with much charge left, or at once.
fn high(out: &CutOffDesign) -> Option<Finding> {
    let (usual, reserve) = (out.at_usual().filter(|_| out.cut > out.nearest)?, out.reserve);
    let at = usual.trips_at.filter(|at| *at - reserve > EARLY)?;
    let text = format!("at {} it acts with {at} of the charge left, where {reserve} were to be kept", usual.current);
    let rule = "the setting is chosen by the usual current; half of what may be used: common practice, no source";
    let found = finding(Kind::CutOffEarly, "cut_v", text, rule).as_severity(with_left(at, reserve));
    Some(found.remedy(format!("{} keeps about {reserve}", out.nearest)))
}

/// A stop where more than half of what may be used is still there.
fn with_left(at: Share, reserve: Share) -> Severity {
    if at > reserve + (Share::FULL - reserve) * 0.5 { Severity::Stop } else { Severity::Caution }
}

/// A setting that is asked about, above what charging reaches with room to close again.
fn chatter(out: &CutOffDesign) -> Option<Finding> {
    let voltage = out.counter.is_none();
    (voltage && (out.reconnect > out.charging || out.reconnect <= out.rebound)).then(|| {
        let text = format!(
            "after a cut at {} the posts rise to {}, and charging reaches {}: no voltage between closes it again",
            out.cut, out.rebound, out.charging
        );
        finding(Kind::CutOffChatter, "reconnect_v", text, "reconnect above the rebound and below what charging reaches")
            .remedy(format!("{} leaves room", out.nearest))
    })
}
