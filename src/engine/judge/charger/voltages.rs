//! Does the charge voltage suit what is charged, and is it warm enough for that?
//!
//! Too much is looked for at the service battery (a charge voltage that the plan
//! gives, or the alternator's behind a relay) and at the starter battery, which
//! gets the alternator's. Too little is what does not keep a full battery full,
//! or for lead-acid stands further below its charge voltage than alternators
//! usually do. Where the current stops follows from the resting voltage. Left
//! out: sun and mains, whose devices are taken to be set to the chemistry's own
//! charge voltage.

use crate::catalogue::{Catalogue, Chemical, Chemistry};
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::REGULATION;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::cell::store::{TABLE_AIR, resting_charge};
use crate::plan::{Alternator, ChargerKind, Place, Section, Value};
use crate::quantity::*;

/// The service battery, by the charger's given voltage or a relay's.
pub(crate) fn service(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    match (site.charger.kind, site.charger.output_voltage) {
        (ChargerKind::Relay, _) => relay_high(site, chemistry),
        (ChargerKind::DcDc, Some(given)) => {
            charger_high(chemistry, given).or_else(|| charger_low(site, chemistry, given))
        }
        _ => None,
    }
}

fn rule(chemistry: &Chemistry) -> String {
    format!("highest charge voltage: {}", chemistry.charge.from.max.words())
}

fn charger_high(chemistry: &Chemistry, given: Volts) -> Option<Finding> {
    let (most, good) = (chemistry.charge.max, chemistry.charge.absorption);
    if given.get() <= most.get() + 1e-9 {
        return None;
    }
    let place = Place::of(Section::Charger, "output_v");
    let text = format!("the charger gives {given}; {} stands at most {most} at its posts", chemistry.name);
    Some(Finding::new(Kind::ChargeVoltage, Subject::Charger, text).rule(rule(chemistry)).at(place).remedy_number(
        format!("set it to {good}"),
        place,
        good.get(),
    ))
}

fn relay_high(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let (gives, most) = (site.vehicle.alternator_voltage, chemistry.charge.max);
    if gives.get() <= most.get() + 1e-9 {
        return None;
    }
    let good = chemistry.charge.absorption;
    let (kind, voltage) = (Place::of(Section::Charger, "kind"), Place::of(Section::Vehicle, "alternator_v"));
    let text =
        format!("the relay passes on the alternator's {gives}; {} stands at most {most} at its posts", chemistry.name);
    Some(
        Finding::new(Kind::ChargeVoltage, Subject::Charger, text)
            .rule(rule(chemistry))
            .at(voltage)
            .remedy_edit(format!("a DC-DC charger gives it its own {good}"), kind, Some(Value::Text("dc-dc".into())))
            .remedy_number(format!("or have the alternator regulated to {good}"), voltage, good.get()),
    )
}

/// What a charge voltage should at least be: it keeps a full battery full, and
/// a lead-acid block stands no further below its charge voltage than usual.
fn least(catalogue: &Catalogue, chemistry: &Chemistry) -> Volts {
    let c = &chemistry.charge;
    match chemistry.chemical {
        Chemical::LeadAcid => c.float.max(c.absorption - catalogue.rules.charge_below.value),
        _ => c.float,
    }
}

fn charger_low(site: &Installation, chemistry: &Chemistry, given: Volts) -> Option<Finding> {
    let (least, good) = (least(&site.catalogue, chemistry), chemistry.charge.absorption);
    if given.get() >= least.get() - 1e-9 {
        return None;
    }
    let ends = resting_charge(chemistry, given, TABLE_AIR);
    let from = Share::FULL - planned_depth(site, chemistry);
    let nothing = ends.get() <= from.get() + 1e-9;
    let what = if nothing {
        format!("that puts nothing back: {from} charged it rests as high")
    } else if ends.get() < 0.995 {
        format!("charging ends near {ends} of the charge")
    } else {
        "the last part is filled very slowly, if at all".into()
    };
    let place = Place::of(Section::Charger, "output_v");
    let text = format!("the charger gives {given}, {} wants {good} and at least {least}: {what}", chemistry.name);
    let severity = if nothing { Severity::Stop } else { Severity::Caution };
    Some(
        Finding::new(Kind::ChargeVoltageLow, Subject::Charger, text)
            .as_severity(severity)
            .rule(if nothing {
                format!("resting voltage: {}", chemistry.resting.words())
            } else {
                low_rule(&site.catalogue, chemistry)
            })
            .at(place)
            .remedy_number(format!("set it to {good}"), place, good.get()),
    )
}

