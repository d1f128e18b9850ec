//! Which charge current, what feeds it, how long to recover.
//!
//! The current lies between what puts the draw back in the time driven and
//! what battery and alternator bear; the smallest standard current that fits
//! is chosen. Recovery is constant current until the battery takes less, then
//! falling to the tail current. After the cables are sized, the input current
//! is solved again with the feed's own drop. Left out: alternators that get
//! hotter the longer they work; their hot figures are used throughout.

pub(crate) mod array_cable;

use crate::catalogue::{Chemical, Chemistry, Rule, cite};
use crate::engine::choose::charger::array_cable::array_cable;
use crate::engine::installation::Installation;
use crate::engine::installation::alternator::{spare_idle, spare_road};
use crate::engine::installation::battery::planned_depth;
use crate::engine::installation::charger::{charge_voltage, fixed_voltage, lowest_input};
use crate::engine::installation::place::coldest;
use crate::engine::installation::sources::{mains_a_day, solar_current, sun_hours};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::parts::charger::BoundBy;
use crate::engine::physics::cell::recovery::{charge_after, hours_to};
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::array::array;
use crate::engine::simulate::charger::balance::balance;
use crate::engine::simulate::charger::bounds::{Bounds, bounds};
use crate::engine::simulate::charger::feed::input_current;
use crate::engine::simulate::charger::parked::starts_for;
use crate::engine::simulate::charger::result::{ChargerDesign, Recovery};
use crate::engine::simulate::charger::rush::design_currents;
use crate::plan::ChargerKind;
use crate::quantity::*;
use crate::reckon;

/// The charge current of a plan with this chemistry and capacity: given, or chosen. `None` without a charger.
pub fn current_for(site: &Installation, chemistry: &Chemistry, capacity: AmpHours, day: &Budget) -> Option<Amps> {
    if site.charger.kind == ChargerKind::None {
        return None;
    }
    let bounds = || bounds(site, chemistry, capacity, day, &mut Notes::unkept());
    site.charger.current.or_else(|| bounds().choose(site))
}

/// Choose the charge current, and see what it and the other sources put back.
pub fn charge_current(site: &Installation, day: &Budget, battery: &BatteryDesign, notes: &mut Notes) -> ChargerDesign {
    let mut out = ChargerDesign { lowest_input: lowest_input(site), sun_hours: sun_hours(site), ..Default::default() };
    alternator(site, &mut out, notes);
    out.starts_for = starts_for(site, day, notes);
    let (Some(chemistry), Some(bank)) = (site.chemistry(), battery.bank.as_ref()) else {
        return out;
    };
    let bounds = bounds(site, chemistry, bank.capacity, day, notes);
    out.capacity = bank.capacity;
    voltages(site, chemistry, &mut out, notes);
    sun(site, chemistry, day, &bounds, &mut out, notes);
    out.array = array(site, chemistry.charge.absorption, notes);
    out.array_cable = array_cable(site, notes);
    out.mains_a_day = mains_a_day(site, chemistry, bank.capacity, notes);
    current(site, chemistry, &bounds, &mut out, notes);
    out.fed = bounds.of(BoundBy::OverTheDrive).map_or(out.steady, |most| out.steady.min(most));
    if out.current.is_some() {
        recovery(site, chemistry, &bounds, &mut out, notes);
        input(site, &mut out, notes);
    }
    out.balance = balance(site, day, &bounds, &out, notes);
    out.bounds = bounds;
    out
}

fn alternator(site: &Installation, out: &mut ChargerDesign, notes: &mut Notes) {
    let (vehicle, rules) = (&site.vehicle, &site.catalogue.rules);
    let mut spare = |name: &'static str, spare, given: Option<Share>, usual: &Rule<Share>| {
        notes.reckon(&Subject::Alternator, name, spare, |r| {
            let from = given.map_or_else(|| usual.from.words(), |_| "plan".into());
            r.working(format!("hot alternator: {name}")).source(from)
        })
    };
    out.spare_idle = spare("spare at idle", spare_idle(site), vehicle.idle_share, &rules.alternator_idle);
    out.spare_road = spare("spare on the road", spare_road(site), vehicle.road_share, &rules.alternator_road);
}

