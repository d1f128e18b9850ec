//! What the user should know about the battery.

use crate::catalogue::{Catalogue, Chemical, Chemistry, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::battery::{end_of_life, reserve_of};
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::cell::store::cold_factor;
use crate::engine::simulate::bank;
use crate::engine::simulate::battery::{BatteryDesign, INVERTER, SUMMER, suits};
use crate::engine::simulate::budget::Budget;
use crate::plan::{ChargerKind, Place, Section, Value};
use crate::quantity::*;

const S: Subject = Subject::ServiceBattery;

/// So much under what is needed lies within the margins that the sizing itself keeps: our own border, no source.
const LITTLE_SHORT: f64 = 0.05;

fn place(key: &'static str) -> Place {
    Place::of(Section::ServiceBattery, key)
}

pub(crate) fn unknown_chemistry(site: &Installation, book: &mut Book) {
    let text = format!("the catalogue has no chemistry `{}`", site.service_battery.chemistry);
    let finding = Finding::new(Kind::BatteryNone, S, text)
        .rule("a battery is sized by the profile of its chemistry")
        .at(place("chemistry"));
    book.find(match site.catalogue.chemistries.first() {
        Some(c) => finding.remedy_edit(
            format!("choose one of the {} known, such as {}", site.catalogue.chemistries.len(), c.key),
            place("chemistry"),
            Some(Value::Text(c.key.clone())),
        ),
        None => finding.remedy("put at least 1 chemistry into the catalogue"),
    });
}

pub(crate) fn check(site: &Installation, chemistry: &Chemistry, budget: &Budget, out: &BatteryDesign, book: &mut Book) {
    capacity(site, chemistry, budget, out, book);
    depth(site, chemistry, book);
    hot_days(site, chemistry, budget, out, book);
    parallel(site, chemistry, out, book);
    alike(chemistry, out, book);
    temperature(site, chemistry, book);
    freezing(site, chemistry, out, book);
    currents(site, chemistry, budget, out, book);
    voltage(&site.catalogue, chemistry, book);
}

fn capacity(site: &Installation, chemistry: &Chemistry, budget: &Budget, out: &BatteryDesign, book: &mut Book) {
    let ruling = out.criteria.get(out.ruling).map_or("", |c| c.name);
    match (&out.bank, site.service_battery.capacity) {
        (Some(bank), Some(given)) if given.get() < out.needed.get() - 1e-6 => {
            let text = format!("the battery has {given}, {} are needed ({ruling})", out.needed);
            // An inverter may be used below its rating; all else of the plan needs the capacity.
            let others = out.criteria.iter().filter(|c| c.name != INVERTER).map(|c| c.needed);
            let others = others.fold(AmpHours::ZERO, AmpHours::max);
            let short = given.get() < others.get() * (1.0 - LITTLE_SHORT);
            let severity = if short { Severity::Stop } else { Severity::Caution };
            let mut finding = Finding::new(Kind::BatterySmall, S, text)
                .as_severity(severity)
                .rule(format!(
                    "the biggest criterion rules; IEEE Std 1013, SAND87-7023, IEEE Std 485; {ruling}: {}",
                    criterion_words(site, chemistry, ruling)
                ))
                .at(place("capacity_ah"));
            if let Some(enough) = bank::standard(site, chemistry, out.needed, site.service_battery.in_parallel, true) {
                finding = finding.remedy_number(
                    match enough.blocks {
                        1 => format!("a block of {} is enough", enough.block),
                        blocks => format!("{blocks} blocks of {} make {}", enough.block, enough.capacity),
                    },
                    place("capacity_ah"),
                    enough.capacity.get(),
                );
            }
            if ruling == INVERTER {
                let most = site.inverter.rating * (bank.capacity / out.needed);
                finding = finding.remedy(format!("or never take more than {most} of the inverter's rating"));
            }
            if ["days without charge", SUMMER, "rate"].contains(&ruling) {
                let days = site.service_battery.days_without_charge * (bank.capacity / out.needed);
                let days = Days::new((days.get() * 100.0).floor() / 100.0);
                if days.get() >= 0.1 {
                    let words = format!("or plan {days} without charge");
                    finding = finding.remedy_number(words, place("days_without_charge"), days.get());
                }
            }
            let day = if ruling == SUMMER { budget.summer_day } else { budget.standing_day };
            let bears = day * (bank.capacity / out.needed);
            book.find(finding.remedy(format!("or use at most {bears} of the {day} on a day")));
        }
        (None, _) => {
            let largest = chemistry.blocks.sizes.iter().copied().fold(AmpHours::ZERO, AmpHours::max);
            let count = f64::from(site.service_battery.in_parallel.unwrap_or(bank::MOST));
            let text = format!(
                "{} are needed ({ruling}), but {count:.0} blocks of {largest} make {}",
                out.needed,
                largest * count
            );
            book.find(
                Finding::new(Kind::BatteryNone, S, text)
                    .rule(format!("sizes sold: {}", chemistry.blocks.from.sizes.words()))
                    .at(place("days_without_charge"))
                    .remedy(format!(
                        "plan fewer than {} without charge, or fewer loads; at most {} can be had",
                        site.service_battery.days_without_charge,
                        largest * count
                    ))
                    .remedy_edit("or let 1 to 12 blocks be tried", place("in_parallel"), None),
            );
        }
        _ => {}
    }
}

/// Where the limits of a criterion come from; what the plan gives itself is left out.
fn criterion_words(site: &Installation, chemistry: &Chemistry, name: &str) -> String {
    let (life, rate) = (&chemistry.life.from, &chemistry.rate.from);
    let depth = site.service_battery.depth.is_none().then_some(&life.depth);
    let end = site.service_battery.end_of_life.is_none().then_some(&life.end_of_life);
    let energy = depth.into_iter().chain(end).chain([&chemistry.cold.from.capacity]);
    match name {
        "discharge current" | INVERTER => rate.max_c.words(),
        "start current" => rate.max_short_c.words(),
        "charge current" => chemistry.charge.from.max_c.words(),
        "short load" => format!("{}; {}", chemistry.resistance.words(None, true), chemistry.low.floor().1.words()),
        "rate" => cite(energy.chain([&rate.peukert, &rate.rated])),
        _ => cite(energy),
    }
}

/// How long it lasts when all days are as hot as the hottest.
fn hot_days(site: &Installation, chemistry: &Chemistry, budget: &Budget, out: &BatteryDesign, book: &mut Book) {
    let Some(bank) = &out.bank else { return };
    let air = crate::engine::installation::climate::hot_air(&site.surroundings);
    let wanted = site.service_battery.days_without_charge;
    let usable =
        bank.capacity * (out.depth.get() * end_of_life(site, chemistry).get() * cold_factor(chemistry, air).get());
    if budget.hot_day.get() <= 0.0 || usable.get() >= budget.hot_day.get() * wanted.get() - 1e-9 {
        return;
    }
    let lasts = Days::new(usable / budget.hot_day);
    let needed = bank.capacity * (wanted / lasts);
    let text = format!(
        "on days with a mean of {air} the loads take {} each, and the battery, old, lasts {lasts} instead of {wanted}",
        budget.hot_day
    );
    let mut finding = Finding::new(Kind::HotDays, S, text)
        .rule("thermostats are on for longer in the heat; the size follows the year's mean and the warmest month")
        .at(place("capacity_ah"));
    if let Some(enough) = bank::standard(site, chemistry, needed, site.service_battery.in_parallel, false) {
        let words = format!("{} lasts them", enough.capacity);
        finding = finding.remedy_number(words, place("capacity_ah"), enough.capacity.get());
    }
    book.find(finding.remedy(format!("or count on {lasts} then, and shade and air what has a thermostat")));
}

fn depth(site: &Installation, chemistry: &Chemistry, book: &mut Book) {
    if let Some(reserve) = site.cut_off.reserve.filter(|r| 1.0 - r.get() > chemistry.life.deepest.get() + 1e-9) {
        let keep = Share::FULL - chemistry.life.deepest;
        let text = format!(
            "the cut-off keeps {reserve}, so {} may be discharged by {}, deeper than {}",
            chemistry.name,
            Share::FULL - reserve,
            chemistry.life.deepest
        );
        let at = Place::of(Section::CutOff, "reserve");
        book.find(
            Finding::new(Kind::DepthDeep, S, text)
                .rule(format!("deepest discharge: {}", chemistry.life.from.deepest.words()))
                .at(at)
                .remedy_number(format!("keep a reserve of {keep}"), at, keep.get()),
        );
    }
    let Some(wanted) = site.service_battery.depth else { return };
    if wanted.get() > chemistry.life.deepest.get() + 1e-9 {
        let text = format!(
            "{} is planned to be discharged by {wanted}, deeper than {}",
            chemistry.name, chemistry.life.deepest
        );
        book.find(
            Finding::new(Kind::DepthDeep, S, text)
                .rule(format!("deepest discharge: {}", chemistry.life.from.deepest.words()))
                .at(place("depth"))
                .remedy_number(
                    format!("plan with {}", chemistry.life.depth),
                    place("depth"),
                    chemistry.life.depth.get(),
                ),
        );
    }
    let left = Share::FULL - reserve_of(site, chemistry);
    if wanted.get() > left.get() + 1e-9 {
        let text =
            format!("{wanted} is to be used, but the cut-off keeps {} and leaves {left}", reserve_of(site, chemistry));
        book.find(
            Finding::new(Kind::DepthDeep, S, text)
                .rule("depth of discharge and reserve together are at most the whole; the smaller depth is used")
                .at(place("depth"))
                .remedy_number(format!("plan with {left}"), place("depth"), left.get()),
        );
    }
}

fn parallel(site: &Installation, chemistry: &Chemistry, out: &BatteryDesign, book: &mut Book) {
    let Some(bank) = out.bank.as_ref().filter(|b| b.blocks > chemistry.blocks.max_parallel) else { return };
    let text = format!(
        "{} blocks in parallel share their work unevenly; {} is the most without care",
        bank.blocks, chemistry.blocks.max_parallel
    );
    let largest = chemistry.blocks.sizes.iter().copied().fold(AmpHours::ZERO, AmpHours::max);
    let fewer = (bank.capacity.get() / largest.get().max(1.0)).ceil().max(1.0);
    let mut finding = Finding::new(Kind::ParallelMany, S, text)
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
        finding.remedy(format!("plan with fewer than {} without charge", site.service_battery.days_without_charge))
    };
    book.find(finding);
}

