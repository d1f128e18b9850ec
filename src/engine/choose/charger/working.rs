//! How each number of the charger came about.

use crate::catalogue::{Catalogue, Chemical, Chemistry, Rule, cite};
use crate::engine::installation::alternator::{idle_share, lowest_driving_voltage, road_share};
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::charger::charge_voltage_at;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::installation::{Installation, sources};
use crate::engine::judge::book::Book;
use crate::engine::parts::battery::Bank;
use crate::engine::parts::charger::Bound;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::bounds::Bounds;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::plan::{ChargerKind, SolarController};
use crate::quantity::*;

pub(crate) fn alternator(site: &Installation, out: &ChargerDesign, book: &mut Book) {
    let source = |given: bool, rule: &Rule<Share>| if given { "plan".into() } else { rule.from.words() };
    let rules = &site.catalogue.rules;
    let v = &site.vehicle;
    for (name, share, result, source) in [
        ("spare at idle", idle_share(site), out.spare_idle, source(v.idle_share.is_some(), &rules.alternator_idle)),
        ("spare on the road", road_share(site), out.spare_road, source(v.road_share.is_some(), &rules.alternator_road)),
    ] {
        book.work(
            Subject::Alternator,
            name,
            Working::new(format!("hot alternator: {name}"), "A * s - D", result)
                .with("A", "rated current", v.alternator_rating)
                .with("s", "hot output as a share of the rating", share)
                .with("D", "vehicle's own draw", v.own_draw)
                .source(source),
        );
    }
}

#[allow(clippy::too_many_arguments)]
pub(crate) fn record(
    site: &Installation,
    chemistry: &Chemistry,
    bank: &Bank,
    day: &Budget,
    bounds: &Bounds,
    out: &ChargerDesign,
    book: &mut Book,
) {
    sun_and_mains(site, chemistry, bank, day, bounds, out, book);
    if out.current.is_none() {
        return;
    }
    draw(site, day, bounds, out, book);
    uppers(site, chemistry, bank, out, book);
    recovery(site, chemistry, bank, bounds, out, book);
    input(site, chemistry, out, book);
}

fn draw(site: &Installation, day: &Budget, b: &Bounds, out: &ChargerDesign, book: &mut Book) {
    let subject = || Subject::Charger;
    book.work(
        subject(),
        "to put back",
        Working::new("charge to put back on a day of driving", "Q - d + S * (w - 1)", b.put_back)
            .with_from("Q", "charge a day", day.charge, Subject::Budget, "charge a day")
            .with("d", "of it while driving, fed directly", day.driving)
            .with("S", "charge of a day without driving", day.standing_day)
            .with("w", "days' draw for each driving day", Figure::number(b.weeks_share))
            .source("weekly balance: seven days less those with mains, over the driving days"),
    );
    if b.hours.get() > 0.0 {
        book.work(
            subject(),
            "day's draw",
            Working::new("current that puts it back in the time driven", "D * f / (h * u) + L", b.by_draw)
                .with_from("D", "charge to put back", b.put_back, subject(), "to put back")
                .with("f", "charge put in per charge stored", Figure::number(b.factor))
                .with("h", "driving a day", b.hours)
                .with("u", "share of the current that is really taken, over that time", b.taken)
                .with("L", "mean load while driving", b.load)
                .source("charge = current x time; taper by the chemistry's end of bulk and tail current")
                .note("begins at the planned depth; the share taken is solved by halving"),
        );
    }
    book.work(
        subject(),
        "least useful",
        Working::new("lowest useful charge current", "c * C", b.least)
            .with(
                "c",
                "multiple of the capacity",
                Figure::number(if out.capacity.get() > 0.0 { b.least.get() / out.capacity.get() } else { 0.0 }),
            )
            .with("C", "capacity of the bank", out.capacity)
            .source("the chemistry's lowest useful rate"),
    );
    // A relay's stands in `rush`.
    if site.charger.kind == ChargerKind::Relay {
        return;
    }
    let current = out.current.unwrap_or(Amps::ZERO);
    let words = match site.charger.current {
        Some(_) => "given in the plan and checked against the bounds",
        None => "smallest standard current that reaches the lower bounds and keeps under the upper ones",
    };
    book.work(subject(), "current", Working::new("charger's output current", "", current).source(words));
}

