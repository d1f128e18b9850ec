//! Where to disconnect and reconnect?
//!
//! The setting is chosen for the usual current at the mean air; what it means
//! at light and at heavy current is shown beside it. Reconnect, delay and
//! rating are the least that the rules bear.

use crate::catalogue::Catalogue;
use crate::engine::choose::voltage::{served_by, setting, window};
use crate::engine::installation::Installation;
use crate::engine::installation::counter::{Said, set_to};
use crate::engine::installation::cut_off::{Device, longest_start, sold_for, tidy};
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::{Notes, Working};
use crate::engine::judge::cut_off::limits::{OUT_OF_THE_RESERVE, UNDER_CHARGING, hysteresis_needed, outlasting};
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::cut_off::acting::acting;
use crate::engine::simulate::cut_off::case::Case;
use crate::engine::simulate::cut_off::path::SensingPath;
use crate::engine::simulate::cut_off::rest;
use crate::engine::simulate::cut_off::result::CutOffDesign;
use crate::engine::simulate::cut_off::starter::starter;
use crate::engine::simulate::promise::Uncut;
use crate::quantity::*;
use crate::reckon;

/// Shortest delay that is chosen, so that a contact's bounce or a spike does not count.
/// Common practice, no source.
const SHORTEST: Seconds = Seconds::new(5.0);

/// The cut-off as it is given or chosen; the default where there is no battery. `uncut`: how the days without charge
/// go where it never opens.
pub(crate) fn cut_off(
    site: &Installation,
    budget: &Budget,
    battery: &BatteryDesign,
    charger: &ChargerDesign,
    path: SensingPath,
    uncut: &Uncut,
    notes: &mut Notes,
) -> CutOffDesign {
    let (Some(chemistry), Some(bank)) = (site.chemistry(), battery.bank.as_ref()) else {
        return CutOffDesign::default();
    };
    let case = Case::of(site, chemistry, budget, bank, charger, path, notes);
    let mut out = settings(&case, uncut.highest(path.between(), waits(site)), notes);
    note_counter(site, &out, notes);
    out.order = rest::order(site, chemistry, &out);
    out.current = rest::current(site, budget, charger, &out, notes);
    out.rating = site.cut_off.rating.or_else(|| rating(&site.catalogue, &out));
    note_rating(site, &out, notes);
    out.starter = starter(site, charger, notes);
    out
}

/// The longest that it would be set to wait: as given, or so that the longest start goes by.
pub(crate) fn waits(site: &Installation) -> Seconds {
    let device = Device::of(&site.cut_off);
    let start = longest_start(site).map_or(Seconds::ZERO, |(_, lasts)| lasts);
    device.delay.unwrap_or(outlasting(start).value.max(SHORTEST).min(device.longest_delay))
}

/// Where it would be set, in the device's steps.
pub(crate) fn cut(case: &Case<'_>, kept: Option<Volts>) -> Volts {
    let setting = setting(case).value;
    let lower = kept.and_then(|kept| lowered(case, setting, kept)).map(|lower| lower.value);
    case.device.cut.or(lower).unwrap_or(setting)
}

/// Cut-off, reconnect and delay, in the device's steps; `kept`: the highest cut-off that keeps the days without charge.
pub(crate) fn settings(case: &Case<'_>, kept: Option<Volts>, notes: &mut Notes) -> CutOffDesign {
    let device = case.device;
    let setting = setting(case);
    let lower = kept.filter(|_| device.cut.is_none()).and_then(|kept| lowered(case, setting.value, kept));
    let cut = device.cut.or(lower.as_ref().map(|l| l.value)).unwrap_or(setting.value);
    let mut out = acting(case, cut, notes);
    (out.nearest, out.window, out.served_by) = (setting.value, Some(window(case)), served_by(case));
    match &lower {
        Some(lower) => note_lowered(case, lower, &out, notes),
        None => note_cut(case, &setting, &out, notes),
    }
    let hysteresis = hysteresis_needed(out.rebound, cut, device.step);
    out.hysteresis_needed = notes.reckon(&Subject::CutOff, "hysteresis", hysteresis, |r| {
        r.working("least distance from cut to reconnect")
            .source("so that the rebound does not close it again; common practice, no source")
            .from("R", Subject::CutOff, "rebound")
            .from("U", Subject::CutOff, "cut")
    });
    if case.start.get() > 0.0 && out.surge_voltage < cut {
        out.delay_needed = notes.reckon(&Subject::CutOff, "delay needed", outlasting(case.start), |r| {
            r.working("delay that outlasts the longest start").source("common practice, no source")
        });
    }
    out.reconnect = reconnect(&device, &out, notes);
    out.delay = delay(&device, &out, notes);
    out
}

