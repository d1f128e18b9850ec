//! What the user should know about charging.

use crate::catalogue::{Chemistry, Cited};
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::{lowest_driving_source, lowest_driving_voltage};
use crate::engine::installation::sources;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::charger::{unmet, voltages};
use crate::engine::judge::finding::{Finding, Kind};
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::balance;
use crate::engine::simulate::charger::bounds::Bounds;
use crate::engine::simulate::charger::relay::misfit;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{Alternator, ChargerKind, Place, Section, Value};
use crate::quantity::*;

pub(crate) fn check(
    site: &Installation,
    chemistry: &Chemistry,
    battery: &BatteryDesign,
    bounds: &Bounds,
    out: &ChargerDesign,
    book: &mut Book,
) {
    vehicle(site, chemistry, book);
    voltages::service(site, chemistry, book);
    voltages::starter(site, book);
    let none = no_charge(site, bounds, book);
    if !none && !slow(site, chemistry, bounds, out, book) {
        balance::check(site, chemistry, bounds, out, book);
    }
    let Some(current) = out.current else { return };
    fast(site, chemistry, battery, out, current, book);
    if site.charger.kind != ChargerKind::Relay {
        alternator(site, out, current, book);
    }
    unmet::check(site, chemistry, bounds, out, book);
}

/// Up to this share of the drive the starter battery makes up for an alternator that idles: our own border, no source.
const LITTLE_IDLING: Share = Share::new(0.3);

fn charger_place(key: &'static str) -> Place {
    Place::of(Section::Charger, key)
}

/// Whether nothing charges it, and that said.
fn no_charge(site: &Installation, bounds: &Bounds, book: &mut Book) -> bool {
    let by_driving = site.charger.kind != ChargerKind::None && bounds.hours.get() > 0.0;
    if by_driving || site.solar.array.get() > 0.0 || sources::has_mains(site) {
        return false;
    }
    let (text, place) = if site.charger.kind == ChargerKind::None {
        ("nothing charges the service battery: no charger, no solar, no mains", charger_place("kind"))
    } else {
        (
            "nothing charges the service battery: the charger works only while driving, and 0 h of driving are planned",
            Place::of(Section::Vehicle, "driving"),
        )
    };
    book.find(
        Finding::new(Kind::NoCharge, Subject::Charger, text)
            .rule("what is taken out must be put back")
            .at(place)
            .remedy(format!("plan driving, or an array of at least 100 W, or mains; a day takes {}", bounds.put_back)),
    );
    true
}

/// Things that follow from the kind of charger and alternator alone.
fn vehicle(site: &Installation, chemistry: &Chemistry, book: &mut Book) {
    let low = lowest_driving_voltage(site);
    let variable = site.vehicle.alternator == Alternator::Variable;
    if variable && site.charger.kind == ChargerKind::Relay {
        let text =
            format!("a relay passes on what the variable alternator gives, down to {low}, which does not charge");
        book.find(
            Finding::new(Kind::VariableAlternator, Subject::Charger, text)
                .rule(format!("lowest steady voltage: {}", lowest_driving_source(site)))
                .at(charger_place("kind"))
                .remedy_edit(
                    format!(
                        "a DC-DC charger with an enable wire charges at {} whatever the alternator does",
                        chemistry.charge.absorption
                    ),
                    charger_place("kind"),
                    Some(Value::Text("dc-dc".into())),
                ),
        );
    } else if variable && site.charger.kind == ChargerKind::DcDc && !site.charger.enable_signal {
        let engages = site.charger.engages_at;
        let text = format!("the charger engages at {engages}, but the variable alternator may stay at {low}");
        book.find(
            Finding::new(Kind::VariableAlternator, Subject::Charger, text)
                .rule(format!(
                    "voltage does not tell that the engine runs when the engine computer varies it; lowest steady voltage: {}",
                    lowest_driving_source(site)
                ))
                .at(charger_place("enable_signal"))
                .remedy_edit(
                    "1 enable wire from an engine-running signal switches it on and off",
                    charger_place("enable_signal"),
                    Some(Value::Flag(true)),
                ),
        );
    }
    if site.charger.kind == ChargerKind::Relay && !variable {
        let starter = site.catalogue.chemistry(&site.starter_battery.chemistry);
        if let Some(why) = starter.and_then(|s| misfit(site, chemistry, s)) {
            let Cited { value: why, source } = why;
            book.find(
                Finding::new(Kind::RelayMisfit, Subject::Charger, format!("a relay joins both batteries: {why}"))
                    .rule(format!(
                        "batteries joined by a relay share one voltage: same family, and a voltage that suits both; {source}"
                    ))
                    .at(charger_place("kind"))
                    .remedy_edit(
                        format!("a DC-DC charger gives it its own {}", chemistry.charge.absorption),
                        charger_place("kind"),
                        Some(Value::Text("dc-dc".into())),
                    ),
            );
        }
    }
}

