//! What the user should know about the battery.

use crate::catalogue::{Catalogue, Chemical, Chemistry, Provenance, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::{end_of_life, last_found, left_when_opened, reserve_of};
use crate::engine::installation::climate::hot_air;
use crate::engine::installation::place::{coldest, coldest_air, heated_capacity, heater, hottest};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::store::cold_factor;
use crate::engine::simulate::bank;
use crate::engine::simulate::battery::{BatteryDesign, SizedBy, rests_at, suits};
use crate::engine::simulate::budget::Budget;
use crate::plan::{ChargerKind, Place, Section, Value};
use crate::quantity::*;

const SERVICE: Subject = Subject::ServiceBattery;

/// So much under what is needed lies within the margins that the sizing itself keeps: our own border, no source.
const LITTLE_SHORT: f64 = 0.05;

fn place(key: &'static str) -> Place {
    Place::of(Section::ServiceBattery, key)
}

fn unknown_chemistry(site: &Installation) -> Finding {
    let text = format!("the catalogue has no chemistry `{}`", site.service_battery.chemistry);
    let finding = Finding::new(Kind::BatteryNone, SERVICE, text)
        .rule("a battery is sized by the profile of its chemistry")
        .at(place("chemistry"));
    match site.catalogue.chemistries.first() {
        Some(c) => finding.remedy_edit(
            format!("choose one of the {} known, such as {}", site.catalogue.chemistries.len(), c.key),
            place("chemistry"),
            Some(Value::Text(c.key.clone())),
        ),
        None => finding.remedy("put a chemistry into the catalogue"),
    }
}

/// What the user should know about the battery.
pub(crate) fn check(site: &Installation, budget: &Budget, out: &BatteryDesign) -> Vec<Finding> {
    let Some(chemistry) = site.chemistry() else { return vec![unknown_chemistry(site)] };
    let mut found: Vec<Finding> = match &out.bank {
        Some(_) => small(site, budget, out).into_iter().collect(),
        None => vec![none(site, chemistry, out)],
    };
    found.extend(reserve(site, chemistry));
    found.extend(depth(site, chemistry));
    found.extend(found_twice(site));
    if let Some(bank) = &out.bank {
        found.extend(hot_days(site, budget, out));
        found.extend(parallel(site, chemistry, bank));
        found.extend(alike(chemistry, bank));
    }
    found.extend(cold_charge(site, chemistry));
    found.extend(temperature(site, chemistry));
    found.extend(freezing(site, chemistry, out));
    if let Some(bank) = &out.bank {
        found.extend(currents(site, chemistry, budget, bank));
        found.extend(surge(site, chemistry, budget, bank));
    }
    found.extend(voltage(&site.catalogue, chemistry));
    found
}

/// A test without a date beside a measurement with one: the latter counts.
fn found_twice(site: &Installation) -> Option<Finding> {
    let tested = site.service_battery.tested?;
    let last = last_found(site)?;
    let counts = last.capacity?;
    if (tested.get() - counts.get()).abs() < 0.005 * tested.get() {
        return None;
    }
    let text = format!(
        "by `tested_ah` it holds {tested}, by the measurement of {:04}-{:02} {counts}: {counts} count",
        last.year, last.month
    );
    let finding = Finding::new(Kind::FoundTwice, SERVICE, text)
        .rule("the last measurement with a month counts, since it is known when that was (our own rule)")
        .at(place("tested_ah"));
    Some(finding.remedy_edit("leave `tested_ah` out", place("tested_ah"), None))
}

fn ruling(out: &BatteryDesign) -> &'static str {
    out.ruling.map_or("", SizedBy::name)
}

