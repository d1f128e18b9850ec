//! What does one load take on a usual day?

use crate::engine::installation::Installation;
use crate::engine::installation::load::{Load, NOMINAL, efficiency};
use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::physics::network::load::Load as Law;
use crate::quantity::*;
use crate::reckon;

/// Where charge comes from.
pub(super) const SOURCE: &str = "charge = current x time; definitions";

/// The budget of one load, all its items together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LoadBudget {
    /// Hours a day switched on.
    pub hours: Hours,
    /// Share of that time it draws, at the mean air.
    pub share: Share,
    /// Current at 12 V while it draws, taken from the 12 V side, through the inverter if AC.
    pub running: Amps,
    /// The same at the battery's mean voltage.
    pub at_battery: Amps,
    /// Highest current while one of its items starts and the others run; the running current if it has no surge.
    pub starting: Amps,
    /// Charge a day.
    pub charge: AmpHours,
    /// Energy a day, taken from the battery.
    pub energy: WattHours,
    /// Charge by day (06:00 to 18:00).
    pub by_day: AmpHours,
    /// Charge by night.
    pub by_night: AmpHours,
    /// Charge while driving.
    pub driving: AmpHours,
    /// Charge while parked.
    pub parked: AmpHours,
}

/// The budget of a load when the battery's mean voltage is `mean`.
pub(super) fn load_budget(site: &Installation, index: usize, mean: Volts, notes: &mut Notes) -> LoadBudget {
    let (load, subject) = (&site.loads[index], Subject::Load(index));
    let mut out = LoadBudget { running: load.running(), at_battery: load.law.current(mean), ..LoadBudget::default() };
    notes.add(subject.clone(), "hours", || hours(load));
    out.hours = load.hours;
    out.share = notes.reckon(&subject, "share", load.thermostat.share(site.surroundings.mean), |r| {
        r.working("share of the on-time it draws")
            .source("straight line through the two figures of the plan")
            .note("approximation: a thermostat's share is not quite straight over temperature")
    });
    notes.add(subject.clone(), "power", || power(load));
    notes.add(subject.clone(), "running current", || running(site, load, subject.clone()));
    notes.add(subject.clone(), "battery current", || at_battery(load, &out, mean, subject.clone()));
    let start = reckon!(Amps: n * I + I * (t - 1.0),
        n: "number of items" = Figure::new(f64::from(load.count), Unit::Count),
        I: "running current of one" = out.running * load.one(),
        t: "start in multiples of running" = Figure::new(load.start.times.max(1.0), Unit::Times));
    out.starting = notes.reckon(&subject, "start current", start, |r| {
        r.working("current while one of it starts").source("plan; one item starts while the others run")
    });
    let charge = reckon!(AmpHours: I * h * s,
        I: "current from the battery while on" = out.at_battery,
        h: "hours a day switched on" = out.hours,
        s: "share of that time it draws" = out.share);
    let seldom = load.often < Share::FULL;
    let name = if seldom { "charge on its days" } else { "charge a day" };
    out.charge = notes.reckon(&subject, name, charge, |r| {
        r.working(format!("{name}, from the battery"))
            .from("I", subject.clone(), "battery current")
            .from("h", subject.clone(), "hours")
            .from("s", subject.clone(), "share")
            .source(SOURCE)
    });
    if seldom {
        let charge = reckon!(AmpHours: Q * f,
            Q: "charge on its days" = out.charge,
            f: "on so many of the days without charge at most" = load.often);
        out.charge = notes.reckon(&subject, "charge a day", charge, |r| {
            r.working("charge a day, over the days without charge")
                .from("Q", subject.clone(), "charge on its days")
                .source("its days in the hardest of the stretches without charge")
        });
    }
    let energy = reckon!(WattHours: Q * V, Q: "charge a day" = out.charge, V: "battery's mean voltage" = mean);
    out.energy = notes.reckon(&subject, "energy a day", energy, |r| {
        r.working("energy a day, from the battery")
            .from("Q", subject.clone(), "charge a day")
            .from("V", Subject::Budget, "mean voltage")
            .source("energy = charge x voltage")
    });
    let mut part = |name: &'static str, share: f64| {
        let part =
            reckon!(AmpHours: Q * s, Q: "charge a day" = out.charge, s: "share of its times" = Share::new(share));
        notes
            .reckon(&subject, name, part, |r| r.working(name).from("Q", subject.clone(), "charge a day").source(SOURCE))
    };
    let (night, driving) = (load.allowed.share_in(&Minutes::NIGHT), load.allowed.share_in(&site.driving));
    out.by_night = part("charge by night", night);
    out.by_day = part("charge by day", 1.0 - night);
    out.driving = part("charge while driving", driving);
    out.parked = part("charge while parked", 1.0 - driving);
    out
}

fn hours(load: &Load) -> Working {
    let name = "hours a day switched on";
    let working = match load.hours_given.filter(|_| load.allowed.count() > 0) {
        Some(given) => Working::new(name, "h", load.hours).with("h", "given in the plan", given),
        None => load.hours_allowed().working(name),
    };
    working.source("plan")
}

fn power(load: &Load) -> Working {
    let working = load.label().working("power of all its items at 12 V").source("its label; P = U x I");
    match (load.label_power, load.label_current) {
        (Some(_), Some(_)) => working.note("power and current are both given; the larger is used"),
        _ => working,
    }
}

fn running(site: &Installation, load: &Load, subject: Subject) -> Working {
    let name = "running current at 12 V";
    let of = |formula| {
        let working = Working::new(name, formula, load.running());
        working.with_from("P", "power of all items", load.power, subject, "power").with(
            "U",
            "nominal voltage",
            load.nominal,
        )
    };
    if !load.inverter {
        return of("P / U").source("I = P / U");
    }
    let total = load.power / efficiency(&site.inverter).get() + site.inverter.idle_draw;
    let working = of("P / (e * U)").with("e", "inverter's efficiency", efficiency(&site.inverter)).source("I = P / U");
    if total <= Watts::ZERO {
        return working;
    }
    let net = Share::new(load.power / total);
    working.note(format!("idle draw included, the inverter's efficiency with only this load is {net}"))
}

fn at_battery(load: &Load, out: &LoadBudget, mean: Volts, subject: Subject) -> Working {
    let (formula, words) = match load.law {
        Law::Power(_) => ("I * U / V", "constant power takes fewer amperes from a higher voltage"),
        Law::Current(_) => ("I", "constant current is the same at any voltage"),
        Law::Resistance { .. } => ("I * V / U", "a resistance takes more amperes from a higher voltage"),
    };
    let working = Working::new("current from the battery while on", formula, out.at_battery)
        .with_from("I", "running current at 12 V", out.running, subject, "running current")
        .source("the kind of load")
        .note(words);
    if let Law::Current(_) = load.law {
        return working;
    }
    let meaning = "battery's mean voltage over the planned depth";
    let working = working.with("U", "nominal voltage", load.nominal);
    match load.nominal == NOMINAL {
        true => working.with_from("V", meaning, mean, Subject::Budget, "mean voltage"),
        false => working.with("V", "the vehicle's own side", mean),
    }
}