/// A setting under the one that keeps the reserve at the usual current, where only that keeps the promise; not so low
/// that the usual current takes more than a stated share out of the reserve, or harm begins.
fn lowered(case: &Case<'_>, setting: Volts, kept: Volts) -> Option<Reckoned<Volts, 3>> {
    let lower = tidy(reckon!(Volts: min(S, floor(K / d + 0.000001) * d),
        S: "setting that keeps the reserve at the usual current" = setting,
        K: "lowest voltage it senses over the days without charge, new and aged, cold and warm" = kept,
        d: "step of the device" = case.device.step));
    let possible = lowest_settings(case).into_iter().all(|(_, _, least)| lower.value >= least);
    (possible && lower.value < setting).then_some(lower)
}

/// What such a setting may not fall below: symbol, meaning, voltage.
fn lowest_settings(case: &Case<'_>) -> Vec<(&'static str, &'static str, Volts)> {
    let least = case.sensing(case.reserve - OUT_OF_THE_RESERVE, case.currents.usual);
    let harm = case.store.chemistry.low.floor().0 + case.device.step;
    let mut all = vec![
        ("R", "at least, to keep most of the reserve at the usual current", least),
        ("D", "at least, a step above where harm begins", harm),
        ("L", "lowest that it can be set to", case.device.lowest),
    ];
    // Under a counter the voltage need not keep the reserve.
    all.retain(|(symbol, ..)| case.counter.is_none() || *symbol != "R");
    all
}

fn note_lowered(case: &Case<'_>, lower: &Reckoned<Volts, 3>, out: &CutOffDesign, notes: &mut Notes) {
    notes.add(Subject::CutOff, "cut", || {
        let working = lower.working("cut-off voltage").source(
            "the highest step that is not reached over the days without charge: the simulation, from switching to switching",
        );
        let with = |working: Working, (symbol, meaning, least)| working.with(symbol, meaning, least);
        let working = lowest_settings(case).into_iter().fold(working, with);
        match out.at_usual().and_then(|a| a.trips_at) {
            Some(at) => working.note(format!(
                "with the usual current it acts at {at}, {} of the reserve of {} for the aged battery in the cold",
                (case.reserve - at).max(Share::ZERO),
                case.reserve
            )),
            None => working,
        }
    });
}

fn note_cut(case: &Case<'_>, setting: &Reckoned<Volts, 4>, out: &CutOffDesign, notes: &mut Notes) {
    notes.add(Subject::CutOff, "cut", || {
        let working = match case.device.cut {
            Some(given) => Working::new("cut-off voltage", "U", out.cut)
                .with("U", "given", given)
                .source("plan")
                .note(format!("{} would be chosen, to keep {}", setting.value, case.reserve)),
            None => setting
                .working("cut-off voltage")
                .source("the nearest step, and kept within what can be set")
                .from("U", Subject::CutOff, format!("sensing, {}", case.currents.usual.name)),
        };
        match out.at_usual().and_then(|a| a.trips_at) {
            Some(at) => working.note(format!("with the usual current it acts at {at} instead of {}", case.reserve)),
            None => working,
        }
    });
}

