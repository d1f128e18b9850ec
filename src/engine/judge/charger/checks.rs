//! What the user should know about charging.

use crate::catalogue::{Chemical, Chemistry, Cited};
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::{lowest_driving_source, lowest_driving_voltage};
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::sources;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::charger::{array, array_cable, balance, unmet, voltages};
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::parts::charger::{Bound, BoundBy};
use crate::engine::physics::cell::recovery::hours_to;
use crate::engine::simulate::charger::bounds::Bounds;
use crate::engine::simulate::charger::relay::misfit;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{Alternator, ChargerKind, Place, Section, Value, Weekdays};
use crate::quantity::*;

/// Before the cables of the feed are sized.
pub(crate) fn check(site: &Installation, out: &ChargerDesign) -> Vec<Finding> {
    let Some(chemistry) = site.chemistry().filter(|_| out.capacity.get() > 0.0) else { return Vec::new() };
    let mut found: Vec<Finding> = vehicle(site, chemistry).into_iter().collect();
    found.extend(voltages::service(site, chemistry));
    found.extend(voltages::starter(site));
    found.extend(array::check(site, &out.array));
    found.extend(out.array_cable.iter().flat_map(|cable| array_cable::check(site, cable)));
    found.extend(mains_never(site));
    let little = no_charge(site, &out.bounds).or_else(|| slow(site, chemistry, out));
    found.extend(little.or_else(|| balance::check(site, chemistry, out)));
    if found.iter().all(|f| f.kind != Kind::ChargerSlow) {
        found.extend(gentle(site, chemistry, out));
    }
    if let Some(current) = out.current {
        found.extend(fast(site, chemistry, out, current));
        found.extend(alternator(site, out, current));
        found.extend(unmet::check(site, chemistry, out, current));
    }
    found
}

/// Up to this share of the drive the starter battery makes up for an alternator that idles: our own border, no source.
const LITTLE_IDLING: Share = Share::new(0.3);

fn charger_place(key: &'static str) -> Place {
    Place::of(Section::Charger, key)
}

/// Nothing charges it.
fn no_charge(site: &Installation, bounds: &Bounds) -> Option<Finding> {
    let by_driving = site.charger.kind != ChargerKind::None && bounds.hours.get() > 0.0;
    if by_driving || site.solar.array.get() > 0.0 || sources::has_mains(site) {
        return None;
    }
    let (text, place) = if site.charger.kind == ChargerKind::None {
        ("nothing charges the service battery: no charger, no solar, no mains", charger_place("kind"))
    } else {
        (
            "nothing charges the service battery: the charger works only while driving, and no driving is planned",
            Place::of(Section::Vehicle, "driving"),
        )
    };
    Some(
        Finding::new(Kind::NoCharge, Subject::Charger, text)
            .rule("what is taken out must be put back")
            .at(place)
            .remedy(format!("plan driving, or an array of at least 100 W, or mains; a day takes {}", bounds.put_back)),
    )
}

/// A mains charger without days or times counts as none: how often it is plugged in is not for the program to guess.
fn mains_never(site: &Installation) -> Option<Finding> {
    let mains = &site.mains;
    if mains.current <= Amps::ZERO || sources::has_mains(site) {
        return None;
    }
    let place = |key| Place::of(Section::Mains, key);
    let days = mains.weekdays.is_none();
    let missing = if days { "on no day: `days` are missing" } else { "at no time: `windows` are missing" };
    let text =
        format!("the mains charger of {} is plugged in {missing}, so that nothing of it is counted", mains.current);
    let finding = Finding::new(Kind::MainsNever, Subject::Mains, text)
        .rule("what comes in from the mains comes in the times and on the days that the plan gives");
    let finding = match days {
        true => finding.at(place("days")).remedy_edit(
            "say on which days: `every day`, or `sat, sun`",
            place("days"),
            Some(Value::Weekdays(Weekdays::all())),
        ),
        false => finding.at(place("windows")).remedy("say when: such as 20:00-06:00"),
    };
    Some(finding.remedy_number("or 0 A, where there is none", place("current_a"), 0.0))
}

