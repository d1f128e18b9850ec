//! Every chemistry side by side.

use crate::catalogue::Chemistry;
use crate::engine::choose::battery::criteria::sizing;
use crate::engine::choose::charger::current_for;
use crate::engine::installation::Installation;
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::pair::is_pair;
use crate::engine::installation::place::coldest;
use crate::engine::installation::price::price_of_100ah;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::parts::battery::Bank;
use crate::engine::physics::cell::life::{LONG, calendar_life, cycle_life, years_of};
use crate::engine::physics::cell::recovery::hours_to;
use crate::engine::simulate::bank::Job;
use crate::engine::simulate::battery::{Candidate, suits, usable};
use crate::quantity::*;
use crate::reckon;

/// What a battery of each would be.
pub(crate) fn candidates(site: &Installation, notes: &mut Notes) -> Vec<Candidate> {
    let singles = site.catalogue.chemistries.iter().filter(|c| !is_pair(c));
    singles.map(|c| candidate(site, c, notes)).collect()
}

fn candidate(site: &Installation, chemistry: &Chemistry, notes: &mut Notes) -> Candidate {
    let sizing = sizing(site, chemistry, &mut Notes::unkept());
    let subject = Subject::Candidate(chemistry.key.clone());
    let chosen = site.service_battery.chemistry == chemistry.key;
    let needed = sizing.needed();
    notes.add(subject.clone(), "needed", || sizing.needed_working(false));
    let job = Job { site, chemistry, own: chosen, subject };
    let bank = if chosen { job.bank(needed, notes) } else { job.standard(needed, None, notes) };
    let depth = if chosen { planned_depth(site, chemistry) } else { chemistry.life.depth };
    let mut out = Candidate {
        chemistry: chemistry.key.clone(),
        name: chemistry.name.clone(),
        needed,
        ruling: sizing.ruling().map_or("", |c| c.by.name()),
        charges_cold: coldest(site).get() >= chemistry.limits.charge_min.get(),
        charge_min: chemistry.limits.charge_min,
        suits: suits(chemistry),
        chosen,
        ..Candidate::default()
    };
    let daily = match &bank {
        Some(bank) => Share::new((sizing.day.charge / bank.capacity).min(1.0)),
        None => sizing.depth,
    };
    years(&job, daily, &mut out, notes);
    if let Some(bank) = &bank {
        gives(&job, bank, depth, &mut out, notes);
        out.charger = current_for(site, chemistry, bank.capacity, &sizing.day);
        recharge(&job, bank, depth, sizing.day.driving_current, &mut out, notes);
        price(&job, bank, &mut out, notes);
    }
    out.bank = bank;
    out
}

fn years(job: &Job, daily: Share, out: &mut Candidate, notes: &mut Notes) {
    let (chemistry, subject) = (job.chemistry, &job.subject);
    let by_cycles = cycle_life(chemistry, daily, f64::from(job.site.service_battery.days_in_use));
    let words = |working: Working| {
        working
            .source(chemistry.life.from.cycles.words())
            .note(format!("daily depth: {daily}; 99 years stands for 'longer than anything else lasts'"))
    };
    out.years_cycles = match by_cycles {
        Some(years) => notes.reckon(subject, "years by cycles", years, |r| words(r.working("years by cycles alone"))),
        None => {
            notes.add(subject.clone(), "years by cycles", || words(Working::new("years by cycles alone", "", LONG)));
            LONG
        }
    };
    let both = years_of(out.years_cycles, calendar_life(chemistry, job.site.surroundings.mean));
    out.years = notes.reckon(subject, "years", both, |r| {
        r.working("years to end of life")
            .from("a", subject.clone(), "years by cycles")
            .source("wear by cycles and by calendar add up; common practice, no source")
            .note("approximation: cycle and calendar figures are themselves uncertain by a factor of two")
    });
}

fn gives(job: &Job, bank: &Bank, depth: Share, out: &mut Candidate, notes: &mut Notes) {
    let chemistry = job.chemistry;
    out.usable = notes.reckon(&job.subject, "usable energy", usable(chemistry, bank.capacity, depth), |r| {
        r.working("usable energy, new, 25 °C").source("energy = charge x voltage")
    });
    let takes = reckon!(Amps: c * C,
        c: "multiple of the capacity" = Figure::number(chemistry.charge.max_c),
        C: "capacity of the bank" = bank.capacity);
    out.charge_max = notes.reckon(&job.subject, "highest charge current", takes, |r| {
        r.working("highest charge current").source(chemistry.charge.from.max_c.words())
    });
}

/// Recharge time, with the loads that run while driving.
fn recharge(job: &Job, bank: &Bank, depth: Share, loads: Amps, out: &mut Candidate, notes: &mut Notes) {
    let (Some(amps), chemistry) = (out.charger, job.chemistry) else { return };
    let (catalogue, from) = (&job.site.catalogue, Share::FULL - depth);
    out.recharge = hours_to(catalogue, chemistry, bank.capacity, amps - loads, from, Share::new(0.9));
    if let Some(hours) = out.recharge {
        notes.add(job.subject.clone(), "recharge", || {
            Working::new("hours from the planned depth to 90 %", "", hours)
                .with("I", "charger's output, as given or as it would be chosen for this chemistry", amps)
                .with("d", "planned depth", depth)
                .source(format!("constant current, then falling to the tail; {}", chemistry.charge.falling_words()))
                .note("the loads that run while driving are taken off first")
        });
    }
}

/// What the bank costs by the user's price for 100 Ah of its chemistry.
fn price(job: &Job, bank: &Bank, out: &mut Candidate, notes: &mut Notes) {
    let subject = &job.subject;
    let Some(entered) = price_of_100ah(job.site, &job.chemistry.key) else { return };
    let total = reckon!(Money: p * C / 100.0, p: "for 100 Ah" = entered, C: "capacity of the bank" = bank.capacity);
    let total = notes.reckon(subject, "price", total, |r| r.working("price of the bank").source("your own prices"));
    out.price = Some(total);
    if out.years.get() > 0.0 {
        let a_year = reckon!(Money: P / y, P: "price of the bank" = total, y: "years to end of life" = out.years);
        out.price_a_year = Some(notes.reckon(subject, "price a year", a_year, |r| {
            r.working("price over the years it lasts")
                .from("P", subject.clone(), "price")
                .from("y", subject.clone(), "years")
                .source("your own prices; interest and dearer energy left out")
        }));
    }
}
