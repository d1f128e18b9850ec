//! How each number of the budget came about.

use crate::engine::installation::Installation;
use crate::engine::installation::charger::standing_current;
use crate::engine::installation::load::{NOMINAL, efficiency};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::physics::network::load::Load as Law;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::budget::day::{DayDraw, only_driving};
use crate::engine::simulate::budget::peak::Peak;
use crate::plan::ChargerKind;
use crate::quantity::*;

const SOURCE: &str = "charge = current x time; definitions";

pub(crate) fn record(site: &Installation, day: &DayDraw, peak: &Peak, out: &Budget, book: &mut Book) {
    for i in 0..site.loads.len() {
        load(site, day, out, i, book);
    }
    totals(site, day, out, book);
    splits(site, out, book);
    currents(site, day, peak, out, book);
}

fn load(site: &Installation, day: &DayDraw, out: &Budget, i: usize, book: &mut Book) {
    let (load, l, b) = (&site.loads[i], &day.loads[i], &out.loads[i]);
    let subject = || Subject::Load(i);
    let minutes = Figure::new(f64::from(load.allowed.count()), Unit::Number);
    let hours = match load.hours_given {
        Some(h) if load.allowed.count() > 0 => {
            Working::new("hours a day switched on", "h", b.hours).with("h", "given in the plan", h)
        }
        _ => Working::new("hours a day switched on", "m / 60", b.hours).with("m", "minutes of its times", minutes),
    };
    book.work(subject(), "hours", hours.source("plan"));
    book.work(
        subject(),
        "share",
        load.thermostat
            .share(site.surroundings.mean)
            .working("share of the on-time it draws")
            .source("straight line through the two figures of the plan")
            .note("approximation: a thermostat's share is not quite straight over temperature"),
    );
    running(site, out, i, book);
    let starting = Working::new("current while one of it starts", "n * I + I * (t - 1)", b.starting)
        .with("n", "number of items", Figure::new(f64::from(load.count), Unit::Count))
        .with("I", "running current of one", load.running() * load.one())
        .with("t", "start in multiples of running", Figure::new(load.start.times.max(1.0), Unit::Times))
        .source("plan; one item starts while the others run");
    if load.count > 0 {
        book.work(subject(), "start current", starting);
    }
    charge(site, day, out, i, book);
    for (name, share, result, words) in [
        ("charge by night", l.night_share, b.by_night, "share of its times from 18:00 to 06:00"),
        ("charge by day", 1.0 - l.night_share, b.by_day, "share of its times from 06:00 to 18:00"),
        ("charge while driving", l.driving_share, b.driving, "share of its times with the engine running"),
        ("charge while parked", 1.0 - l.driving_share, b.parked, "share of its times with the engine off"),
    ] {
        book.work(
            subject(),
            name,
            Working::new(name, "Q * s", result)
                .with_from("Q", "charge a day", b.charge, subject(), "charge a day")
                .with("s", words, Share::new(share))
                .source(SOURCE),
        );
    }
}

fn running(site: &Installation, out: &Budget, i: usize, book: &mut Book) {
    let (load, b) = (&site.loads[i], &out.loads[i]);
    let count = Figure::number(f64::from(load.count));
    let power = load.label_power.unwrap_or(Watts::ZERO);
    let current = load.label_current.unwrap_or(Amps::ZERO);
    let by_current = (NOMINAL * current).get() >= power.get() && current.get() > 0.0;
    let mut working = match (by_current, load.inverter) {
        (false, false) => Working::new("running current at 12 V", "n * P / U", b.running),
        (false, true) => Working::new("running current at 12 V", "n * P / (e * U)", b.running),
        (true, false) => Working::new("running current at 12 V", "n * I", b.running),
        (true, true) => Working::new("running current at 12 V", "n * I / e", b.running),
    }
    .with("n", "number of items", count);
    working = if by_current {
        working.with("I", "current of one", current)
    } else {
        working.with("P", "power of one", power).with("U", "nominal voltage", NOMINAL)
    };
    if load.inverter {
        working = working.with("e", "inverter's efficiency", efficiency(&site.inverter));
        let with_idle = power * f64::from(load.count);
        let total = with_idle / efficiency(&site.inverter).get() + site.inverter.idle_draw;
        if total.get() > 0.0 {
            let net = Share::new(with_idle / total);
            working =
                working.note(format!("idle draw included, the inverter's efficiency with only this load is {net}"));
        }
    }
    if load.label_power.is_some() && load.label_current.is_some() {
        working = working.note("power and current are both given; the larger is used");
    }
    book.work(Subject::Load(i), "running current", working.source("I = P / U"));
}