/// Lead-acid blocks in parallel: one that is older or weaker drags the others down.
fn alike(chemistry: &Chemistry, out: &BatteryDesign, book: &mut Book) {
    let several = |b: &&crate::engine::parts::battery::Bank| b.blocks > 1 && b.blocks <= chemistry.blocks.max_parallel;
    let Some(bank) = out.bank.as_ref().filter(|_| chemistry.chemical == Chemical::LeadAcid).filter(several) else {
        return;
    };
    let text =
        format!("{} blocks of {} in parallel: a weak or older one drags the others down", bank.blocks, bank.block);
    book.find(
        Finding::new(Kind::ParallelAlike, S, text)
            .rule("lead-acid blocks in parallel share charge by their own voltages; common practice, no source")
            .at(place("in_parallel"))
            .remedy(format!(
                "buy all {} of one make, type and date, never add one later; join them crosswise with leads of equal length; a fuse at each",
                bank.blocks
            )),
    );
}

fn temperature(site: &Installation, chemistry: &Chemistry, book: &mut Book) {
    let (air, limits) = (&site.surroundings, &chemistry.limits);
    let charged =
        site.charger.kind != ChargerKind::None || site.solar.array.get() > 0.0 || site.mains.current.get() > 0.0;
    if air.coldest.get() < limits.charge_min.get() && !site.service_battery.heated && charged {
        let text = format!(
            "{} must not be charged below {}, and the coldest air is {}",
            chemistry.name, limits.charge_min, air.coldest
        );
        let mut finding = Finding::new(Kind::ColdCharge, S, text)
            .rule(format!("charge temperature: {}", limits.from.charge_min.words()))
            .at(place("heated"))
            .remedy_edit(
                format!(
                    "a heater pad that holds it above {} before charging, planned as a load too",
                    limits.charge_min
                ),
                place("heated"),
                Some(Value::Flag(true)),
            );
        let other = site.catalogue.chemistries.iter().find(|c| c.limits.charge_min.get() <= air.coldest.get());
        if let Some(other) = other {
            finding = finding.remedy_edit(
                format!("or {}, which may be charged down to {}", other.name, other.limits.charge_min),
                place("chemistry"),
                Some(Value::Text(other.key.clone())),
            );
        }
        book.find(finding);
    }
    if air.coldest.get() < limits.charge_min.get() && site.service_battery.heated {
        let text = format!(
            "a heater pad has to hold it above {} in air of {}, and its draw counts only if it is a load of this plan",
            limits.charge_min, air.coldest
        );
        book.find(
            Finding::new(Kind::HeaterDraw, S, text)
                .rule(format!("charge temperature: {}", limits.from.charge_min.words()))
                .at(place("heated"))
                .remedy("enter the pad as a load with the watts on its label, such as 20 W for 6 h a day"),
        );
    }
    for (is, limit, from, use_, severity) in [
        (
            air.coldest.get() < limits.discharge_min.get(),
            limits.discharge_min,
            &limits.from.discharge_min,
            "used below",
            Severity::Stop,
        ),
        (
            air.hottest.get() > limits.discharge_max.get(),
            limits.discharge_max,
            &limits.from.discharge_max,
            "used above",
            Severity::Stop,
        ),
        (
            air.hottest.get() > limits.charge_max.get() && air.hottest.get() <= limits.discharge_max.get(),
            limits.charge_max,
            &limits.from.charge_max,
            "charged above",
            Severity::Caution,
        ),
    ] {
        if !is {
            continue;
        }
        let cold = use_.ends_with("below");
        let (at, key) = if cold { (air.coldest, "coldest_c") } else { (air.hottest, "hottest_c") };
        let text = format!("{} must not be {use_} {limit}, and the air reaches {at}", chemistry.name);
        book.find(
            Finding::new(Kind::TemperatureLimit, S, text)
                .as_severity(severity)
                .rule(format!("temperature limit: {}", from.words()))
                .at(Place::of(Section::Surroundings, key))
                .remedy(format!("place it where the air stays within {limit}, or insulate it")),
        );
    }
}

