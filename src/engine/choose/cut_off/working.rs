//! How each number of the cut-off came about.

use crate::catalogue::Chemistry;
use crate::engine::choose::cut_off::settings::{ABOVE_REBOUND, DELAY_TIMES};
use crate::engine::choose::cut_off::{Case, CutOffDesign, USUAL};
use crate::engine::installation::Installation;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Working;
use crate::engine::judge::book::Book;
use crate::engine::physics::cell::store::Age;
use crate::engine::simulate::cut_off::rest;
use crate::quantity::*;

const S: Subject = Subject::CutOff;

pub(crate) fn record(case: &Case<'_>, chemistry: &Chemistry, out: &CutOffDesign, book: &mut Book) {
    for (at, (posts, sensing, trips)) in out.at_currents.iter().zip([
        ("posts, light", "sensing, light", "trips, light"),
        ("posts, usual", "sensing, usual", "trips, usual"),
        ("posts, heavy", "sensing, heavy", "trips, heavy"),
    ]) {
        let resistance = case.store.resistance(case.reserve, case.air, Age::New);
        let at_hand = case.reserve - case.store.behind(at.current, at.held);
        let source =
            format!("{}; resistance: {}", chemistry.resting.words(), chemistry.resistance.words(case.measured, false));
        book.work(
            S,
            posts,
            Working::new(format!("voltage at the posts at the reserve, {} current", at.name), "V - I * R", at.posts)
                .with(
                    "V",
                    format!("resting voltage at {at_hand}, the charge at hand after {}", at.held),
                    case.store.resting_most(at_hand, case.air),
                )
                .with("I", format!("{} current", at.name), at.current)
                .with("R", "internal resistance at that charge and the mean air, new", resistance)
                .source(source)
                .note("kinetic battery model: a current that lasts draws down the charge at hand, and a rest brings it back"),
        );
        book.work(
            S,
            sensing,
            Working::new(format!("voltage at the sensing point, {} current", at.name), "P - I * s * R", at.sensing)
                .with_from("P", "voltage at the posts", at.posts, S, posts)
                .with("I", "current", at.current)
                .with("s", "share of it that flows between posts and sensing point", case.path.share)
                .with("R", "resistance between them, out and back", case.path.resistance)
                .source("Ohm's law"),
        );
        if let Some(share) = at.trips_at {
            book.work(
                S,
                trips,
                Working::new(format!("charge at which the setting trips, {} current", at.name), "", share)
                    .with("U", "setting", out.cut)
                    .with("I", "current", at.current)
                    .source("the curve under that current, solved for the charge by halving"),
            );
        }
    }
    voltages(case, out, book);
    times(case, chemistry, out, book);
}

fn voltages(case: &Case<'_>, out: &CutOffDesign, book: &mut Book) {
    let step = case.device.step;
    let cut = match case.device.cut {
        Some(given) => Working::new("cut-off voltage", "U", out.cut).with("U", "given", given).source("plan"),
        None => Working::new("cut-off voltage", "", out.cut)
            .with_from(
                "U",
                "voltage at the sensing point at the reserve, usual current",
                out.exact,
                S,
                "sensing, usual",
            )
            .with("d", "step of the device", step)
            .source("rounded up to a step, which keeps more in the battery, and kept within what can be set"),
    };
    let rounding = out.at_currents.get(USUAL).and_then(|a| a.trips_at);
    let cut = match rounding {
        Some(at) => cut.note(format!("with the usual current it acts at {at} instead of {}", case.reserve)),
        None => cut,
    };
    book.work(S, "cut", cut);
    let highest = out.at_currents.iter().filter_map(|a| a.trips_at).fold(case.reserve, Share::max);
    book.work(
        S,
        "rebound",
        Working::new("posts after the loads have gone", "V + h", out.rebound)
            .with(
                "V",
                format!("resting voltage at {highest}, the highest charge at which it trips"),
                case.store.resting_most(highest, case.air),
            )
            .with("h", "gap between resting after charge and after discharge", case.store.chemistry.resting.hysteresis)
            .source(format!(
                "{}; {}",
                case.store.chemistry.resting.words(),
                case.store.chemistry.resting.from.hysteresis.words()
            )),
    );
    book.work(
        S,
        "hysteresis",
        Working::new("least distance from cut to reconnect", "max(R + a - U, d)", out.hysteresis_needed)
            .with_from("R", "rebound", out.rebound, S, "rebound")
            .with("a", "room above it", ABOVE_REBOUND)
            .with_from("U", "cut-off voltage", out.cut, S, "cut")
            .with("d", "step of the device", step)
            .source("so that the rebound does not close it again; common practice, no source"),
    );
    let reconnect = match case.device.reconnect {
        Some(given) => Working::new("reconnect voltage", "U", out.reconnect).with("U", "given", given).source("plan"),
        None => Working::new("reconnect voltage", "", out.reconnect)
            .with_from("H", "least distance from the cut-off", out.hysteresis_needed, S, "hysteresis")
            .with("L", "voltage that charging reaches", out.charging)
            .source("cut-off and least distance, rounded up to a step; at most 0.1 V under what charging reaches"),
    };
    book.work(S, "reconnect", reconnect);
    book.work(
        S,
        "charging",
        Working::new("voltage that charging reaches at the sensing point", "", out.charging)
            .source("charge voltage at the hottest air, less the drop of the usual loads"),
    );
}