/// Whether a day of driving puts back too little, and that said.
fn slow(site: &Installation, chemistry: &Chemistry, b: &Bounds, out: &ChargerDesign, book: &mut Book) -> bool {
    let sun = out.solar_stored * b.weeks_share.max(1.0);
    let enough = out.a_day.get() + sun.get() >= b.put_back.get() - 1e-6;
    if out.current.is_none() || enough || b.hours.get() <= 0.0 {
        return false;
    }
    let missing = b.put_back - out.a_day - sun;
    let text = format!(
        "a day's driving of {} at {} puts back {}, the sun {sun}; {} are needed, {missing} are missing",
        b.hours, out.steady, out.a_day, b.put_back
    );
    let mut finding = Finding::new(Kind::ChargerSlow, Subject::Charger, text)
        .rule("over a week as much must come in as goes out")
        .at(charger_place("current_a"));
    let left = b.left_by_sun(out.solar_stored);
    let hours = b.hours * (left.get() / out.a_day.get().max(0.01));
    if hours.get() < 24.0 && out.a_day.get() > 0.0 {
        finding = finding.remedy(format!("drive about {hours} on a driving day instead of {}", b.hours));
    }
    let most = b.tightest().map_or(Amps::ZERO, |t| t.amps);
    let asked = Amps::new(b.asked_for(left).get().ceil());
    if b.reachable && asked.get() <= most.get() {
        let words = format!("a charger of {asked} or more puts it back");
        finding = finding.remedy_number(words, charger_place("current_a"), asked.get());
    }
    let finding = balance::with_array(finding, site, chemistry, missing / b.weeks_share.max(1.0));
    book.find(finding.remedy(format!("or use {missing} less between drives")));
    true
}

fn fast(
    site: &Installation,
    chemistry: &Chemistry,
    battery: &BatteryDesign,
    out: &ChargerDesign,
    current: Amps,
    book: &mut Book,
) {
    let Some(bound) = out.upper.iter().find(|b| b.name == "battery") else { return };
    // What a relay passes is known once its feed is sized; see `rush`.
    let current = if site.charger.kind == ChargerKind::Relay { Amps::ZERO } else { current };
    // Mains and charger seldom work together; the sun may at any time.
    let with_mains = current.max(site.mains.current);
    if with_mains.get() <= bound.amps.get() + 1e-9 {
        return;
    }
    let (what, place) = if site.mains.current.get() > current.get() {
        ("the mains charger", Place::of(Section::Mains, "current_a"))
    } else {
        ("the charger", charger_place("current_a"))
    };
    let capacity = battery.bank.as_ref().map_or(AmpHours::ZERO, |b| b.capacity);
    let text = format!("{what} gives {with_mains}, this battery of {capacity} takes {} at most", bound.amps);
    let needed = AmpHours::new(with_mains.get() / chemistry.charge.max_c.max(0.001));
    book.find(
        Finding::new(Kind::ChargerFast, Subject::Charger, text)
            .rule(format!("highest charge rate {} C: {}", chemistry.charge.max_c, chemistry.charge.from.max_c.words()))
            .at(place)
            .remedy_number(format!("set it to {} or less", bound.amps), place, (bound.amps.get() * 10.0).floor() / 10.0)
            .remedy_number(
                format!("or a battery of {needed}"),
                Place::of(Section::ServiceBattery, "capacity_ah"),
                needed.get().ceil(),
            ),
    );
}

fn alternator(site: &Installation, out: &ChargerDesign, current: Amps, book: &mut Book) {
    let over = |name: &str| out.upper.iter().find(|b| b.name == name).filter(|b| b.amps.get() < current.get() - 1e-9);
    let rating = site.vehicle.alternator_rating;
    let bound = over("alternator on the road")
        .or_else(|| over("alternator over the drive"))
        .or_else(|| over("alternator at idle"));
    let Some(bound) = bound else { return };
    let at_idle = bound.name == "alternator at idle";
    // Short of it only while it idles is no matter where the drive as a whole is enough and idling short.
    if at_idle && site.vehicle.idling <= LITTLE_IDLING {
        return;
    }
    let spare = if at_idle { out.spare_idle } else { out.spare_road };
    let text = format!(
        "a charger of {current} is more than the {} that the hot alternator feeds ({}, of {rating} {} are to spare)",
        bound.amps,
        bound.name,
        spare.max(Amps::ZERO)
    );
    let finding = Finding::new(Kind::AlternatorShort, Subject::Alternator, text)
        .rule("hot output less the vehicle's own draw; the rest comes from the starter battery until it stops")
        .at(Place::of(Section::Vehicle, "alternator_a"));
    let floor = (bound.amps.get() * 2.0).floor() / 2.0;
    let finding = if at_idle {
        finding.remedy(format!("up to {} while idling stays within it", bound.amps.max(Amps::ZERO)))
    } else if floor >= 0.5 {
        finding.remedy_number(
            format!("a charger of {} stays within it", Amps::new(floor)),
            charger_place("current_a"),
            floor,
        )
    } else {
        finding.remedy(format!("lamps and fans off bring the vehicle's own {} down", site.vehicle.own_draw))
    };
    let finding = if at_idle {
        let share = site.vehicle.idling;
        finding
            .as_severity(crate::engine::judge::finding::Severity::Note)
            .remedy(format!("keep idling short: planned are {share} of the drive"))
    } else {
        finding
    };
    book.find(finding);
}