/// The bank given is smaller than what is needed.
fn small(site: &Installation, budget: &Budget, out: &BatteryDesign) -> Option<Finding> {
    let (chemistry, bank) = (site.chemistry()?, out.bank.as_ref()?);
    let given = site.service_battery.capacity.filter(|c| c.get() < out.needed.get() - 1e-6)?;
    let name = ruling(out);
    let text = format!("the battery has {given}, {} are needed ({name})", out.needed);
    // An inverter may be used below its rating; all else of the plan needs the capacity.
    let others = out.criteria.iter().filter(|c| c.by != SizedBy::Inverter).map(|c| c.needed);
    let others = others.fold(AmpHours::ZERO, AmpHours::max);
    let short = given.get() < others.get() * (1.0 - LITTLE_SHORT);
    let mut finding = Finding::new(Kind::BatterySmall, SERVICE, text)
        .as_severity(if short { Severity::Stop } else { Severity::Caution })
        .rule(format!(
            "the biggest criterion rules; IEEE Std 1013, SAND87-7023, IEEE Std 485; {name}: {}",
            criterion_words(site, chemistry, out.ruling)
        ))
        .at(place("capacity_ah"));
    if let Some(enough) = standard(site, chemistry, out.needed) {
        finding = finding.remedy_number(
            match enough.blocks {
                1 => format!("a block of {} is enough", enough.block),
                blocks => format!("{blocks} blocks of {} make {}", enough.block, enough.capacity),
            },
            place("capacity_ah"),
            enough.capacity.get(),
        );
    }
    if out.ruling == Some(SizedBy::Inverter) {
        let most = site.inverter.rating * (bank.capacity / out.needed);
        finding = finding.remedy(format!("or never take more than {most} of the inverter's rating"));
    }
    if let Some(SizedBy::Days | SizedBy::SummerDays | SizedBy::Rate) = out.ruling {
        let days = site.days_without_charge * (bank.capacity / out.needed);
        let days = Days::new((days.get() * 100.0).floor() / 100.0);
        if days.get() >= 0.1 {
            let words = format!("or plan {days} without charge");
            finding = finding.remedy_number(words, place("days_without_charge"), days.get());
        }
    }
    let summer = out.ruling == Some(SizedBy::SummerDays);
    let day = if summer { budget.summer_day } else { budget.standing_day };
    let bears = day * (bank.capacity / out.needed);
    Some(finding.remedy(format!("or use at most {bears} of the {day} on a day")))
}

/// No bank of the sizes sold is enough.
fn none(site: &Installation, chemistry: &Chemistry, out: &BatteryDesign) -> Finding {
    let largest = chemistry.blocks.sizes.iter().copied().fold(AmpHours::ZERO, AmpHours::max);
    let count = f64::from(site.service_battery.in_parallel.unwrap_or(bank::MOST));
    let most = largest * count;
    let text = format!("{} are needed ({}), but {count:.0} blocks of {largest} make {most}", out.needed, ruling(out));
    let finding = Finding::new(Kind::BatteryNone, SERVICE, text)
        .rule(format!("sizes sold: {}", chemistry.blocks.from.sizes.words()))
        .at(place("days_without_charge"))
        .remedy(format!(
            "plan fewer than {} without charge, or fewer loads; at most {most} can be had",
            site.days_without_charge
        ));
    let free = bank::Job { site, chemistry, own: true, subject: SERVICE };
    match free.standard(out.needed, None, &mut Notes::unkept()) {
        Some(_) => finding.remedy_edit("or let 1 to 12 blocks be tried", place("in_parallel"), None),
        None => finding,
    }
}

/// A bank of blocks sold that has so much.
fn standard(site: &Installation, chemistry: &Chemistry, needed: AmpHours) -> Option<Bank> {
    let job = bank::Job { site, chemistry, own: true, subject: SERVICE };
    job.standard(needed, site.service_battery.in_parallel, &mut Notes::unkept())
}

/// Where the limits of a criterion come from; what the plan gives itself is left out.
fn criterion_words(site: &Installation, chemistry: &Chemistry, by: Option<SizedBy>) -> String {
    let (life, rate) = (&chemistry.life.from, &chemistry.rate.from);
    let depth = site.service_battery.depth.is_none().then_some(&life.depth);
    let end = site.service_battery.end_of_life.is_none().then_some(&life.end_of_life);
    let energy = depth.into_iter().chain(end).chain([&chemistry.cold.from.capacity]);
    match by {
        Some(SizedBy::Discharge | SizedBy::Inverter) => rate.max_c.words(),
        Some(SizedBy::Start) => rate.max_short_c.words(),
        Some(SizedBy::Charge) => chemistry.charge.from.max_c.words(),
        Some(SizedBy::ShortLoad) => {
            format!("{}; {}", chemistry.resistance.words(None, true), chemistry.low.floor().1.words())
        }
        Some(SizedBy::Rate) => cite(energy.chain([&rate.peukert, &rate.rated])),
        _ => cite(energy),
    }
}