/// What the counter is set to, and how far it may be off.
fn note_counter(site: &Installation, out: &CutOffDesign, notes: &mut Notes) {
    let Some(counter) = out.counter else { return };
    let error = notes.reckon(&Subject::CutOff, "counter error", Said::of(site).error(), |r| {
        r.working("how far the counter may be off").source("plan")
    });
    notes.add(Subject::CutOff, "counter", || match site.cut_off.opens_at {
        Some(given) => {
            Working::new("counted charge at which it opens", "S", given).with("S", "given", given).source("plan")
        }
        None => set_to(out.reserve, error)
            .working("counted charge at which it opens")
            .from("e", Subject::CutOff, "counter error")
            .source("the reserve is kept even where it shows too much; rounded up to 1 %")
            .note(format!("set its capacity to {} of the rated, which is left when it is replaced", counter.counts_on)),
    });
}

/// Above the rebound; where charging does not reach that, one step under what it reaches. A device has its own range
/// for this setting; it is not known, so only the cut-off voltage bounds it from below.
fn reconnect(device: &Device, out: &CutOffDesign, notes: &mut Notes) -> Volts {
    if let Some(given) = device.reconnect {
        notes.add(Subject::CutOff, "reconnect", || {
            let working = Working::new("reconnect voltage", "U", given).with("U", "given", given).source("plan");
            let least = out.cut + out.hysteresis_needed;
            working.note(format!(
                "above {least}, so that it does not chatter; below {}, which charging reaches",
                out.charging
            ))
        });
        return given;
    }
    let chosen = reckon!(Volts:
        max(min(ceil((U + H) / d - 0.000001) * d, floor((C - r) / d + 0.000001) * d), ceil((U + d) / d - 0.000001) * d),
        U: "cut-off voltage" = out.cut,
        H: "least distance from it" = out.hysteresis_needed,
        d: "step of the device" = device.step,
        C: "voltage that charging reaches" = out.charging,
        r: "at least so much under that" = UNDER_CHARGING);
    notes.reckon(&Subject::CutOff, "reconnect", tidy(chosen), |r| {
        r.working("reconnect voltage")
            .source("above the rebound, under what charging reaches, at least a step above the cut-off")
            .from("U", Subject::CutOff, "cut")
            .from("H", Subject::CutOff, "hysteresis")
            .from("C", Subject::CutOff, "charging")
    })
}

fn delay(device: &Device, out: &CutOffDesign, notes: &mut Notes) -> Seconds {
    if let Some(given) = device.delay {
        notes.add(Subject::CutOff, "delay", || {
            let working = Working::new("delay", "t", given).with("t", "given", given).source("plan");
            working
                .note(format!("the starts ask for {}, the device has up to {}", out.delay_needed, device.longest_delay))
        });
        return given;
    }
    let chosen = reckon!(Seconds: min(max(t, s), m),
        t: "needed for the longest start that would reach the setting" = out.delay_needed,
        s: "shortest that is chosen, for bounces and spikes" = SHORTEST,
        m: "longest that can be set" = device.longest_delay);
    notes.reckon(&Subject::CutOff, "delay", chosen, |r| r.working("delay").source("common practice, no source"))
}

/// The smallest device sold that carries what flows, and no smaller than the fuse before it, where one is made.
fn rating(catalogue: &Catalogue, out: &CutOffDesign) -> Option<Amps> {
    let guarded = out.current.max(out.path.fuse.unwrap_or(Amps::ZERO));
    sold_for(catalogue, guarded).or_else(|| sold_for(catalogue, out.current))
}

fn note_rating(site: &Installation, out: &CutOffDesign, notes: &mut Notes) {
    let Some(rating) = out.rating else { return };
    notes.add(Subject::CutOff, "rating", || {
        let working = Working::new("rating", "", rating).with_from(
            "I",
            "steady current through it, which it must carry",
            out.current,
            Subject::CutOff,
            "current",
        );
        let working = match out.path.fuse {
            Some(fuse) => working.with("F", "fuse before it, which lets as much flow for hours", fuse),
            None => working,
        };
        working.source(match site.cut_off.rating {
            Some(_) => "plan".into(),
            None => {
                let from = site.catalogue.devices.cut_offs.from.sizes.words();
                format!("smallest size sold that is no less than these; {from}")
            }
        })
    });
}