fn voltages(site: &Installation, chemistry: &Chemistry, out: &mut ChargerDesign, notes: &mut Notes) {
    out.output = charge_voltage(site, chemistry);
    let words = "highest charge voltage";
    out.output_highest = match fixed_voltage(site) {
        Some(fixed) => {
            let same = reckon!(Volts: V, V: "given, or the alternator's through the relay" = fixed);
            notes.reckon(&Subject::Charger, "highest voltage", same, |r| r.working(words).source("plan"))
        }
        None => {
            let charge = &chemistry.charge;
            let cold = reckon!(Volts: max(V, min(M, V + k * (T - 25.0))),
                V: "charge voltage at 25 °C" = out.output,
                M: "never above" = charge.max,
                k: "per kelvin" = Figure::new(charge.v_per_k, Unit::VoltPerKelvin),
                T: "coldest air" = coldest(site));
            notes.reckon(&Subject::Charger, "highest voltage", cold, |r| {
                r.working(words).source(cite([&charge.from.absorption, &charge.from.max, &charge.from.v_per_k]))
            })
        }
    };
}

fn sun(
    site: &Installation,
    chemistry: &Chemistry,
    day: &Budget,
    bounds: &Bounds,
    out: &mut ChargerDesign,
    notes: &mut Notes,
) {
    if site.solar.array.get() <= 0.0 {
        return;
    }
    let solar = Subject::Solar;
    notes.add(solar.clone(), "sun hours", || match site.solar.sun_hours {
        Some(given) => {
            Working::new("peak-sun hours of a usual day", "h", out.sun_hours).with("h", "given", given).source("plan")
        }
        None => Working::new("peak-sun hours of a usual day", "", out.sun_hours)
            .with("L", "latitude", site.surroundings.latitude)
            .with("t", "tilt", site.solar.tilt)
            .source(match site.solar.months {
                Some(_) => "clear sky by Haurwitz (1945), the darkest of the months given, times 0.55 for clouds",
                None => "clear sky by Haurwitz (1945), mean of twelve days of the year, times 0.55 for clouds",
            })
            .note("the cloud factor is common practice, no source; enter your own sun hours if you know them"),
    });
    let a_day = reckon!(AmpHours: I * h,
        I: "current at full sun" = solar_current(site, chemistry, notes), h: "peak-sun hours" = out.sun_hours);
    out.solar_a_day = notes.reckon(&solar, "a day", a_day, |r| {
        r.working("charge from the sun on a usual day")
            .from("I", solar.clone(), "current")
            .from("h", solar.clone(), "sun hours")
            .source("charge = current x time")
    });
    let stored = reckon!(AmpHours: Q / f,
        Q: "charge from the sun" = out.solar_a_day,
        f: "charge put in per charge stored" = Figure::number(bounds.factor));
    out.solar_stored = notes.reckon(&solar, "stored a day", stored, |r| {
        let coulombic = chemistry.charge.from.coulombic.words();
        r.working("charge that the sun of a usual day stores").from("Q", solar.clone(), "a day").source(match chemistry
            .chemical
        {
            Chemical::LeadAcid => {
                let overcharge = site.catalogue.rules.overcharge.from.words();
                format!("the larger of overcharge and efficiency: {overcharge}; {coulombic}")
            }
            _ => coulombic,
        })
    });
    if day.charge.get() > 0.0 {
        let share = reckon!(Share: Q / U, Q: "stored a day" = out.solar_stored, U: "charge used a day" = day.charge);
        out.solar_share = notes.reckon(&solar, "share of the need", share, |r| {
            r.working("share of the day's need that the sun brings")
                .from("Q", solar.clone(), "stored a day")
                .from("U", Subject::Budget, "charge a day")
                .source("stored over used")
        });
    }
}

fn current(site: &Installation, chemistry: &Chemistry, bounds: &Bounds, out: &mut ChargerDesign, notes: &mut Notes) {
    let chosen = || bounds.choose(site).unwrap_or(Amps::ZERO);
    match site.charger.kind {
        ChargerKind::None => {}
        // Cables are sized for what it may pass; the day is reckoned with what battery and hot alternator bear.
        ChargerKind::Relay => {
            out.steady = chosen();
            let (rush, current) = design_currents(site, chemistry, out.capacity, notes);
            (out.rush, out.current) = (rush, Some(current));
        }
        ChargerKind::DcDc => {
            out.steady = site.charger.current.unwrap_or_else(chosen);
            out.current = Some(out.steady);
            note_current(site, bounds, out.steady, notes);
        }
    }
}