/// What follows from the kind of charger and alternator alone.
fn vehicle(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let variable = site.vehicle.alternator == Alternator::Variable;
    match site.charger.kind {
        ChargerKind::Relay if variable => Some(relay_varies(site, chemistry)),
        ChargerKind::Relay => relay_misfits(site, chemistry),
        ChargerKind::DcDc if variable && !site.charger.enable_signal => Some(no_signal(site)),
        _ => None,
    }
}

fn with_dc_dc(finding: Finding, words: String) -> Finding {
    finding.at(charger_place("kind")).remedy_edit(words, charger_place("kind"), Some(Value::Text("dc-dc".into())))
}

fn relay_varies(site: &Installation, chemistry: &Chemistry) -> Finding {
    let low = lowest_driving_voltage(site);
    let text = format!("a relay passes on what the variable alternator gives, down to {low}, which does not charge");
    let finding = Finding::new(Kind::VariableAlternator, Subject::Charger, text)
        .rule(format!("lowest steady voltage: {}", lowest_driving_source(site)));
    let good = chemistry.charge.absorption;
    with_dc_dc(finding, format!("a DC-DC charger with an enable wire charges at {good} whatever the alternator does"))
}

fn no_signal(site: &Installation) -> Finding {
    let (engages, low) = (site.charger.engages_at, lowest_driving_voltage(site));
    let text = format!("the charger engages at {engages}, but the variable alternator may stay at {low}");
    Finding::new(Kind::VariableAlternator, Subject::Charger, text)
        .rule(format!(
            "voltage does not tell that the engine runs when the engine computer varies it; lowest steady voltage: {}",
            lowest_driving_source(site)
        ))
        .at(charger_place("enable_signal"))
        .remedy_edit(
            "an enable wire from an engine-running signal switches it on and off",
            charger_place("enable_signal"),
            Some(Value::Flag(true)),
        )
}

fn relay_misfits(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let starter = site.catalogue.chemistry(&site.starter_battery.chemistry)?;
    let Cited { value: why, source } = misfit(site, chemistry, starter)?;
    let finding = Finding::new(Kind::RelayMisfit, Subject::Charger, format!("a relay joins both batteries: {why}"))
        .rule(format!(
            "batteries joined by a relay share one voltage: same family, and a voltage that suits both; {source}"
        ));
    Some(with_dc_dc(finding, format!("a DC-DC charger gives it its own {}", chemistry.charge.absorption)))
}