/// How long it lasts when all days are as hot as the hottest.
fn hot_days(site: &Installation, budget: &Budget, out: &BatteryDesign) -> Option<Finding> {
    let (chemistry, bank) = (site.chemistry()?, out.bank.as_ref()?);
    let air = hot_air(&site.surroundings);
    let wanted = site.days_without_charge;
    let usable =
        bank.capacity * (out.depth.get() * end_of_life(site, chemistry).get() * cold_factor(chemistry, air).get());
    if budget.hot_day.get() <= 0.0 || usable.get() >= budget.hot_day.get() * wanted.get() - 1e-9 {
        return None;
    }
    let lasts = Days::new(usable / budget.hot_day);
    let needed = bank.capacity * (wanted / lasts);
    let text = format!(
        "on days with a mean of {air} the loads take {} each, and the battery, old, lasts {lasts} instead of {wanted}",
        budget.hot_day
    );
    let mut finding = Finding::new(Kind::HotDays, SERVICE, text)
        .rule("thermostats are on for longer in the heat; the size follows the year's mean and the warmest month")
        .at(place("capacity_ah"));
    if let Some(enough) = standard(site, chemistry, needed) {
        let words = format!("{} lasts them", enough.capacity);
        finding = finding.remedy_number(words, place("capacity_ah"), enough.capacity.get());
    }
    Some(finding.remedy(format!("or count on {lasts} then, and shade and air what has a thermostat")))
}

fn deep(text: String, chemistry: &Chemistry) -> Finding {
    Finding::new(Kind::DepthDeep, SERVICE, text)
        .rule(format!("deepest discharge: {}", chemistry.life.from.deepest.words()))
}

/// The cut-off leaves more to be drawn than the battery stands.
fn reserve(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let (life, at) = (&chemistry.life, Place::of(Section::CutOff, "reserve"));
    let reserve = site.cut_off.reserve.filter(|r| 1.0 - r.get() > life.deepest.get() + 1e-9)?;
    let keep = Share::FULL - life.deepest;
    let text = format!(
        "the cut-off keeps {reserve}, so {} may be discharged by {}, deeper than {}",
        chemistry.name,
        Share::FULL - reserve,
        life.deepest
    );
    Some(deep(text, chemistry).at(at).remedy_number(format!("keep a reserve of {keep}"), at, keep.get()))
}

/// The depth planned is more than the battery stands, or than the cut-off leaves.
fn depth(site: &Installation, chemistry: &Chemistry) -> Vec<Finding> {
    let Some(wanted) = site.service_battery.depth else { return Vec::new() };
    let (life, kept) = (&chemistry.life, left_when_opened(site, chemistry));
    let left = Share::FULL - kept;
    let with = |finding: Finding, depth: Share| {
        finding.at(place("depth")).remedy_number(format!("plan with {depth}"), place("depth"), depth.get())
    };
    let too_deep = (wanted.get() > life.deepest.get() + 1e-9).then(|| {
        let text = format!("{} is planned to be discharged by {wanted}, deeper than {}", chemistry.name, life.deepest);
        with(deep(text, chemistry), life.depth)
    });
    let not_left = (wanted.get() > left.get() + 1e-9).then(|| {
        let text = format!("{wanted} is to be used, but the cut-off keeps {kept} and leaves {left}");
        let finding = Finding::new(Kind::DepthDeep, SERVICE, text)
            .rule("depth of discharge and reserve together are at most the whole; the smaller depth is used");
        with(finding, left)
    });
    too_deep.into_iter().chain(not_left).collect()
}