fn uppers(site: &Installation, chemistry: &Chemistry, bank: &Bank, out: &ChargerDesign, book: &mut Book) {
    let idling = site.vehicle.idling;
    for Bound { name, amps, .. } in &out.upper {
        let spare = match *name {
            "alternator on the road" => out.spare_road,
            "alternator at idle" => out.spare_idle,
            "alternator over the drive" => out.spare_road * (1.0 - idling.get()) + out.spare_idle * idling.get(),
            _ => {
                book.work(
                    Subject::Charger,
                    *name,
                    Working::new("most that the battery takes", "c * C", *amps)
                        .with("c", "multiple of the capacity", Figure::number(chemistry.charge.max_c))
                        .with("C", "capacity of the bank", bank.capacity)
                        .source(chemistry.charge.from.max_c.words()),
                );
                continue;
            }
        };
        let working = if site.charger.kind == ChargerKind::Relay {
            Working::new("most that the alternator gives", "max(S, 0)", *amps).with("S", "spare", spare)
        } else {
            Working::new("output that the alternator's spare feeds", "max(S, 0) * U * e / V", *amps)
                .with("S", "spare", spare)
                .with("U", "lowest voltage while driving", lowest_driving_voltage(site))
                .with("e", "efficiency", site.charger.efficiency)
                .with("V", "highest charge voltage", charge_voltage_at(site, chemistry, site.surroundings.coldest))
        };
        let note = format!("{idling} of the drive at idle; at idle alone the starter battery may have to help");
        book.work(Subject::Charger, *name, working.source("power balance; see the alternator's workings").note(note));
    }
}

fn recovery(site: &Installation, chemistry: &Chemistry, bank: &Bank, b: &Bounds, out: &ChargerDesign, book: &mut Book) {
    let from = Share::FULL - planned_depth(site, chemistry);
    let net = out.steady - b.load;
    let source = format!("constant current, then falling to the tail; {}", chemistry.charge.falling_words());
    let with = |w: Working| {
        w.with("C", "capacity of the bank", bank.capacity)
            .with("I", "charge current after the loads", net)
            .with("s", "charge at the planned depth", from)
            .with(
                "f",
                "charge put in per charge stored",
                Figure::number(crate::engine::physics::cell::recovery::put_back_factor(&site.catalogue, chemistry)),
            )
            .source(source.clone())
            .note("approximation: what the battery takes is a straight line over its charge")
    };
    book.work(Subject::Charger, "a day", with(Working::new("charge put back on a day of driving", "", out.a_day)));
    for r in &out.recovery {
        if let Some(hours) = r.hours {
            let working = Working::new(format!("driving from the planned depth to {}", r.to), "", hours);
            book.work(Subject::Charger, format!("recovery to {}", r.to), with(working));
        }
    }
}

fn input(site: &Installation, chemistry: &Chemistry, out: &ChargerDesign, book: &mut Book) {
    let current = out.current.unwrap_or(Amps::ZERO);
    let c = &chemistry.charge;
    let highest = match crate::engine::installation::charger::fixed_voltage(site) {
        Some(fixed) => {
            let meaning =
                if site.charger.kind == ChargerKind::Relay { "alternator's, through the relay" } else { "given" };
            Working::new("highest charge voltage", "V", out.output_highest).with("V", meaning, fixed).source("plan")
        }
        None => Working::new("highest charge voltage", "max(V, min(M, V + k * (T - 25)))", out.output_highest)
            .with("V", "charge voltage at 25 °C", out.output)
            .with("M", "never above", c.max)
            .with("k", "per kelvin", Figure::new(c.v_per_k, Unit::VoltPerKelvin))
            .with("T", "coldest air", site.surroundings.coldest)
            .source(cite([&c.from.absorption, &c.from.max, &c.from.v_per_k])),
    };
    book.work(Subject::Charger, "highest voltage", highest);
    let working = if site.charger.kind == ChargerKind::Relay {
        Working::new("current to size the feed for", "I", out.input_sizing).with("I", "charge current", current)
    } else {
        Working::new("current to size the feed for", "V * I / (e * U)", out.input_sizing)
            .with_from("V", "highest charge voltage", out.output_highest, Subject::Charger, "highest voltage")
            .with_from("I", "output current", current, Subject::Charger, "current")
            .with("e", "efficiency", site.charger.efficiency)
            .with("U", "lowest voltage at its own input terminals", out.lowest_input)
    };
    let source = match site.charger.lowest_input {
        Some(_) => "power balance; lowest input voltage as given".to_string(),
        None => format!("power balance; lowest input: {}", site.catalogue.rules.charger_input_low.from.words()),
    };
    book.work(Subject::Charger, "input for sizing", working.source(source));
}

