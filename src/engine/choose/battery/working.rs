//! How each number of the battery came about.

use crate::catalogue::Chemistry;
use crate::engine::choose::battery::criteria::Sizing;
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::physics::cell::store::mean_voltage;
use crate::engine::simulate::battery::{BatteryDesign, Criterion, INVERTER, SUMMER};
use crate::engine::simulate::budget::Budget;
use crate::quantity::*;

const S: Subject = Subject::ServiceBattery;

pub(crate) fn record(
    site: &Installation,
    chemistry: &Chemistry,
    budget: &Budget,
    s: &Sizing,
    out: &BatteryDesign,
    book: &mut Book,
) {
    basics(site, chemistry, s, book);
    energy(site, budget, s, out, book);
    summer(site, budget, s, out, book);
    rates(chemistry, budget, s, out, book);
    short_load(chemistry, s, out, book);
    let ruling = out.criteria.get(out.ruling).map_or("", |c| c.name);
    let mut needed = Working::new("capacity needed", "", out.needed).source("the biggest of the criteria");
    for c in &out.criteria {
        needed = needed.with_from("C", c.name, c.needed, S, c.name);
    }
    book.work(S, "needed", needed.note(format!("ruling: {ruling}")));
    bank(site, chemistry, budget, s, out, book);
}

fn basics(site: &Installation, chemistry: &Chemistry, s: &Sizing, book: &mut Book) {
    let wanted = site.service_battery.depth.unwrap_or(chemistry.life.depth);
    book.work(
        S,
        "depth",
        Working::new("depth of discharge planned with", "min(d, 1 - r)", s.depth)
            .with("d", "wanted depth", wanted)
            .with("r", "reserve kept by the cut-off", s.reserve)
            .source(if site.service_battery.depth.is_some() {
                "plan".into()
            } else {
                chemistry.life.from.depth.words()
            }),
    );
    book.work(
        S,
        "mean voltage",
        Working::new("mean resting voltage over the depth, 25 °C", "", s.mean)
            .with("d", "depth", s.depth)
            .source(format!("area under the resting curve; {}", chemistry.resting.words())),
    );
    book.work(
        S,
        "cold factor",
        Working::new("share of the capacity left at the coldest", "", s.cold)
            .with("T", "coldest air", site.surroundings.coldest)
            .source(chemistry.cold.from.capacity.words()),
    );
}

/// A working that begins with the charge drawn over the days without charge, `Q * t`.
fn days_of_use(
    title: &'static str,
    formula: &'static str,
    result: impl Into<Figure>,
    site: &Installation,
    budget: &Budget,
) -> Working {
    let day = "charge of a standing day";
    Working::new(title, formula, result)
        .with_from("Q", "charge of a day without driving", budget.standing_day, Subject::Budget, day)
        .with("t", "days without charge", site.service_battery.days_without_charge)
}

fn energy(site: &Installation, budget: &Budget, s: &Sizing, out: &BatteryDesign, book: &mut Book) {
    let Some(c) = out.criteria.iter().find(|c| c.name == "days without charge") else { return };
    book.work(
        S,
        c.name,
        days_of_use("capacity for the days without charge", "Q * t / (d * c * e) * m", c.needed, site, budget)
            .with_from("d", "depth of discharge", s.depth, S, "depth")
            .with_from("c", "share left at the coldest", s.cold, S, "cold factor")
            .with("e", "share left at end of life", s.end_of_life)
            .with("m", "design margin", Figure::new(site.service_battery.design_margin, Unit::Times))
            .source("method of IEEE Std 1013 and SAND87-7023; factors as in IEEE Std 485")
            .note("the methods are described from memory of the standards; factors have their own sources"),
    );
}

/// The same for the warmest month, where it asks for more charge.
fn summer(site: &Installation, budget: &Budget, s: &Sizing, out: &BatteryDesign, book: &mut Book) {
    let Some(c) = out.criteria.iter().find(|c| c.name == SUMMER) else { return };
    let day = "charge of a summer day";
    let margin = Figure::new(site.service_battery.design_margin, Unit::Times);
    let working =
        Working::new("capacity for the days without charge, warmest month", "Q * t / (d * c * e) * m", c.needed)
            .with_from("Q", "charge of a day without driving, warmest month", budget.summer_day, Subject::Budget, day)
            .with("t", "days without charge", site.service_battery.days_without_charge)
            .with_from("d", "depth of discharge", s.depth, S, "depth")
            .with("c", "share left at that air", s.summer)
            .with("e", "share left at end of life", s.end_of_life)
            .with("m", "design margin", margin)
            .source("as for the days without charge, with each thermostat's share in the warmest month");
    book.work(S, c.name, working);
}

