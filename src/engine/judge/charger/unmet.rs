//! No standard charger keeps all bounds: by how much is each missed, and what would help?
//!
//! In this order: longer drives, sun, less use, a bigger alternator, a bigger
//! battery. Each is worked out alone, as if nothing else changed.

use crate::catalogue::Chemistry;
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::{idle_share, road_share};
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::charger::balance;
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::physics::cell::recovery::{charge_after, hours_to};
use crate::engine::simulate::charger::bounds::{Bounds, output_of};
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{ChargerKind, Place, Section};
use crate::quantity::*;

pub(crate) fn check(site: &Installation, chemistry: &Chemistry, out: &ChargerDesign, current: Amps) -> Option<Finding> {
    let b = &out.bounds;
    let chosen = site.charger.kind == ChargerKind::DcDc && site.charger.current.is_none();
    if !chosen || b.hours.get() <= 0.0 || b.fits(current) {
        return None;
    }
    // What the sun brings may make up for a charger under the lower bound.
    let most = b.tightest().map_or(Amps::ZERO, |t| t.amps);
    let with_sun = out.a_day + out.solar_stored * b.weeks_share.max(1.0);
    if current.get() <= most.get() && with_sun.get() >= b.put_back.get() {
        return None;
    }
    let finding = Finding::new(Kind::ChargerNone, Subject::Charger, text(b, current))
        .rule("the current must put the draw back in the time driven and stay within what battery and alternator bear")
        .at(Place::of(Section::Charger, "current_a"));
    Some(remedies(finding, site, chemistry, out, (current, most)))
}

/// Every bound that the chosen current misses.
fn text(b: &Bounds, current: Amps) -> String {
    let lowers = b.lowers();
    let under = lowers.iter().filter(|l| current.get() < l.amps.get() - 1e-9);
    let over = b.upper.iter().filter(|u| current.get() > u.amps.get() + 1e-9);
    let mut missed: Vec<String> =
        under.map(|l| format!("{} short of the {} that {} asks", l.amps - current, l.amps, l.name())).collect();
    missed.extend(over.map(|u| format!("{} over the {} that {} allows", current - u.amps, u.amps, u.name())));
    if !b.reachable {
        missed.push(format!("no current at all puts {} back in {}", b.put_back, b.hours));
    }
    format!("no standard current keeps all bounds; {current} is chosen: {}", missed.join(", "))
}

/// `most`: what any charger may give.
fn remedies(
    finding: Finding,
    site: &Installation,
    chemistry: &Chemistry,
    out: &ChargerDesign,
    (current, most): (Amps, Amps),
) -> Finding {
    let b = &out.bounds;
    let allowed = current.min(most);
    let from = Share::FULL - planned_depth(site, chemistry);
    let net = allowed - b.load;
    let after = charge_after(&site.catalogue, chemistry, out.capacity, net, from, b.hours);
    let left = b.left_by_sun(out.solar_stored);
    let missing = (left - out.capacity * (after - from).get()).max(AmpHours::ZERO);
    let to = Share::new((from.get() + left / out.capacity).min(1.0));
    let longer = hours_to(&site.catalogue, chemistry, out.capacity, net, from, to).filter(|h| h.get() <= 24.0);
    let finding = match longer {
        Some(hours) => finding.remedy(format!(
            "drive {hours} on a driving day instead of {}, with the {allowed} that are allowed",
            b.hours
        )),
        None => finding.remedy(format!(
            "longer drives alone do not help: of the {allowed} allowed {} are left for the battery",
            net.max(Amps::ZERO)
        )),
    };
    let a_day = missing / b.weeks_share.max(1.0);
    // Sun makes up for a charger that is too small, and takes nothing from one that gives more than is borne.
    let finding = match balance::array_for(site, chemistry, a_day).filter(|_| current > most) {
        None => balance::with_array(finding, site, chemistry, a_day),
        Some((more, sun)) => finding.remedy(format!(
            "{more} more of solar array make up for what is missing at {sun} a day, with no charger from the vehicle"
        )),
    };
    let finding = finding.remedy(format!("or use {missing} less for each driving day"));
    let sizes = || site.catalogue.devices.chargers.sizes.iter().copied();
    if !b.reachable {
        // No current is enough; the alternator may at least feed what the battery takes.
        let takes = Amps::new(chemistry.charge.max_c * out.capacity.get());
        let wanted = sizes().filter(|s| s.get() <= takes.get()).reduce(Amps::max).unwrap_or(takes);
        return bigger_alternator(finding, site, chemistry, wanted);
    }
    let asked = b.asked_for(left);
    let wanted = sizes().filter(|s| s.get() >= asked.get() - 1e-9).reduce(Amps::min).unwrap_or(asked);
    bigger_battery(bigger_alternator(finding, site, chemistry, wanted), chemistry, out, wanted)
}

/// The rating whose hot output over the drive feeds the wanted current.
fn bigger_alternator(finding: Finding, site: &Installation, chemistry: &Chemistry, wanted: Amps) -> Finding {
    let idling = site.vehicle.idling.get();
    let road = road_share(site).get();
    let share = (road * (1.0 - idling) + idle_share(site).get() * idling).min(road);
    // One ampere of spare feeds this much output.
    let each = output_of(site, chemistry, Amps::new(1.0)).value.get();
    let needed = Amps::new(((wanted.get() / each.max(0.01) + site.vehicle.own_draw.get()) / share.max(0.01)).ceil());
    if needed.get() <= site.vehicle.alternator_rating.get() {
        return finding;
    }
    finding.remedy_number(
        format!("or an alternator of {needed}, which feeds a charger of {wanted} hot, {} idling", site.vehicle.idling),
        Place::of(Section::Vehicle, "alternator_a"),
        needed.get(),
    )
}

fn bigger_battery(finding: Finding, chemistry: &Chemistry, out: &ChargerDesign, wanted: Amps) -> Finding {
    let needed = AmpHours::new((wanted.get() / chemistry.charge.max_c.max(0.001)).ceil());
    if needed.get() <= out.capacity.get() {
        return finding;
    }
    finding.remedy_number(
        format!("or a battery of {needed}, which takes {wanted}"),
        Place::of(Section::ServiceBattery, "capacity_ah"),
        needed.get(),
    )
}