/// A current is chosen, not worked out: between these bounds, of the sizes sold.
fn note_current(site: &Installation, bounds: &Bounds, current: Amps, notes: &mut Notes) {
    notes.add(Subject::Charger, "current", || {
        let mut working = Working::new("charger's output current", "", current).source(match site.charger.current {
            Some(_) => "given in the plan and checked against the bounds".into(),
            None => {
                let sold = site.catalogue.devices.chargers.from.sizes.words();
                format!("smallest size sold that reaches the lower bounds and keeps under the upper ones; {sold}")
            }
        });
        for bound in bounds.lowers().iter().chain(&bounds.upper) {
            let (symbol, words) = (bound.by.symbol(), bound.by.words());
            // Without driving there is nothing to work out.
            working = match bound.by {
                BoundBy::DaysDraw if bounds.hours <= Hours::ZERO => working.with(symbol, words, bound.amps),
                _ => working.with_from(symbol, words, bound.amps, Subject::Charger, bound.name()),
            };
        }
        match bounds.tightest() {
            Some(tightest) if bounds.lower().amps > tightest.amps => {
                working.note(format!("{} lies above {}: no current keeps both", bounds.lower().name(), tightest.name()))
            }
            _ => working,
        }
    });
}

fn recovery(site: &Installation, chemistry: &Chemistry, bounds: &Bounds, out: &mut ChargerDesign, notes: &mut Notes) {
    let capacity = out.capacity;
    let from = Share::FULL - planned_depth(site, chemistry);
    let net = out.fed - bounds.load;
    let falling = |working: Working| {
        working
            .with_from("C", "capacity of the bank", capacity, Subject::ServiceBattery, "capacity")
            .with("I", "charge current after the loads", net)
            .with("s", "charge at the planned depth", from)
            .with("f", "charge put in per charge stored", Figure::number(bounds.factor))
            .source(format!("constant current, then falling to the tail; {}", chemistry.charge.falling_words()))
            .note("approximation: what the battery takes is a straight line over its charge")
    };
    out.net = net.max(Amps::ZERO);
    let after = charge_after(&site.catalogue, chemistry, capacity, net, from, bounds.hours);
    out.a_day = capacity * (after - from).get();
    notes.add(Subject::Charger, "a day", || {
        falling(Working::new("charge put back on a day of driving", "", out.a_day))
            .with("h", "driving a day", bounds.hours)
            .with("m", "all that is missing at the planned depth, at most", capacity * (Share::FULL - from).get())
    });
    for to in [0.8, 0.9, 1.0].map(Share::new) {
        let hours = hours_to(&site.catalogue, chemistry, capacity, net, from, to);
        out.recovery.push(Recovery { to, hours });
        if let Some(hours) = hours {
            notes.add(Subject::Charger, format!("recovery to {to}"), || {
                falling(Working::new(format!("driving from the planned depth to {to}"), "", hours))
            });
        }
    }
}

/// The input current that the feed is sized for.
fn input(site: &Installation, out: &mut ChargerDesign, notes: &mut Notes) {
    let current = out.current.unwrap_or(Amps::ZERO);
    let words = "current to size the feed for";
    out.input_sizing = if site.charger.kind == ChargerKind::Relay {
        let same = reckon!(Amps: I, I: "charge current" = current);
        notes.reckon(&Subject::Charger, "input for sizing", same, |r| {
            r.working(words).from("I", Subject::Charger, "current").source("a relay takes what it passes")
        })
    } else {
        let input = input_current(out.output_highest, current, site.charger.efficiency, out.lowest_input);
        notes.reckon(&Subject::Charger, "input for sizing", input, |r| {
            let lowest = match site.charger.lowest_input {
                Some(_) => "as given".into(),
                None => site.catalogue.rules.charger_input_low.from.words(),
            };
            r.working(words)
                .from("V", Subject::Charger, "highest voltage")
                .from("I", Subject::Charger, "current")
                .source(format!("power balance; lowest input voltage: {lowest}"))
        })
    };
    out.input = out.input_sizing;
    out.input_voltage = out.lowest_input;
}