/// A day of driving puts back too little.
fn slow(site: &Installation, chemistry: &Chemistry, out: &ChargerDesign) -> Option<Finding> {
    let b = &out.bounds;
    let sun = out.solar_stored * b.weeks_share.max(1.0);
    let enough = out.a_day.get() + sun.get() >= b.put_back.get() - 1e-6;
    if out.current.is_none() || enough || b.hours.get() <= 0.0 {
        return None;
    }
    let missing = b.put_back - out.a_day - sun;
    let text = format!(
        "a day's driving of {} at {} puts back {}, the sun {sun}; {} are needed, {missing} are missing",
        b.hours, out.fed, out.a_day, b.put_back
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
    Some(finding.remedy(format!("or use {missing} less between drives")))
}

/// Lead-acid is charged with this share of its capacity or more, so that it does not take all day. Common practice, no
/// source.
const BRISK: f64 = 0.1;

/// A current under that: no harm by itself, but it takes long.
fn gentle(site: &Installation, chemistry: &Chemistry, out: &ChargerDesign) -> Option<Finding> {
    let current = out.current.filter(|_| site.charger.kind == ChargerKind::DcDc)?;
    let times = current.get() / out.capacity.get().max(1e-9);
    if times >= BRISK - 1e-9 || chemistry.chemical != Chemical::LeadAcid || out.capacity <= AmpHours::ZERO {
        return None;
    }
    let from = Share::FULL - planned_depth(site, chemistry);
    let hours = hours_to(&site.catalogue, chemistry, out.capacity, out.steady - out.bounds.load, from, Share::new(0.9));
    let takes = match hours {
        Some(hours) => format!("{hours} of driving bring it from {from} to 90 %"),
        None => "no driving brings it to 90 %, with the loads that run meanwhile".into(),
    };
    let text = format!(
        "the charger of {current} is {times:.2} times the capacity of {}, under the {BRISK} that is usual for {}: {takes}",
        out.capacity, chemistry.name
    );
    let finding = Finding::new(Kind::ChargerGentle, Subject::Charger, text)
        .rule("lead-acid with a tenth of its capacity or more; common practice, no source")
        .at(charger_place("current_a"));
    let enough = Amps::new((BRISK * out.capacity.get()).ceil());
    Some(finding.remedy(format!("a charger of {enough} reaches that, where the alternator has it to spare")))
}

fn fast(site: &Installation, chemistry: &Chemistry, out: &ChargerDesign, current: Amps) -> Option<Finding> {
    let takes = out.bounds.of(BoundBy::Battery)?;
    // What a relay passes is known once its feed is sized.
    let current = if site.charger.kind == ChargerKind::Relay { Amps::ZERO } else { current };
    // Mains and charger seldom work together; the sun may at any time.
    let with_mains = current.max(site.mains.current);
    if let Some(most) = site.service_battery.takes.filter(|most| with_mains > *most && with_mains <= takes) {
        let at = Place::of(Section::ServiceBattery, "takes_a");
        return Some(
            Finding::new(
                Kind::ChargerFast,
                Subject::Charger,
                format!("{with_mains} charge it, its own protection allows {most}"),
            )
            .rule("most charge current that it allows (entered by you)")
            .at(at)
            .remedy(format!("set what charges it to {most} or less")),
        );
    }
    if with_mains.get() <= takes.get() + 1e-9 {
        return None;
    }
    let (what, place) = if site.mains.current.get() > current.get() {
        ("the mains charger", Place::of(Section::Mains, "current_a"))
    } else {
        ("the charger", charger_place("current_a"))
    };
    let text = format!("{what} gives {with_mains}, this battery of {} takes {takes} at most", out.capacity);
    let needed = AmpHours::new(with_mains.get() / chemistry.charge.max_c.max(0.001));
    Some(
        Finding::new(Kind::ChargerFast, Subject::Charger, text)
            .rule(format!("highest charge rate {} C: {}", chemistry.charge.max_c, chemistry.charge.from.max_c.words()))
            .at(place)
            .remedy_number(format!("set it to {takes} or less"), place, (takes.get() * 10.0).floor() / 10.0)
            .remedy_number(
                format!("or a battery of {needed}"),
                Place::of(Section::ServiceBattery, "capacity_ah"),
                needed.get().ceil(),
            ),
    )
}

fn alternator(site: &Installation, out: &ChargerDesign, current: Amps) -> Option<Finding> {
    if site.charger.kind == ChargerKind::Relay {
        return None;
    }
    let exceeded = |bound: &&Bound| bound.amps.get() < current.get() - 1e-9;
    // Short of it only while it idles is no matter where the drive as a whole is enough and idling short.
    let matters = |bound: &&Bound| bound.by != BoundBy::AtIdle || site.vehicle.idling > LITTLE_IDLING;
    let bound = out.bounds.alternator().find(exceeded).filter(matters)?;
    let at_idle = bound.by == BoundBy::AtIdle;
    let spare = if at_idle { out.spare_idle } else { out.spare_road };
    let text = format!(
        "a charger of {current} is more than the {} that the hot alternator feeds ({}, of {} {} are to spare)",
        bound.amps,
        bound.name(),
        site.vehicle.alternator_rating,
        spare.max(Amps::ZERO)
    );
    let finding = Finding::new(Kind::AlternatorShort, Subject::Alternator, text)
        .rule("hot output less the vehicle's own draw; the rest comes from the starter battery until it stops")
        .at(Place::of(Section::Vehicle, "alternator_a"));
    // Beyond what it gives on the road the starter battery is drained all the way.
    let finding = if bound.by == BoundBy::OnTheRoad { finding.as_severity(Severity::Stop) } else { finding };
    let floor = (bound.amps.get() * 2.0).floor() / 2.0;
    Some(if at_idle {
        let share = site.vehicle.idling;
        finding
            .as_severity(Severity::Note)
            .remedy(format!("up to {} while idling stays within it", bound.amps.max(Amps::ZERO)))
            .remedy(format!("keep idling short: planned are {share} of the drive"))
    } else if floor >= 0.5 {
        let words = format!("a charger of {} stays within it", Amps::new(floor));
        finding.remedy_number(words, charger_place("current_a"), floor)
    } else {
        finding.remedy(format!("lamps and fans off bring the vehicle's own {} down", site.vehicle.own_draw))
    })
}