fn rates(chemistry: &Chemistry, budget: &Budget, s: &Sizing, out: &BatteryDesign, book: &mut Book) {
    let days = |c: &&Criterion| c.name == "days without charge" || c.name == SUMMER;
    let days = out.criteria.iter().filter(days).max_by(|a, b| a.needed.get().total_cmp(&b.needed.get()));
    let (energy, energy_name) = days.map_or((AmpHours::ZERO, ""), |c| (c.needed, c.name));
    for c in &out.criteria {
        let working = match c.name {
            "rate" => {
                let formula = if s.day.at_rate.get() > 0.0 && energy.get() > 0.0 {
                    "max(C, (C * (H * I)^(k - 1))^(1 / k))"
                } else {
                    "C"
                };
                let mut w = Working::new("capacity that gives this at the rate it is drawn", formula, c.needed)
                    .with_from("C", "capacity for the days without charge", energy, S, energy_name);
                if s.day.at_rate.get() > 0.0 && energy.get() > 0.0 {
                    w = w
                        .with("H", "rated hours", chemistry.rate.rated)
                        .with_from(
                            "I",
                            "current at which the average ampere-hour is drawn",
                            budget.at_rate,
                            Subject::Budget,
                            "rate current",
                        )
                        .with("k", "Peukert's exponent", Figure::number(chemistry.rate.peukert));
                }
                w.source(format!("Peukert's law from a rated pair; {}", chemistry.rate.from.peukert.words()))
                    .note("never less than without it; the endurance simulation uses the kinetic battery model instead")
            }
            "discharge current" => Working::new("capacity that bears all loads together", "I / c", c.needed)
                .with_from("I", "all that can be on together", s.peak, Subject::Budget, "peak current")
                .with(
                    "c",
                    "highest continuous discharge, multiple of the capacity",
                    Figure::number(chemistry.rate.max_c.max(0.001)),
                )
                .source(chemistry.rate.from.max_c.words()),
            INVERTER => Working::new("capacity that bears the inverter at its rating", "I / c", c.needed)
                .with("I", "all that can be on together, and the rest of the inverter's rating", s.inverter_full)
                .with(
                    "c",
                    "highest continuous discharge, multiple of the capacity",
                    Figure::number(chemistry.rate.max_c.max(0.001)),
                )
                .source(chemistry.rate.from.max_c.words()),
            "start current" => Working::new("capacity that bears the worst start", "I / c", c.needed)
                .with_from("I", "worst start on top of the rest", s.surge, Subject::Budget, "surge current")
                .with(
                    "c",
                    "highest short discharge, multiple of the capacity",
                    Figure::number(chemistry.rate.max_short_c.max(0.001)),
                )
                .source(chemistry.rate.from.max_short_c.words()),
            "charge current" => Working::new("capacity that takes the charge current given", "I / c", c.needed)
                .with("I", "chargers given in the plan, and the sun", s.charge)
                .with(
                    "c",
                    "highest charge, multiple of the capacity",
                    Figure::number(chemistry.charge.max_c.max(0.001)),
                )
                .source(chemistry.charge.from.max_c.words()),
            _ => continue,
        };
        book.work(S, c.name, working);
    }
}

fn short_load(chemistry: &Chemistry, s: &Sizing, out: &BatteryDesign, book: &mut Book) {
    let Some(c) = out.criteria.iter().find(|c| c.name == "short load") else { return };
    book.work(
        S,
        c.name,
        Working::new("capacity that keeps the voltage up in the worst start", "100 * I * R / (V - F)", c.needed)
            .with_from("I", "worst start on top of the rest", s.surge, Subject::Budget, "surge current")
            .with(
                "R",
                "resistance of a 100 Ah block: at the reserve, coldest, aged",
                Figure::new(s.resistance_100.get(), Unit::Ohm),
            )
            .with("V", "resting voltage at the reserve, coldest", s.resting)
            .with("F", "lowest voltage allowed", s.floor)
            .source(format!("Ohm's law; {}", chemistry.resistance.words(None, true))),
    );
}