fn charge(site: &Installation, day: &DayDraw, out: &Budget, i: usize, book: &mut Book) {
    let (load, l, b) = (&site.loads[i], &day.loads[i], &out.loads[i]);
    let subject = || Subject::Load(i);
    let (formula, words) = match load.law {
        Law::Power(_) => ("I * U / V * h * s", "constant power takes fewer amperes from a higher voltage"),
        Law::Current(_) => ("I * h * s", "constant current is the same at any voltage"),
        Law::Resistance { .. } => ("I * V / U * h * s", "a resistance takes more amperes from a higher voltage"),
    };
    let mut working = Working::new("charge a day, from the battery", formula, b.charge).with_from(
        "I",
        "running current at 12 V",
        b.running,
        subject(),
        "running current",
    );
    if !matches!(load.law, Law::Current(_)) {
        working = working.with("U", "nominal voltage", NOMINAL).with_from(
            "V",
            "battery's mean voltage over the planned depth",
            out.mean_voltage,
            Subject::Budget,
            "mean voltage",
        );
    }
    working = working
        .with_from("h", "hours a day switched on", b.hours, subject(), "hours")
        .with_from("s", "share of that time it draws", l.share, subject(), "share")
        .source(SOURCE)
        .note(words);
    book.work(subject(), "charge a day", working);
    book.work(
        subject(),
        "energy a day",
        Working::new("energy a day, from the battery", "Q * V", b.energy)
            .with_from("Q", "charge a day", b.charge, subject(), "charge a day")
            .with_from("V", "battery's mean voltage", out.mean_voltage, Subject::Budget, "mean voltage")
            .source("energy = charge x voltage"),
    );
}