fn low_rule(catalogue: &Catalogue, chemistry: &Chemistry) -> String {
    let (charge, below) = (&chemistry.charge, &catalogue.rules.charge_below);
    if least(catalogue, chemistry) > charge.float {
        format!("charge voltage: {}; how far under it: {}", charge.from.absorption.words(), below.from.words())
    } else {
        format!("float voltage: {}", charge.from.float.words())
    }
}

/// The starter battery, on the alternator whatever charges the service battery.
pub(crate) fn starter(site: &Installation) -> Vec<Finding> {
    let Some(chemistry) = site.catalogue.chemistry(&site.starter_battery.chemistry) else { return Vec::new() };
    let found = [starter_high(site, chemistry), starter_low(site, chemistry), starter_cold(site, chemistry)];
    found.into_iter().flatten().collect()
}

fn chemistry_place() -> Place {
    Place::of(Section::StarterBattery, "chemistry")
}

/// The lead-acid block that stands the most; a vehicle's alternator is made for it.
fn sturdiest(catalogue: &Catalogue) -> Option<&Chemistry> {
    let lead = catalogue.chemistries.iter().filter(|c| c.chemical == Chemical::LeadAcid);
    lead.max_by(|a, b| a.charge.max.get().total_cmp(&b.charge.max.get()))
}

fn starter_high(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let (gives, most) = (site.vehicle.alternator_voltage, chemistry.charge.max);
    let over = gives - most;
    if over.get() <= 1e-9 {
        return None;
    }
    // Lead-acid gasses and loses water; within what a regulator strays that is slow.
    let lead = chemistry.chemical == Chemical::LeadAcid;
    let severity = if lead && over.get() <= REGULATION.get() { Severity::Caution } else { Severity::Stop };
    let voltage = Place::of(Section::Vehicle, "alternator_v");
    let text = format!(
        "the alternator gives the starter battery {gives}; {} stands at most {most} at its posts, {over} less",
        chemistry.name
    );
    let mut finding = Finding::new(Kind::ChargeVoltage, Subject::StarterBattery, text)
        .as_severity(severity)
        .rule(rule(chemistry))
        .at(chemistry_place());
    if let Some(other) = sturdiest(&site.catalogue).filter(|o| o.charge.max.get() >= gives.get()) {
        finding = finding.remedy_edit(
            format!("{} stands {}", other.name, other.charge.max),
            chemistry_place(),
            Some(Value::Text(other.key.clone())),
        );
    }
    let good = chemistry.charge.absorption;
    Some(if lead {
        finding.remedy_number(format!("have the alternator regulated to {good}"), voltage, good.get())
    } else {
        finding.remedy(format!("no starter battery of {} on an alternator of more than {most}", chemistry.name))
    })
}

fn starter_low(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let (gives, float) = (site.vehicle.alternator_voltage, chemistry.charge.float);
    if site.vehicle.alternator == Alternator::Variable || gives.get() >= float.get() - 1e-9 {
        return None;
    }
    let good = chemistry.charge.absorption;
    let place = Place::of(Section::Vehicle, "alternator_v");
    let text = format!(
        "the alternator gives the starter battery {gives}, under the {float} that keep {} full",
        chemistry.name
    );
    Some(
        Finding::new(Kind::ChargeVoltageLow, Subject::StarterBattery, text)
            .rule(format!("float voltage: {}", chemistry.charge.from.float.words()))
            .at(place)
            .remedy_number(format!("measure it with the engine running; it should be near {good}"), place, good.get()),
    )
}

/// Lithium below its lowest charge temperature is spoilt: metal grows on the plates. Lead only takes less.
fn starter_cold(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let (coldest, limit) = (site.surroundings.coldest, chemistry.limits.charge_min);
    if chemistry.chemical == Chemical::LeadAcid || coldest.get() >= limit.get() {
        return None;
    }
    let text = format!(
        "the alternator charges the starter battery as soon as the engine runs; {} must not be charged below {limit}, and the coldest air is {coldest}",
        chemistry.name
    );
    let finding = Finding::new(Kind::ColdCharge, Subject::StarterBattery, text)
        .rule(format!("charge temperature: {}", chemistry.limits.from.charge_min.words()))
        .at(chemistry_place());
    Some(match sturdiest(&site.catalogue) {
        Some(other) => finding.remedy_edit(
            format!("{} may be charged down to {}", other.name, other.limits.charge_min),
            chemistry_place(),
            Some(Value::Text(other.key.clone())),
        ),
        None => finding.remedy(format!("keep it above {limit} whenever the engine runs")),
    })
}