fn bank(site: &Installation, chemistry: &Chemistry, budget: &Budget, s: &Sizing, out: &BatteryDesign, book: &mut Book) {
    let Some(bank) = &out.bank else { return };
    let capacity = match site.service_battery.capacity {
        Some(_) => {
            Working::new("capacity of the bank", "C", bank.capacity).with("C", "given", bank.capacity).source("plan")
        }
        None => Working::new("capacity of the bank", "n * B", bank.capacity)
            .with("n", "blocks in parallel", Figure::number(f64::from(bank.blocks)))
            .with("B", "smallest block sold that is enough", bank.block)
            .source(chemistry.blocks.from.sizes.words()),
    };
    book.work(S, "capacity", capacity);
    book.work(
        S,
        "usable energy",
        Working::new("usable energy, new, 25 °C", "C * d * V", out.usable)
            .with_from("C", "capacity of the bank", bank.capacity, S, "capacity")
            .with_from("d", "depth of discharge", out.depth, S, "depth")
            .with("V", "mean resting voltage over that depth", mean_voltage(chemistry, out.depth))
            .source("energy = charge x voltage"),
    );
    book.work(
        S,
        "depth reached",
        days_of_use(
            "depth after the days without charge, coldest, at end of life",
            "Q * t / (C * c * e)",
            out.depth_reached,
            site,
            budget,
        )
        .with_from("C", "capacity of the bank", bank.capacity, S, "capacity")
        .with_from("c", "share left at the coldest", s.cold, S, "cold factor")
        .with("e", "share left at end of life", s.end_of_life)
        .source("the method of sizing turned round"),
    );
    mass_and_resistance(site, chemistry, out, book);
}

fn mass_and_resistance(site: &Installation, chemistry: &Chemistry, out: &BatteryDesign, book: &mut Book) {
    let Some(bank) = &out.bank else { return };
    let mass = match site.service_battery.mass {
        Some(given) => Working::new("mass of the bank", "m", bank.mass).with("m", "given", given).source("plan"),
        None => Working::new("mass of the bank", "m * C / 100", bank.mass)
            .with("m", "mass of a 100 Ah block", chemistry.blocks.mass_100ah)
            .with_from("C", "capacity of the bank", bank.capacity, S, "capacity")
            .source(chemistry.blocks.from.mass_100ah.words()),
    };
    book.work(S, "mass", mass);
    let resistance = match site.service_battery.resistance_mohm {
        Some(given) => Working::new("working internal resistance", "m / 1000", bank.resistance)
            .with("m", "measured", given)
            .source("plan"),
        None => Working::new("working internal resistance", "m / 1000 * 100 / C", bank.resistance)
            .with("m", "of a 100 Ah block", Figure::new(chemistry.resistance.working_mohm, Unit::Milliohm))
            .with_from("C", "capacity of the bank", bank.capacity, S, "capacity")
            .source(chemistry.resistance.from.working_mohm.words()),
    };
    book.work(S, "resistance", resistance);
    let factor = if bank.resistance.get() > 0.0 { bank.resistance_worst / bank.resistance } else { 1.0 };
    book.work(
        S,
        "worst resistance",
        Working::new("internal resistance at the reserve, coldest, aged", "R * k", bank.resistance_worst)
            .with_from("R", "working internal resistance", bank.resistance, S, "resistance")
            .with("k", "factors of charge, temperature and age together", Figure::number(factor))
            .source(chemistry.resistance.words(site.service_battery.resistance_mohm, true)),
    );
    let fault = Working::new(
        "least internal resistance, for fault currents",
        "min(R, m / 1000 * 100 / C)",
        bank.resistance_fault,
    )
    .with_from("R", "working internal resistance", bank.resistance, S, "resistance")
    .with("m", "of a 100 Ah block, full, warm", Figure::new(chemistry.resistance.fault_mohm, Unit::Milliohm))
    .with_from("C", "capacity of the bank", bank.capacity, S, "capacity")
    .source(chemistry.resistance.from.fault_mohm.words());
    book.work(S, "fault resistance", fault);
    if bank.resistance_fault.get() > 0.0 {
        book.work(
            S,
            "fault current",
            Working::new("short-circuit current at the posts", "V / R", bank.fault)
                .with("V", "resting voltage, full, hottest", bank.fault * bank.resistance_fault)
                .with_from("R", "least internal resistance", bank.resistance_fault, S, "fault resistance")
                .source("Ohm's law"),
        );
    }
}