fn freezing(site: &Installation, chemistry: &Chemistry, out: &BatteryDesign, book: &mut Book) {
    let Some(curve) = &chemistry.cold.freezing else { return };
    let lowest = (Share::FULL - out.depth_reached).min(reserve_of(site, chemistry)).max(Share::ZERO);
    let Some(point) = curve.at(lowest) else { return };
    let coldest = site.surroundings.coldest;
    if coldest.get() >= point.get() {
        return;
    }
    let text = format!("at {lowest} charge it freezes at {point}, and the coldest air is {coldest}");
    let keep = curve.inverse(coldest).unwrap_or(Share::FULL);
    let freezes_full = curve.at(Share::FULL).is_some_and(|p| coldest.get() < p.get());
    let finding = Finding::new(Kind::Freezing, S, text)
        .rule(format!("freezing point by charge: {}", chemistry.cold.from.freezing.words()))
        .at(Place::of(Section::CutOff, "reserve"));
    let keep = Share::new((keep.get() * 100.0).ceil() / 100.0);
    book.find(if freezes_full || keep.get() > 0.95 {
        finding.remedy(format!("keep it where the air stays above {point}"))
    } else {
        finding.remedy_number(format!("keep a reserve of {keep}"), Place::of(Section::CutOff, "reserve"), keep.get())
    });
}