fn put_back_source(catalogue: &Catalogue, chemistry: &Chemistry) -> String {
    match chemistry.chemical {
        Chemical::LeadAcid => format!(
            "the larger of overcharge and efficiency: {}; {}",
            catalogue.rules.overcharge.from.words(),
            chemistry.charge.from.coulombic.words()
        ),
        _ => chemistry.charge.from.coulombic.words(),
    }
}

#[allow(clippy::too_many_arguments)]
fn sun_and_mains(
    site: &Installation,
    chemistry: &Chemistry,
    bank: &Bank,
    day: &Budget,
    b: &Bounds,
    out: &ChargerDesign,
    book: &mut Book,
) {
    if site.solar.array.get() > 0.0 {
        let hours = match site.solar.sun_hours {
            Some(_) => Working::new("peak-sun hours of a usual day", "h", out.sun_hours)
                .with("h", "given", out.sun_hours)
                .source("plan"),
            None => Working::new("peak-sun hours of a usual day", "", out.sun_hours)
                .with("L", "latitude", site.surroundings.latitude)
                .source("clear sky by Haurwitz (1945), mean of twelve days of the year, times 0.55 for clouds")
                .note("the cloud factor is common practice, no source; enter your own sun hours if you know them"),
        };
        book.work(Subject::Solar, "sun hours", hours);
        let shunt = site.solar.controller == SolarController::Shunt;
        let formula = if shunt { "min(W * s / V, W / A) * h" } else { "W * s / V * h" };
        let mut working = Working::new("charge from the sun on a usual day", formula, out.solar_a_day)
            .with("W", "array", site.solar.array)
            .with("s", "share that reaches the battery", sources::solar_derating(site))
            .with("V", "charge voltage", chemistry.charge.absorption.max(Volts::new(1.0)));
        if shunt {
            working = working.with("A", "array's voltage at maximum power", site.solar.array_voltage);
        }
        book.work(
            Subject::Solar,
            "a day",
            working
                .with_from("h", "peak-sun hours", out.sun_hours, Subject::Solar, "sun hours")
                .source(sources::usual_derating(site).from.words()),
        );
        book.work(
            Subject::Solar,
            "stored a day",
            Working::new("charge that the sun of a usual day stores", "Q / f", out.solar_stored)
                .with_from("Q", "charge from the sun", out.solar_a_day, Subject::Solar, "a day")
                .with("f", "charge put in per charge stored", Figure::number(b.factor))
                .source(put_back_source(&site.catalogue, chemistry)),
        );
        book.work(
            Subject::Solar,
            "share of the need",
            Working::new(
                "share of the day's need that the sun brings",
                if day.charge.get() > 0.0 { "Q / U" } else { "" },
                out.solar_share,
            )
            .with_from("Q", "stored a day", out.solar_stored, Subject::Solar, "stored a day")
            .with_from("U", "charge used a day", day.charge, Subject::Budget, "charge a day")
            .source("stored over used"),
        );
    }
    if sources::has_mains(site) {
        book.work(
            Subject::Mains,
            "a day",
            Working::new("charge stored from the mains on a day with it", "min(I * h / f, C * d)", out.mains_a_day)
                .with("I", "its current", site.mains.current)
                .with("h", "hours plugged in", sources::mains_hours(site))
                .with("f", "charge put in per charge stored", Figure::number(b.factor))
                .with("C", "capacity of the bank", bank.capacity)
                .with("d", "planned depth", planned_depth(site, chemistry))
                .source("charge = current x time, at most what the planned depth took"),
        );
    }
}
