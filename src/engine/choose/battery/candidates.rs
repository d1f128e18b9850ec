//! Every chemistry side by side.

use crate::catalogue::Chemistry;
use crate::engine::choose::battery::criteria::{Sizing, sizing};
use crate::engine::choose::charger::current_for;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::life::{calendar_life, cycle_life, years_of};
use crate::engine::physics::cell::recovery::hours_to;
use crate::engine::physics::cell::store::mean_voltage;
use crate::engine::simulate::bank;
use crate::engine::simulate::battery::{Candidate, suits};
use crate::quantity::*;

pub(crate) fn candidates(site: &Installation, book: &mut Book) -> Vec<Candidate> {
    site.catalogue.chemistries.iter().map(|c| candidate(site, c, book)).collect()
}

fn candidate(site: &Installation, chemistry: &Chemistry, book: &mut Book) -> Candidate {
    let sizing = sizing(site, chemistry);
    let chosen = site.service_battery.chemistry == chemistry.key;
    let needed = sizing.needed();
    let bank =
        if chosen { bank::bank(site, chemistry, needed) } else { bank::standard(site, chemistry, needed, None, false) };
    let daily = daily_depth(&sizing, bank.as_ref());
    let years_cycles = cycle_life(chemistry, daily, f64::from(site.service_battery.days_in_use));
    let calendar = calendar_life(chemistry, site.surroundings.mean);
    let depth = if chosen { planned_depth(site, chemistry) } else { chemistry.life.depth };
    let charger = bank.as_ref().and_then(|b| current_for(site, chemistry, b.capacity, &sizing.day));
    let recharge = match (&bank, charger) {
        (Some(bank), Some(amps)) => {
            let from = Share::FULL - depth;
            let loads = sizing.day.driving_current;
            hours_to(&site.catalogue, chemistry, bank.capacity, amps - loads, from, Share::new(0.9))
        }
        _ => None,
    };
    let capacity = bank.as_ref().map_or(AmpHours::ZERO, |b| b.capacity);
    let years = years_of(years_cycles, calendar);
    let price = price(site, chemistry).map(|p| Money::new(p.get() * capacity.get() / 100.0));
    let out = Candidate {
        chemistry: chemistry.key.clone(),
        name: chemistry.name.clone(),
        needed,
        ruling: sizing.criteria.get(sizing.ruling()).map_or("", |c| c.name),
        usable: capacity * depth.get() * mean_voltage(chemistry, depth),
        years,
        years_cycles,
        charges_cold: site.service_battery.heated
            || site.surroundings.coldest.get() >= chemistry.limits.charge_min.get(),
        charge_min: chemistry.limits.charge_min,
        recharge,
        charger,
        charge_max: Amps::new(chemistry.charge.max_c * capacity.get()),
        price: price.filter(|_| bank.is_some()),
        price_a_year: price.filter(|_| bank.is_some() && years.get() > 0.0).map(|p| Money::new(p.get() / years.get())),
        suits: suits(chemistry),
        chosen,
        bank,
    };
    record(site, chemistry, &sizing, &out, daily, calendar, depth, book);
    out
}

/// The user's price for 100 Ah of a chemistry; the last one entered counts.
fn price(site: &Installation, chemistry: &Chemistry) -> Option<Money> {
    site.prices.iter().rev().find(|p| p.chemistry == chemistry.key).map(|p| p.per_100ah)
}

fn daily_depth(sizing: &Sizing, bank: Option<&Bank>) -> Share {
    match bank {
        Some(b) if b.capacity.get() > 0.0 => Share::new((sizing.day.charge / b.capacity).min(1.0)),
        _ => sizing.depth,
    }
}