fn currents(site: &Installation, chemistry: &Chemistry, budget: &Budget, out: &BatteryDesign, book: &mut Book) {
    let Some(bank) = &out.bank else { return };
    let c = bank.capacity.get();
    for (current, times, from, what) in [
        (budget.peak, chemistry.rate.max_c, &chemistry.rate.from.max_c, "all loads together take"),
        (budget.surge, chemistry.rate.max_short_c, &chemistry.rate.from.max_short_c, "the worst start takes"),
    ] {
        let most = Amps::new(times * c);
        if current.get() > most.get() + 1e-6 {
            let needed = AmpHours::new(current.get() / times.max(0.001));
            let text = format!("{what} {current}, this battery gives {most} at most");
            book.find(
                Finding::new(Kind::BatteryRate, S, text)
                    .rule(format!("highest discharge {times} C: {}", from.words()))
                    .at(place("capacity_ah"))
                    .remedy_number(format!("a battery of {needed} or more"), place("capacity_ah"), needed.get().ceil())
                    .remedy(format!("or {} less at a time, by `not_with` or by hand", current - most)),
            );
        }
    }
    surge(site, chemistry, budget, out, book);
}

fn surge(site: &Installation, chemistry: &Chemistry, budget: &Budget, out: &BatteryDesign, book: &mut Book) {
    let Some(bank) = &out.bank else { return };
    let store = bank.store(chemistry);
    let resting = store.resting(reserve_of(site, chemistry), site.surroundings.coldest);
    let falls = resting - budget.surge * bank.resistance_worst;
    let (floor, harmed_by) = chemistry.low.floor();
    if falls.get() >= floor.get() || budget.surge.get() <= 0.0 {
        return;
    }
    let name = budget.surge_load.and_then(|i| site.loads.get(i)).map_or("the loads", |l| l.name.as_str());
    let text = format!(
        "when {name} starts, {} pull the cold, old battery at its reserve to {falls}, under {floor}",
        budget.surge
    );
    let spare = (resting - floor).max(Volts::new(0.01));
    let needed = bank.capacity * (budget.surge * bank.resistance_worst / spare);
    book.find(
        Finding::new(Kind::SurgeDeep, S, text)
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
    );
}