fn parallel(site: &Installation, chemistry: &Chemistry, bank: &Bank) -> Option<Finding> {
    if bank.blocks <= chemistry.blocks.max_parallel {
        return None;
    }
    let text = format!(
        "{} blocks in parallel share their work unevenly; {} is the most without care",
        bank.blocks, chemistry.blocks.max_parallel
    );
    let largest = chemistry.blocks.sizes.iter().copied().fold(AmpHours::ZERO, AmpHours::max);
    let fewer = (bank.capacity.get() / largest.get().max(1.0)).ceil().max(1.0);
    let mut finding = Finding::new(Kind::ParallelMany, SERVICE, text)
        .rule(format!(
            "blocks in parallel: {}; equal age, make and lead length, each with its own fuse",
            chemistry.blocks.from.max_parallel.words()
        ))
        .at(place("in_parallel"));
    finding = if fewer < f64::from(bank.blocks) {
        finding.remedy_number(
            format!("{fewer:.0} blocks of up to {largest} make the same"),
            place("in_parallel"),
            fewer,
        )
    } else {
        finding.remedy(format!("plan with fewer than {} without charge", site.days_without_charge))
    };
    Some(finding)
}

/// Lead-acid blocks in parallel: one that is older or weaker drags the others down.
fn alike(chemistry: &Chemistry, bank: &Bank) -> Option<Finding> {
    let several = bank.blocks > 1 && bank.blocks <= chemistry.blocks.max_parallel;
    if chemistry.chemical != Chemical::LeadAcid || !several {
        return None;
    }
    let text =
        format!("{} blocks of {} in parallel: a weak or older one drags the others down", bank.blocks, bank.block);
    Some(
        Finding::new(Kind::ParallelAlike, SERVICE, text)
            .rule("lead-acid blocks in parallel share charge by their own voltages; common practice, no source")
            .at(place("in_parallel"))
            .remedy(format!(
                "buy all {} of one make, type and date, never add one later; join them crosswise with leads of equal length; a fuse at each",
                bank.blocks
            )),
    )
}

/// It must not be charged as cold as it gets, or a heater has to keep it warm.
fn cold_charge(site: &Installation, chemistry: &Chemistry) -> Option<Finding> {
    let (air, limits) = (coldest_air(site), &chemistry.limits);
    let (limit, coldest) = (limits.charge_min, coldest(site));
    let charged =
        site.charger.kind != ChargerKind::None || site.solar.array.get() > 0.0 || site.mains.current.get() > 0.0;
    if air >= limit {
        return None;
    }
    let rule = format!("charge temperature: {}", limits.from.charge_min.words());
    if coldest >= limit {
        let watts = heater(site, heated_capacity(site), air);
        let text =
            format!("its heater pad holds it at {coldest} in air of {air} and takes {watts} then, which is counted");
        let finding = Finding::new(Kind::HeaterDraw, SERVICE, text).rule(rule).at(place("heater_w"));
        return Some(finding.remedy(format!("put 40 mm of foam round it: about {} then", watts * 0.5)));
    }
    if !charged {
        return None;
    }
    if let Some(lock) = site.service_battery.locks_below {
        return Some(locked(chemistry, lock, (air, limit), rule));
    }
    let pad = site.service_battery.heater.filter(|_| site.service_battery.heated);
    let text = match pad {
        Some(pad) => format!(
            "its heater pad of {pad} holds it at {coldest} only in air of {air}; it must not be charged below {limit}"
        ),
        None => format!("{} must not be charged below {limit}, and the coldest air is {air}", chemistry.name),
    };
    if pad.is_some() {
        let finding = Finding::new(Kind::ColdCharge, SERVICE, text).rule(rule).at(place("heater_w"));
        return Some(finding.remedy_edit(
            format!("a pad that holds it above {limit}, and foam round it"),
            place("heater_w"),
            None,
        ));
    }
    let finding = Finding::new(Kind::ColdCharge, SERVICE, text).rule(rule).at(place("heated")).remedy_edit(
        format!("a heater pad that holds it above {limit} before charging; what it takes is counted"),
        place("heated"),
        Some(Value::Flag(true)),
    );
    let other = site.catalogue.chemistries.iter().find(|c| c.limits.charge_min <= air);
    Some(match other {
        Some(other) => finding.remedy_edit(
            format!("or {}, which may be charged down to {}", other.name, other.limits.charge_min),
            place("chemistry"),
            Some(Value::Text(other.key.clone())),
        ),
        None => finding,
    })
}