#[allow(clippy::too_many_arguments)]
fn record(
    site: &Installation,
    chemistry: &Chemistry,
    s: &Sizing,
    out: &Candidate,
    daily: Share,
    calendar: Years,
    depth: Share,
    book: &mut Book,
) {
    let subject = || Subject::Candidate(chemistry.key.clone());
    let mut needed = Working::new("capacity needed", "", out.needed).source("the biggest of the criteria");
    for c in &s.criteria {
        needed = needed.with("C", c.name, c.needed);
    }
    book.work(subject(), "needed", needed.note(format!("ruling: {}", out.ruling)));
    if let Some(bank) = &out.bank {
        book.work(
            subject(),
            "usable energy",
            Working::new("usable energy, new, 25 °C", "C * d * V", out.usable)
                .with("C", "capacity of the bank", bank.capacity)
                .with("d", "depth of discharge", depth)
                .with("V", "mean resting voltage over that depth", mean_voltage(chemistry, depth))
                .source("energy = charge x voltage"),
        );
        let mass = match site.service_battery.mass.filter(|_| out.chosen) {
            Some(given) => Working::new("mass of the bank", "m", bank.mass).with("m", "given", given).source("plan"),
            None => Working::new("mass of the bank", "m * C / 100", bank.mass)
                .with("m", "mass of a 100 Ah block", chemistry.blocks.mass_100ah)
                .with("C", "capacity of the bank", bank.capacity)
                .source(chemistry.blocks.from.mass_100ah.words()),
        };
        book.work(subject(), "mass", mass);
        book.work(
            subject(),
            "highest charge current",
            Working::new("highest charge current", "c * C", out.charge_max)
                .with("c", "multiple of the capacity", Figure::number(chemistry.charge.max_c))
                .with("C", "capacity of the bank", bank.capacity)
                .source(chemistry.charge.from.max_c.words()),
        );
    }
    record_choice(site, chemistry, out, depth, book);
    let cycles = chemistry.life.cycles.at(daily).map_or(0.0, CycleCount::get);
    let days = f64::from(site.service_battery.days_in_use);
    let by_cycles = if days > 0.0 && daily.get() > 0.0 { "min(99, n / d)" } else { "" };
    book.work(
        subject(),
        "years by cycles",
        Working::new("years by cycles alone", by_cycles, out.years_cycles)
            .with("n", format!("cycles at a daily depth of {daily}"), Figure::new(cycles, Unit::Cycle))
            .with("d", "days in use a year", Figure::number(days))
            .source(chemistry.life.from.cycles.words())
            .note("99 years stands for 'longer than anything else lasts'"),
    );
    book.work(
        subject(),
        "years",
        Working::new("years to end of life", "a * b / (a + b)", out.years)
            .with_from("a", "years by cycles", out.years_cycles, subject(), "years by cycles")
            .with("b", "years by calendar at the mean air", calendar)
            .source("wear by cycles and by calendar add up; common practice, no source")
            .note("approximation: cycle and calendar figures are themselves uncertain by a factor of two"),
    );
}

/// Recharge time and price.
fn record_choice(site: &Installation, chemistry: &Chemistry, out: &Candidate, depth: Share, book: &mut Book) {
    let subject = || Subject::Candidate(chemistry.key.clone());
    if let (Some(hours), Some(amps)) = (out.recharge, out.charger) {
        book.work(
            subject(),
            "recharge",
            Working::new("hours from the planned depth to 90 %", "", hours)
                .with("I", "charger's output, as given or as it would be chosen for this chemistry", amps)
                .with("d", "planned depth", depth)
                .source(format!("constant current, then falling to the tail; {}", chemistry.charge.falling_words()))
                .note("the loads that run while driving are taken off first"),
        );
    }
    let (Some(total), Some(each), Some(bank)) = (out.price, price(site, chemistry), &out.bank) else { return };
    book.work(
        subject(),
        "price",
        Working::new("price of the bank", "p * C / 100", total)
            .with("p", "for 100 Ah", each)
            .with("C", "capacity of the bank", bank.capacity)
            .source("your own prices"),
    );
    if let Some(a_year) = out.price_a_year {
        book.work(
            subject(),
            "price a year",
            Working::new("price over the years it lasts", "P / y", a_year)
                .with_from("P", "price of the bank", total, subject(), "price")
                .with_from("y", "years to end of life", out.years, subject(), "years")
                .source("your own prices; interest and dearer energy left out"),
        );
    }
}
