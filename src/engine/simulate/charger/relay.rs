//! A plain charging relay instead: what it would do, where that is possible.
//!
//! It joins both batteries, so the charge current is what the difference of
//! voltages drives through batteries and feed, at most what the alternator has
//! to spare. A relay limits nothing: what it may pass at worst, before its feed
//! is known, is in `rush`. Left out: how long the first rush lasts; the
//! batteries' slow polarisation ends it within minutes.

use crate::catalogue::{Chemical, Chemistry, Cited, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::{lowest_driving_source, lowest_driving_voltage, spare_road};
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::physics::cell::recovery::hours_to;
use crate::engine::physics::cell::store::{Age, Store};
use crate::engine::simulate::charger::result::{ChargerDesign, RelayComparison};
use crate::plan::{Alternator, ChargerKind, System};
use crate::quantity::*;
use crate::reckon;

pub(crate) fn compare(design: &mut ChargerDesign, site: &Installation, feed: Ohms, notes: &mut Notes) {
    let starter = site.catalogue.chemistry(&site.starter_battery.chemistry);
    let (Some(service), Some(starter)) = (site.chemistry(), starter) else { return };
    let (capacity, air) = (design.capacity, site.surroundings.mean);
    if site.charger.kind == ChargerKind::None || design.bounds.put_back.get() <= 0.0 || capacity.get() <= 0.0 {
        return;
    }
    let low = Share::FULL - planned_depth(site, service);
    let store = Store::new(service, capacity, site.service_battery.resistance_mohm);
    let first = Store::new(starter, site.starter_battery.capacity, site.starter_battery.resistance_mohm);
    let resting = store.resting(low, air);
    let through = store.resistance(low, air, Age::New) + feed;
    let inrush = reckon!(Amps: U / (R + S),
        U: "difference of the resting voltages" = (first.resting(Share::FULL, air) - resting).max(Volts::ZERO),
        R: "service battery and feed" = through,
        S: "starter battery" = first.resistance(Share::FULL, air, Age::New));
    let current = reckon!(Amps: min(U / R, S),
        U: "alternator's voltage above the resting battery" =
            (site.vehicle.alternator_voltage - resting).max(Volts::ZERO),
        R: "service battery and feed" = through,
        S: "alternator's spare on the road" = spare_road(site).value.max(Amps::ZERO));
    let current = notes.reckon(&Subject::Charger, "relay current", current, |r| {
        r.working("charge current through a relay at the planned depth")
            .source("Ohm's law; the alternator gives no more than it has")
    });
    let why = misfit(site, service, starter);
    design.relay = Some(RelayComparison {
        possible: why.is_none(),
        why: why.map_or_else(|| "same kind of battery, fixed alternator: possible; fuse both ends".into(), |w| w.value),
        inrush: notes.reckon(&Subject::Charger, "relay inrush", inrush, |r| {
            r.working("inrush through a relay, engine off").source("Ohm's law")
        }),
        current,
        to_80: hours_to(&site.catalogue, service, capacity, current, low, Share::new(0.8)),
        reaches: site.vehicle.alternator_voltage,
        wants: service.charge.absorption,
    });
}

/// Why a relay must not join these, and where that comes from.
pub(crate) fn misfit(site: &Installation, service: &Chemistry, starter: &Chemistry) -> Option<Cited<String>> {
    if site.vehicle.system == System::V24 {
        let value = format!("the vehicle's 24 V and {}", service.name);
        return Some(Cited { value, source: "a relay makes one voltage of two".into() });
    }
    if site.vehicle.alternator == Alternator::Variable {
        let low = lowest_driving_voltage(site);
        let value = format!("the variable alternator falls to {low}, so the battery is not charged by it");
        return Some(Cited { value, source: lowest_driving_source(site) });
    }
    if service.chemical != Chemical::LeadAcid || starter.chemical != service.chemical {
        let value = format!("{} and {} must not be joined", starter.name, service.name);
        return Some(Cited { value, source: "common practice, no source".into() });
    }
    let below = &site.catalogue.rules.charge_below;
    let (wants, gives) = (service.charge.absorption, site.vehicle.alternator_voltage);
    ((wants - gives).get() > below.value.get()).then(|| Cited {
        value: format!("it wants {wants} and the alternator gives {gives}"),
        source: cite([&service.charge.from.absorption, &below.from]),
    })
}