fn voltage(catalogue: &Catalogue, chemistry: &Chemistry, book: &mut Book) {
    if suits(chemistry) {
        return;
    }
    let half = crate::engine::physics::cell::store::resting_voltage(
        chemistry,
        Share::new(0.5),
        crate::engine::physics::cell::store::TABLE_AIR,
    );
    let text = format!("{} rests at {half} half full; 12 V equipment wants 11.5 to 15 V", chemistry.name);
    let finding = Finding::new(Kind::VoltageMisfit, S, text)
        .rule(format!(
            "12 V equipment and chargers are made for six lead cells, common practice, no source; rests: {}",
            chemistry.resting.words()
        ))
        .at(place("chemistry"));
    let better = catalogue.chemistries.iter().find(|c| suits(c) && c.chemical == Chemical::Lithium);
    let better = better.or_else(|| catalogue.chemistries.iter().find(|c| suits(c)));
    book.find(match better {
        Some(c) => {
            let volts = crate::engine::physics::cell::store::resting_voltage(
                c,
                Share::new(0.5),
                crate::engine::physics::cell::store::TABLE_AIR,
            );
            finding.remedy_edit(
                format!("{} rests at {volts} half full", c.name),
                place("chemistry"),
                Some(Value::Text(c.key.clone())),
            )
        }
        None => finding.remedy("use 1 converter to 12 V for all loads"),
    });
}
