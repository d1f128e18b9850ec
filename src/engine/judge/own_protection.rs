//! Does what charges the battery hear when it may not, and is there something that wakes it?
//!
//! A battery with a protection of its own may open under charge and at its low end. What is left on the cables then
//! gets the source's voltage, with no battery to hold it.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::cut_off::behind;
use crate::engine::installation::sources::has_mains;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::plan::{ChargedBy, ChargerKind, Choice, Permit, Place, Section, Value, Waker, point};
use crate::quantity::*;

/// All that is to be said of it.
pub(crate) fn check(site: &Installation) -> Vec<Finding> {
    let service = site.chemistry().and_then(|chemistry| Some((chemistry, chemistry.low.own_protection?)));
    let mut found: Vec<Finding> = starter(site).into_iter().collect();
    if let Some((_, own)) = service {
        found.extend(not_told(site));
        found.extend(wakes(site, own));
    }
    found
}

/// Sources of the plan, where each joins, and the word for it.
fn sources(site: &Installation) -> Vec<(ChargedBy, &'static str, &str)> {
    let all = [
        (site.charger.kind != ChargerKind::None, ChargedBy::Charger, "the charger", point::CHARGER),
        (site.solar.array > Watts::ZERO, ChargedBy::Solar, "the solar controller", site.solar.at.as_str()),
        (has_mains(site), ChargedBy::Mains, "the mains charger", site.mains.at.as_str()),
    ];
    all.into_iter().filter_map(|(there, source, name, at)| there.then_some((source, name, at))).collect()
}

/// What charges it and does not stop when its permission goes; said only of a battery that has the output.
fn not_told(site: &Installation) -> Option<Finding> {
    let battery = &site.service_battery;
    let deaf: Vec<_> =
        sources(site).into_iter().filter(|(source, ..)| battery.permit_stops.count(*source) == 0).collect();
    if battery.permits.count(Permit::Charge) == 0 || deaf.is_empty() {
        return None;
    }
    let names: Vec<&str> = deaf.iter().map(|(_, name, _)| *name).collect();
    let text = format!(
        "the battery takes back its permission to charge when it is full, hot or cold, and {} out of {} that charge do \
         not hear of it: its protection opens under charge, and the loads get what the source gives without a battery",
        names.join(" and "),
        sources(site).len()
    );
    let all: Vec<&str> = sources(site).iter().map(|(source, ..)| source.key()).collect();
    let place = Place::of(Section::ServiceBattery, "permit_stops");
    Some(
        Finding::new(Kind::ProtectionOpens, Subject::ServiceBattery, text)
            .rule("what charges a battery stops when that takes back its permission; common practice, no source")
            .at(place)
            .remedy_edit(
                format!("lead its charge output to the remote input of {}", names.join(" and ")),
                place,
                Some(Value::Text(all.join(", "))),
            ),
    )
}

/// An alternator that hangs straight on a battery which may open.
fn starter(site: &Installation) -> Option<Finding> {
    let protected = |c: &&Chemistry| c.low.own_protection.is_some();
    let chemistry = site.catalogue.chemistry(&site.starter_battery.chemistry).filter(protected)?;
    if site.vehicle.alternator_rating <= Amps::ZERO || site.starter_battery.takes_alternator {
        return None;
    }
    let text = format!(
        "the alternator of {} hangs straight on a starter battery of {}, whose own protection may open under charge, and \
         nothing says that its maker allows that",
        site.vehicle.alternator_rating, chemistry.name
    );
    let place = Place::of(Section::StarterBattery, "chemistry");
    Some(
        Finding::new(Kind::ProtectionOpens, Subject::StarterBattery, text)
            .as_severity(Severity::Stop)
            .rule("a running alternator that loses its battery throws its voltage up (load dump, ISO 16750-2)")
            .at(place)
            .remedy_edit("a lead-acid starter battery", place, Some(Value::Text("agm".into())))
            .remedy(
                "or 1 that its maker sells for the alternator of an engine: say so by `takes_alternator`, where its sheet does",
            ),
    )
}

/// It is said what wakes it, and nothing of that is there.
fn wakes(site: &Installation, own: Volts) -> Option<Finding> {
    let by = &site.service_battery.woken_by.0;
    if by.is_empty() {
        return None;
    }
    let joined = |source: ChargedBy| {
        let joins = |at: &str| at == point::CHARGER || behind(site, at) == Some(false);
        sources(site).into_iter().any(|(is, _, at)| is == source && joins(at) && behind(site, at) != Some(true))
    };
    let wakes = |waker: &Waker| match waker {
        Waker::Itself | Waker::Button => true,
        Waker::Charger => joined(ChargedBy::Charger),
        Waker::Solar => joined(ChargedBy::Solar),
        Waker::Mains => joined(ChargedBy::Mains),
    };
    if by.iter().any(wakes) {
        return None;
    }
    let words: Vec<&str> = by.iter().map(|waker| waker.key()).collect();
    let text = format!(
        "once its own protection has opened at {own} only {} wakes it, and the plan has none of that on its side of the \
         cut-off",
        words.join(" or ")
    );
    Some(
        Finding::new(Kind::WakeUp, Subject::ServiceBattery, text)
            .rule("a battery that has opened is woken by a charger made for it, never by a bare jumper (common practice, no source)")
            .at(Place::of(Section::ServiceBattery, "woken_by"))
            .remedy("carry 1 charger that starts on a battery which shows 0 V, with clamps and a fuse"),
    )
}