/// It refuses charge in the cold by itself: no harm where it does so soon enough, but nothing is charged either.
fn locked(chemistry: &Chemistry, lock: Celsius, (air, limit): (Celsius, Celsius), rule: String) -> Finding {
    let finding = if lock >= limit {
        let text = format!(
            "below {lock} its own lock lets no charge in, and the coldest air is {air}: it is not charged then, which the trials count"
        );
        Finding::new(Kind::ColdCharge, SERVICE, text).as_severity(Severity::Caution)
    } else {
        let text = format!("its own lock acts below {lock} only; {} must not be charged below {limit}", chemistry.name);
        Finding::new(Kind::ColdCharge, SERVICE, text)
    };
    finding.rule(rule).at(place("heated")).remedy_edit(
        format!("a heater pad that holds it above {limit} before charging; what it takes is counted"),
        place("heated"),
        Some(Value::Flag(true)),
    )
}

/// The air is colder or hotter than it may be used or charged in.
fn temperature(site: &Installation, chemistry: &Chemistry) -> Vec<Finding> {
    let (limits, from) = (&chemistry.limits, &chemistry.limits.from);
    let mut found = Vec::new();
    let mut beyond =
        |what: &str, limit: Celsius, from: &Provenance, at: Celsius, key: &'static str, severity: Severity| {
            let text = format!("{} must not be {what} {limit}, and the air reaches {at}", chemistry.name);
            found.push(
                Finding::new(Kind::TemperatureLimit, SERVICE, text)
                    .as_severity(severity)
                    .rule(format!("temperature limit: {}", from.words()))
                    .at(Place::of(Section::Surroundings, key))
                    .remedy(format!("place it where the air stays within {limit}, or insulate it")),
            );
        };
    let (coldest, hottest) = (coldest(site), hottest(site));
    if coldest < limits.discharge_min {
        beyond("used below", limits.discharge_min, &from.discharge_min, coldest, "coldest_c", Severity::Stop);
    }
    if hottest > limits.discharge_max {
        beyond("used above", limits.discharge_max, &from.discharge_max, hottest, "hottest_c", Severity::Stop);
    } else if hottest > limits.charge_max {
        beyond("charged above", limits.charge_max, &from.charge_max, hottest, "hottest_c", Severity::Caution);
    }
    found
}

fn freezing(site: &Installation, chemistry: &Chemistry, out: &BatteryDesign) -> Option<Finding> {
    let curve = chemistry.cold.freezing.as_ref()?;
    let lowest = (Share::FULL - out.depth_reached).min(reserve_of(site, chemistry)).max(Share::ZERO);
    let point = curve.at(lowest)?;
    let coldest = coldest(site);
    if coldest.get() >= point.get() {
        return None;
    }
    let text = format!("at {lowest} charge it freezes at {point}, and the coldest air is {coldest}");
    let keep = curve.inverse(coldest).unwrap_or(Share::FULL);
    let freezes_full = curve.at(Share::FULL).is_some_and(|p| coldest.get() < p.get());
    let finding = Finding::new(Kind::Freezing, SERVICE, text)
        .rule(format!("freezing point by charge: {}", chemistry.cold.from.freezing.words()))
        .at(Place::of(Section::CutOff, "reserve"));
    let keep = Share::new((keep.get() * 100.0).ceil() / 100.0);
    Some(if freezes_full || keep.get() > 0.95 {
        finding.remedy(format!("keep it where the air stays above {point}"))
    } else {
        finding.remedy_number(format!("keep a reserve of {keep}"), Place::of(Section::CutOff, "reserve"), keep.get())
    })
}