/// Symbols for sums over loads.
const SYMBOLS: [&str; 24] = [
    "a1", "a2", "a3", "a4", "a5", "a6", "a7", "a8", "a9", "a10", "a11", "a12", "a13", "a14", "a15", "a16", "a17",
    "a18", "a19", "a20", "a21", "a22", "a23", "a24",
];
struct Term {
    words: String,
    value: Figure,
    from: Option<(Subject, &'static str)>,
}

/// A sum with a term for each thing; with more terms than symbols it is said in words.
fn sum(name: &'static str, result: impl Into<Figure>, terms: Vec<Term>) -> Working {
    let formula = if terms.len() > SYMBOLS.len() { String::new() } else { SYMBOLS[..terms.len()].join(" + ") };
    let many = terms.len() > SYMBOLS.len();
    let mut working = Working::new(name, formula, result);
    for (symbol, term) in SYMBOLS.iter().zip(terms) {
        working = match term.from {
            Some((subject, number)) => working.with_from(symbol, term.words, term.value, subject, number),
            None => working.with(symbol, term.words, term.value),
        };
    }
    if many { working.note("the sum of all loads; only the first 24 are listed") } else { working }
}

fn totals(site: &Installation, day: &DayDraw, out: &Budget, book: &mut Book) {
    let subject = || Subject::Budget;
    book.work(
        subject(),
        "mean voltage",
        Working::new("battery's mean resting voltage over the planned depth", "", out.mean_voltage)
            .source("area under the chemistry's resting curve over the depth; see the battery's working")
            .note("approximation: the sag by internal resistance, a few tenths of a volt at most, is left out"),
    );
    let charger = if site.charger.kind == ChargerKind::None { Amps::ZERO } else { site.charger.standing_draw };
    book.work(
        subject(),
        "standing",
        Working::new("standing draws a day", "(a + b) * 24", out.standing)
            .with("a", "charger, while off", charger)
            .with("b", "cut-off", site.cut_off.standing_draw)
            .source(SOURCE),
    );
    if site.inverter.rating.get() > 0.0 {
        book.work(
            subject(),
            "inverter idle",
            Working::new("inverter's idle draw a day", "P * h / V", out.inverter_idle)
                .with("P", "idle draw", site.inverter.idle_draw)
                .with(
                    "h",
                    "hours a day on: its own, or the longest AC load's",
                    crate::engine::simulate::budget::day::inverter_hours(site),
                )
                .with_from("V", "battery's mean voltage", out.mean_voltage, subject(), "mean voltage")
                .source("charge = power x time / voltage"),
        );
    }
    let mut terms: Vec<Term> = site
        .loads
        .iter()
        .zip(&out.loads)
        .enumerate()
        .map(|(i, (l, b))| Term {
            words: l.name.clone(),
            value: b.charge.into(),
            from: Some((Subject::Load(i), "charge a day")),
        })
        .collect();
    terms.push(Term {
        words: "standing draws".into(),
        value: out.standing.into(),
        from: Some((subject(), "standing")),
    });
    terms.push(Term { words: "inverter's idle draw".into(), value: out.inverter_idle.into(), from: None });
    book.work(subject(), "charge a day", sum("charge a day", out.charge, terms).source("sum over all loads"));
    book.work(
        subject(),
        "energy a day",
        Working::new("energy a day", "Q * V", out.energy)
            .with_from("Q", "charge a day", out.charge, subject(), "charge a day")
            .with_from("V", "battery's mean voltage", out.mean_voltage, subject(), "mean voltage")
            .source("energy = charge x voltage"),
    );
    let only = only_driving(site, &day.loads);
    book.work(
        subject(),
        "charge of a standing day",
        Working::new("charge of a day without driving", "Q - D", out.standing_day)
            .with_from("Q", "charge a day", out.charge, subject(), "charge a day")
            .with("D", "loads that run only while driving", only)
            .source("what runs only with the engine does not draw on days without it"),
    );
    for (name, what, air, result) in [
        (
            "charge of a summer day",
            "mean air of the warmest month",
            crate::engine::installation::climate::summer_air(&site.surroundings),
            out.summer_day,
        ),
        (
            "charge of a hot day",
            "mean air of the hottest day",
            crate::engine::installation::climate::hot_air(&site.surroundings),
            out.hot_day,
        ),
    ] {
        let working = Working::new(format!("{name}, without driving"), "", result)
            .with("T", what, air)
            .source("the budget with each thermostat's share at that air")
            .note("endurance follows the air of each hour");
        book.work(subject(), name, working);
    }
}

fn splits(site: &Installation, out: &Budget, book: &mut Book) {
    let steady = out.standing + out.inverter_idle;
    let driving = crate::engine::installation::minutes::driving_minutes(&site.vehicle);
    let driving_share = Share::new(f64::from(driving.count()) / 1440.0);
    let half = Share::new(0.5);
    let loads =
        |f: fn(&crate::engine::simulate::budget::LoadBudget) -> AmpHours| out.loads.iter().map(f).sum::<AmpHours>();
    for (name, sum, share, result) in [
        ("charge by night", loads(|l| l.by_night), half, out.by_night),
        ("charge by day", loads(|l| l.by_day), half, out.by_day),
        ("charge while driving", loads(|l| l.driving), driving_share, out.driving),
        ("charge while parked", loads(|l| l.parked), Share::FULL - driving_share, out.parked),
    ] {
        book.work(
            Subject::Budget,
            name,
            Working::new(name, "L + S * s", result)
                .with("L", "sum over the loads", sum)
                .with("S", "standing draws and inverter's idle draw a day", steady)
                .with("s", "share of the day", share)
                .source(SOURCE),
        );
    }
}

fn currents(site: &Installation, day: &DayDraw, peak: &Peak, out: &Budget, book: &mut Book) {
    let subject = || Subject::Budget;
    let mut terms: Vec<Term> = peak
        .counted
        .iter()
        .map(|&i| Term {
            words: site.loads[i].name.clone(),
            value: out.loads[i].running.into(),
            from: Some((Subject::Load(i), "running current")),
        })
        .collect();
    terms.push(Term { words: "inverter's idle draw at 12 V".into(), value: peak.idle.into(), from: None });
    let mut steady = sum("current of all that can be on together, at 12 V", out.peak, terms)
        .source("sum of running currents; of loads that exclude each other only the largest")
        .note("times of day do not count here: everything may be turned on at once");
    let left_out = site.loads.len() - peak.counted.len();
    if left_out > 0 {
        steady = steady.note(format!("left out because others exclude them: {left_out}"));
    }
    book.work(subject(), "peak current", steady);
    book.work(
        subject(),
        "surge current",
        Working::new("worst start on top of the rest, at 12 V", "R + A", out.surge)
            .with("R", "all that can be on together with it", peak.rest)
            .with("A", "what its start adds", peak.added)
            .source("one start at a time")
            .note(match peak.surge_load {
                Some(i) => format!("worst start: {}", site.loads[i].name),
                None => "no load has a start surge".into(),
            }),
    );
    book.work(
        subject(),
        "usual current",
        Working::new("usual current when the cut-off may act", "", out.usual)
            .source("charge while parked by night (18:00 to 06:00) or by day over that time, the larger; standing draws included"),
    );
    book.work(
        subject(),
        "light current",
        Working::new("light current", "S + I", out.light)
            .with("S", "standing draws", standing_current(site))
            .with("I", "smallest load while it draws", out.light - standing_current(site))
            .source("least that flows with something on"),
    );
    let mean = out.charge / Hours::new(24.0);
    book.work(
        subject(),
        "rate current",
        Working::new("current at which the average ampere-hour is drawn", "m + r", out.at_rate)
            .with("m", "mean current of the day", mean)
            .with("r", "spread of the loads: sum of p (1 - p) I² over the mean", out.at_rate - mean)
            .source("mean of I² over mean of I for loads that go on and off independently")
            .note(format!("from {} loads; p is each load's share of the day", day.loads.len())),
    );
}
