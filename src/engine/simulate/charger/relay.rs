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
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::physics::cell::recovery::hours_to;
use crate::engine::physics::cell::store::{Age, Store};
use crate::engine::simulate::charger::result::{ChargerDesign, RelayComparison};
use crate::plan::{Alternator, ChargerKind};
use crate::quantity::*;

pub(crate) fn compare(design: &mut ChargerDesign, site: &Installation, feed: Ohms, book: &mut Book) {
    let starter = site.catalogue.chemistry(&site.starter_battery.chemistry);
    let (Some(service), Some(starter)) = (site.chemistry(), starter) else { return };
    if site.charger.kind == ChargerKind::None || design.to_put_back.get() <= 0.0 {
        return;
    }
    let Some(capacity) = capacity_of(design) else { return };
    let air = site.surroundings.mean;
    let low = Share::FULL - planned_depth(site, service);
    let store = Store::new(service, capacity, site.service_battery.resistance_mohm);
    let first = Store::new(starter, site.starter_battery.capacity, site.starter_battery.resistance_mohm);
    let (r_service, r_starter) = (store.resistance(low, air, Age::New), first.resistance(Share::FULL, air, Age::New));
    let resting = store.resting(low, air);
    let rush = (first.resting(Share::FULL, air) - resting).max(Volts::ZERO);
    let drive = (site.vehicle.alternator_voltage - resting).max(Volts::ZERO);
    let through = r_service + feed;
    let spare = spare_road(site).max(Amps::ZERO);
    let current = if through.get() > 0.0 { (drive / through).min(spare) } else { spare };
    let why = misfit(site, service, starter);
    design.relay = Some(RelayComparison {
        possible: why.is_none(),
        why: why.map_or_else(|| "same kind of battery, fixed alternator: possible; fuse both ends".into(), |w| w.value),
        inrush: if (through + r_starter).get() > 0.0 { rush / (through + r_starter) } else { Amps::ZERO },
        current,
        to_80: hours_to(&site.catalogue, service, capacity, current, low, Share::new(0.8)),
        reaches: site.vehicle.alternator_voltage,
        wants: service.charge.absorption,
    });
    if let Some(relay) = &design.relay {
        record(relay, rush, drive, through, r_starter, spare, book);
    }
}

/// Capacity behind the design, from its battery bound and the chemistry.
fn capacity_of(design: &ChargerDesign) -> Option<AmpHours> {
    (design.capacity.get() > 0.0).then_some(design.capacity)
}

/// Why a relay must not join these, and where that comes from.
pub(crate) fn misfit(site: &Installation, service: &Chemistry, starter: &Chemistry) -> Option<Cited<String>> {
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

fn record(
    relay: &RelayComparison,
    rush: Volts,
    drive: Volts,
    through: Ohms,
    starter: Ohms,
    spare: Amps,
    book: &mut Book,
) {
    if through.get() <= 0.0 {
        return;
    }
    book.work(
        Subject::Charger,
        "relay inrush",
        Working::new("first rush through a relay, engine off", "U / (R + S)", relay.inrush)
            .with("U", "difference of the resting voltages", rush)
            .with("R", "service battery and feed", through)
            .with("S", "starter battery", starter)
            .source("Ohm's law"),
    );
    book.work(
        Subject::Charger,
        "relay current",
        Working::new("charge current through a relay at the planned depth", "min(U / R, S)", relay.current)
            .with("U", "alternator's voltage above the resting battery", drive)
            .with("R", "service battery and feed", through)
            .with("S", "alternator's spare on the road", spare)
            .source("Ohm's law; the alternator gives no more than it has"),
    );
}