fn currents(site: &Installation, chemistry: &Chemistry, budget: &Budget, bank: &Bank) -> Vec<Finding> {
    let rate = &chemistry.rate;
    let own = site.service_battery.gives.filter(|gives| budget.peak > *gives).map(|gives| {
        let text = format!("all loads together take {}, its own protection lets {gives} pass", budget.peak);
        Finding::new(Kind::BatteryRate, SERVICE, text)
            .rule("most current that its protection lets pass (entered by you)")
            .at(place("gives_a"))
            .remedy(format!("a battery that gives {}, or {} less at a time", budget.peak, budget.peak - gives))
    });
    let over = |current: Amps, times: f64, from: &Provenance, what: &str| {
        let most = Amps::new(times * bank.capacity.get());
        if current.get() <= most.get() + 1e-6 {
            return None;
        }
        let needed = AmpHours::new(current.get() / times.max(0.001));
        let text = format!("{what} {current}, this battery gives {most} at most");
        Some(
            Finding::new(Kind::BatteryRate, SERVICE, text)
                .rule(format!("highest discharge {times} C: {}", from.words()))
                .at(place("capacity_ah"))
                .remedy_number(format!("a battery of {needed} or more"), place("capacity_ah"), needed.get().ceil())
                .remedy(format!("or {} less at a time, by `not_with` or by hand", current - most)),
        )
    };
    let steady = over(budget.peak, rate.max_c, &rate.from.max_c, "all loads together take");
    let start = over(budget.surge, rate.max_short_c, &rate.from.max_short_c, "the worst start takes");
    steady.into_iter().chain(start).chain(own).collect()
}

fn surge(site: &Installation, chemistry: &Chemistry, budget: &Budget, bank: &Bank) -> Option<Finding> {
    let store = bank.store(chemistry);
    let resting = store.resting(reserve_of(site, chemistry), coldest(site));
    let falls = resting - budget.surge * bank.resistance_worst;
    let (floor, harmed_by) = chemistry.low.floor();
    if falls.get() >= floor.get() || budget.surge.get() <= 0.0 {
        return None;
    }
    let name = budget.surge_load.and_then(|i| site.loads.get(i)).map_or("the loads", |l| l.name.as_str());
    let text = format!(
        "when {name} starts, {} pull the cold, old battery at its reserve to {falls}, under {floor}",
        budget.surge
    );
    let spare = (resting - floor).max(Volts::new(0.01));
    let needed = bank.capacity * (budget.surge * bank.resistance_worst / spare);
    Some(
        Finding::new(Kind::SurgeDeep, SERVICE, text)
            .rule(format!(
                "internal resistance: {}; lowest voltage: {}",
                chemistry.resistance.words(site.service_battery.resistance_mohm, true),
                harmed_by.words()
            ))
            .at(place("capacity_ah"))
            .remedy_number(
                format!("a battery of {needed} holds it above {floor}"),
                place("capacity_ah"),
                needed.get().ceil(),
            ),
    )
}

fn voltage(catalogue: &Catalogue, chemistry: &Chemistry) -> Option<Finding> {
    if suits(chemistry) {
        return None;
    }
    let half = rests_at(chemistry);
    let text = format!("{} rests at {half} half full; 12 V equipment wants 11.5 to 15 V", chemistry.name);
    let finding = Finding::new(Kind::VoltageMisfit, SERVICE, text)
        .rule(format!(
            "12 V equipment and chargers are made for six lead cells, common practice, no source; rests: {}",
            chemistry.resting.words()
        ))
        .at(place("chemistry"));
    let better = catalogue.chemistries.iter().find(|c| suits(c) && c.chemical == Chemical::Lithium);
    let better = better.or_else(|| catalogue.chemistries.iter().find(|c| suits(c)));
    Some(match better {
        Some(c) => {
            let volts = rests_at(c);
            finding.remedy_edit(
                format!("{} rests at {volts} half full", c.name),
                place("chemistry"),
                Some(Value::Text(c.key.clone())),
            )
        }
        None => finding.remedy("use a converter to 12 V for all loads"),
    })
}