fn times(case: &Case<'_>, chemistry: &Chemistry, out: &CutOffDesign, book: &mut Book) {
    book.work(
        S,
        "surge voltage",
        Working::new(
            "voltage at the sensing point in the worst start, at the reserve",
            "V - I * (R + s * P)",
            out.surge_voltage,
        )
        .with("V", "resting voltage at the reserve", case.store.resting_most(case.reserve, case.air))
        .with("I", "worst start on top of the rest", case.surge)
        .with("R", "internal resistance", case.store.resistance(case.reserve, case.air, Age::New))
        .with("s", "share through the path", case.path.share)
        .with("P", "resistance of the path", case.path.resistance)
        .source("Ohm's law"),
    );
    let delay = match case.device.delay {
        Some(given) => Working::new("delay", "t", out.delay).with("t", "given", given).source("plan"),
        None => Working::new("delay", "", out.delay)
            .with("t", "longest start that would reach the setting", case.start)
            .with("k", "times as long", Figure::number(DELAY_TIMES))
            .with("m", "longest that can be set", case.device.longest_delay)
            .source("twice the start, at least 5 s, at most what can be set; common practice, no source"),
    };
    book.work(S, "delay", delay);
    if let Some(days) = out.days_to_harm {
        let harm = crate::engine::physics::cell::store::resting_charge(chemistry, chemistry.low.damage, case.air);
        let at = out.at_currents.get(USUAL).and_then(|a| a.trips_at).unwrap_or(Share::ZERO);
        book.work(
            S,
            "days to harm",
            Working::new("days from the cut-off to harm", "C * max(0, s - h) / (I * 24)", days)
                .with("C", "capacity of the bank", case.store.capacity)
                .with("s", "charge at the cut-off, usual current", at)
                .with("h", "charge where harm begins", harm)
                .with("I", "drawn after the cut-off, self-discharge included", out.after)
                .source(format!(
                    "harm: {}; self-discharge: {}",
                    chemistry.low.from.damage.words(),
                    chemistry.life.from.self_discharge.words()
                ))
                .note(if at.get() < chemistry.low.stand_above.get() {
                    format!("left standing under {} it ages: recharge within days", chemistry.low.stand_above)
                } else {
                    format!("it may stand above {}", chemistry.low.stand_above)
                }),
        );
    }
    let own = rest::own_draw(chemistry, case.store.capacity) + rest::self_discharge(chemistry, case.store.capacity);
    book.work(
        S,
        "after",
        Working::new("drawn after the cut-off", "a + b", out.after)
            .with("a", "battery's own electronics and self-discharge", own)
            .with("b", "cut-off, charger, loads and idle inverter connected before it", out.after - own)
            .source("sum"),
    );
}

pub(crate) fn rating(site: &Installation, out: &CutOffDesign, book: &mut Book) {
    book.work(
        S,
        "current",
        Working::new("steady current through it", "", out.current)
            .source("the most of: loads behind it that can be on together, at the cut-off voltage where constant power takes most; what its run is sized for, an inverter with its full rating; the charger's, if it comes in behind it"),
    );
    if let Some(rating) = out.rating {
        let source = match site.cut_off.rating {
            Some(_) => "plan".into(),
            None => format!(
                "smallest size sold that carries it and is no smaller than the fuse before it; {}",
                site.catalogue.devices.cut_offs.from.sizes.words()
            ),
        };
        book.work(S, "rating", Working::new("rating", "", rating).source(source));
    }
}
