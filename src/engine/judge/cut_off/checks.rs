//! What the user should know about the cut-off.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::choose::cut_off::settings::{step_up, up};
use crate::engine::choose::cut_off::{Case, CutOffDesign, USUAL};
use crate::engine::installation::Installation;
use crate::engine::installation::charger::charge_voltage_source;
use crate::engine::installation::subject::Subject;
use crate::engine::judge::book::Book;
use crate::engine::judge::cut_off::wiring;
use crate::engine::judge::finding::{Finding, Kind, Severity};
use crate::engine::physics::cell::store::TABLE_AIR;
use crate::engine::simulate::budget::Budget;
use crate::engine::simulate::cut_off::curve::trips_at;
use crate::engine::simulate::cut_off::rest;
use crate::plan::{Place, Section, Value};
use crate::quantity::*;

const S: Subject = Subject::CutOff;
/// Fewer days from cut-off to harm than this are worth a word. Common practice, no source.
const FEW_DAYS: Days = Days::new(14.0);

fn place(key: &'static str) -> Place {
    Place::of(Section::CutOff, key)
}

#[allow(clippy::too_many_arguments)]
pub(crate) fn check(
    site: &Installation,
    chemistry: &Chemistry,
    budget: &Budget,
    case: &Case<'_>,
    out: &CutOffDesign,
    book: &mut Book,
) {
    settings(case, out, chemistry, book);
    surge(site, case, out, book);
    reconnecting(site, chemistry, case, out, book);
    acting(site, chemistry, out, book);
    flat(case, out, book);
    standing(site, chemistry, budget, out, book);
    early(case, out, book);
    wiring::check(site, budget, out, book);
    device(case, &site.catalogue, out, book);
}

fn settings(case: &Case<'_>, out: &CutOffDesign, chemistry: &Chemistry, book: &mut Book) {
    let device = case.device;
    let wanted = device.cut.unwrap_or(out.exact);
    if wanted.get() < device.lowest.get() - 1e-9 || wanted.get() > device.highest.get() + 1e-9 {
        let text = format!(
            "the setting wanted is {wanted}, the device can be set from {} to {}",
            device.lowest, device.highest
        );
        let key = if wanted.get() < device.lowest.get() { "lowest_v" } else { "highest_v" };
        book.find(
            Finding::new(Kind::CutOffRange, S, text)
                .rule("the setting must be one that the device has")
                .at(place(key))
                .remedy(format!("choose a device that can be set to {wanted}")),
        );
    }
    let (floor, harmed_by) = chemistry.low.floor();
    if out.cut.get() <= floor.get() {
        let text = format!("the cut-off at {} acts when harm has begun, at {floor}", out.cut);
        let good = up(out.exact.max(floor + Volts::new(0.1)), device);
        book.find(
            Finding::new(Kind::CutOffLow, S, text)
                .rule(format!("harm begins: {}", harmed_by.words()))
                .at(place("cut_v"))
                .remedy_number(
                    format!("set it to {good}, for a reserve of {}", case.reserve),
                    place("cut_v"),
                    good.get(),
                ),
        );
    } else if let Some(AtTrip { at, short }) = too_deep(case, out) {
        let good = up(out.exact, device);
        let text = format!(
            "with the usual current the cut-off at {} acts at {at}, {short} under the reserve of {}",
            out.cut, case.reserve
        );
        book.find(
            Finding::new(Kind::CutOffLow, S, text)
                .as_severity(Severity::Caution)
                .rule("the setting is chosen by the usual current; see its working")
                .at(place("cut_v"))
                .remedy_number(format!("{good} keeps {}", case.reserve), place("cut_v"), good.get()),
        );
    }
}

struct AtTrip {
    at: Share,
    short: Share,
}

/// A given setting that lets more than five points of the reserve go.
fn too_deep(case: &Case<'_>, out: &CutOffDesign) -> Option<AtTrip> {
    case.device.cut?;
    let at = out.at_currents.get(USUAL)?.trips_at.unwrap_or(Share::ZERO);
    let short = case.reserve - at;
    (short.get() > 0.05).then_some(AtTrip { at, short })
}

fn surge(site: &Installation, case: &Case<'_>, out: &CutOffDesign, book: &mut Book) {
    if out.delay_needed.get() <= 0.0 || out.delay.get() > case.start.get() {
        return;
    }
    let name = site
        .loads
        .iter()
        .filter(|l| l.start.times > 1.0)
        .max_by(|a, b| a.start.lasts.get().total_cmp(&b.start.lasts.get()))
        .map_or("a load", |l| l.name.as_str());
    let text = format!(
        "at the reserve a start pulls the sensing point to {}, under {}; it lasts {} ({name}), the delay is {}",
        out.surge_voltage, out.cut, case.start, out.delay
    );
    let finding = Finding::new(Kind::CutOffSurge, S, text)
        .rule("the delay must outlast the start; twice as long is common practice, no source")
        .at(place("delay_s"));
    let wanted = out.delay_needed;
    book.find(if wanted.get() <= case.device.longest_delay.get() {
        finding.remedy_number(format!("a delay of {wanted}"), place("delay_s"), wanted.get())
    } else {
        let most = out.surge_voltage - case.device.step;
        finding.remedy(format!(
            "a device with a delay of {wanted}, or a setting of {most} with the reserve that goes with it"
        ))
    });
}

fn reconnecting(site: &Installation, chemistry: &Chemistry, case: &Case<'_>, out: &CutOffDesign, book: &mut Book) {
    let reconnect_place = place("reconnect_v");
    if out.reconnect.get() <= out.rebound.get() || out.reconnect.get() <= out.cut.get() {
        let good = out.cut + out.hysteresis_needed;
        let text = format!(
            "after a cut at {} the posts rebound to {} without load, and it reconnects at {}: it would chatter",
            out.cut, out.rebound, out.reconnect
        );
        let finding = Finding::new(Kind::CutOffChatter, S, text)
            .rule(format!(
                "reconnect above the rebound; the distance must be at least {}; resting voltage: {}",
                out.hysteresis_needed,
                case.store.chemistry.resting.words()
            ))
            .at(reconnect_place);
        book.find(if good.get() <= out.charging.get() - 0.05 {
            finding.remedy_number(
                format!("reconnect at {}", step_up(good, case.device.step)),
                reconnect_place,
                step_up(good, case.device.step).get(),
            )
        } else {
            finding.remedy(format!(
                "reduce the heaviest current from {}, or let a switch reconnect: charging reaches only {}",
                case.currents[2].1, out.charging
            ))
        });
    }
    if out.reconnect.get() > out.charging.get() - 0.05 {
        let text = format!(
            "it reconnects at {}, but charging reaches only {} at the sensing point",
            out.reconnect, out.charging
        );
        let good = (out.charging - Volts::new(0.1)).max(out.cut + case.device.step);
        let finding = Finding::new(Kind::ReconnectHigh, S, text)
            .rule(format!(
                "reconnect below what charging reaches at the hottest air; charge voltage: {}",
                charge_voltage_source(site, chemistry, site.surroundings.hottest.max(TABLE_AIR))
            ))
            .at(reconnect_place);
        // Where charging does not even come a step above the cut-off, no setting closes it again.
        book.find(if out.charging.get() < (out.cut + case.device.step).get() {
            let needed = out.reconnect + Volts::new(0.1);
            finding.as_severity(Severity::Stop).remedy(format!(
                "charge with {needed} or more, or cut off at {} or less",
                out.charging - case.device.step
            ))
        } else {
            finding.remedy_number(format!("reconnect at {good}"), reconnect_place, good.get())
        });
    }
}

fn acting(site: &Installation, chemistry: &Chemistry, out: &CutOffDesign, book: &mut Book) {
    let mut found = |what: String, at: Volts, severity: Severity, place_: Place| {
        let text = format!("{what} acts at {at}, before the cut-off at {}", out.cut);
        book.find(
            Finding::new(Kind::CutOffOrder, S, text)
                .as_severity(severity)
                .rule("the cut-off should act first, so that everything goes off in order and comes back")
                .at(place_)
                .remedy(format!("set it under {}, or set the cut-off above {at}", out.cut)),
        );
    };
    if let Some(own) = chemistry.low.own_protection.filter(|v| v.get() >= out.cut.get()) {
        found("the battery's own protection".into(), own, Severity::Caution, place("cut_v"));
    }
    for (i, load) in site.loads.iter().enumerate().filter(|(_, l)| !l.before_cut_off) {
        if let Some(own) = load.own_cut.filter(|v| v.get() > out.cut.get()) {
            found(load.name.clone(), own, Severity::Note, Place::load(i, "own_cut_v"));
        }
        if let Some(lowest) = load.lowest.filter(|v| v.get() > out.cut.get()) {
            found(
                format!("{}, which stops working,", load.name),
                lowest,
                Severity::Caution,
                Place::load(i, "lowest_v"),
            );
        }
    }
    if site.inverter.rating.get() > 0.0 && site.inverter.own_cut.get() > out.cut.get() {
        found("the inverter".into(), site.inverter.own_cut, Severity::Note, Place::of(Section::Inverter, "own_cut_v"));
    }
}

fn flat(case: &Case<'_>, out: &CutOffDesign, book: &mut Book) {
    let (_, usual, held) = case.currents[USUAL];
    let error = Volts::new(0.1);
    let high = trips_at(case, usual, held, out.cut + error).unwrap_or(Share::ZERO);
    let low = trips_at(case, usual, held, out.cut - error).unwrap_or(Share::ZERO);
    let width = high - low;
    if width.get() <= 0.2 {
        return;
    }
    let text = format!("here 0.1 V up or down moves the charge at the cut-off from {low} to {high}");
    book.find(
        Finding::new(Kind::CutOffFlat, S, text)
            .rule("where the discharge curve is flat, voltage says little about charge")
            .at(place("reserve"))
            .remedy(format!("a monitor that counts ampere-hours can keep {} where a voltage cannot", case.reserve)),
    );
}

fn standing(site: &Installation, chemistry: &Chemistry, budget: &Budget, out: &CutOffDesign, book: &mut Book) {
    let Some(days) = out.days_to_harm.filter(|d| d.get() < FEW_DAYS.get()) else { return };
    let text = format!("after the cut-off {} go on being drawn: {days} until harm begins", out.after);
    let finding = Finding::new(Kind::StandingDraw, S, text).rule(format!(
        "harm begins at {}: {}; a fortnight is common practice, no source",
        chemistry.low.damage,
        chemistry.low.from.damage.words()
    ));
    let loads = site.loads.iter().zip(&budget.loads).enumerate();
    let on = loads.filter(|(_, (l, _))| wiring::stays_on(site, l)).map(|(i, (l, b))| (i, l, b.charge));
    let biggest = on.max_by(|a, b| a.2.get().total_cmp(&b.2.get()));
    let idle = if wiring::inverter_stays_on(site) { budget.inverter_idle } else { AmpHours::ZERO };
    book.find(match biggest {
        Some((i, load, charge)) if charge.get() >= idle.get() => {
            finding.at(Place::load(i, "before_cut_off")).remedy_edit(
                format!("put {} behind the cut-off, or recharge within {days}", load.name),
                Place::load(i, "before_cut_off"),
                Some(Value::Flag(false)),
            )
        }
        _ if idle.get() > 0.0 => finding.at(Place::of(Section::Inverter, "at")).remedy(format!(
            "put the inverter, which takes {idle} a day idle, behind the cut-off, or recharge within {days}"
        )),
        _ => finding
            .at(place("standing_draw_a"))
            .remedy(format!("recharge within {days}, or keep more than {}", out.reserve)),
    });
}

/// What the device carries.
fn device(case: &Case<'_>, catalogue: &Catalogue, out: &CutOffDesign, book: &mut Book) {
    match out.rating {
        Some(rating) if out.current.get() > rating.get() + 1e-9 => {
            let next = rest::rating(catalogue, out.current);
            let text = format!("{} flow through the cut-off, which is rated {rating}", out.current);
            let finding = Finding::new(Kind::CutOffRating, S, text)
                .rule("continuous rating at or above all that can be on together")
                .at(place("rating_a"));
            book.find(match next {
                Some(size) => finding.remedy_number(format!("a device of {size}"), place("rating_a"), size.get()),
                None => finding.remedy(format!("let {} less be on together", out.current - rating)),
            });
        }
        None => {
            let largest = catalogue.devices.cut_offs.sizes.iter().copied().fold(Amps::ZERO, Amps::max);
            book.find(
                Finding::new(
                    Kind::CutOffRating,
                    S,
                    format!("{} flow through the cut-off, the largest sold carries {largest}", out.current),
                )
                .rule(format!("sizes sold: {}", catalogue.devices.cut_offs.from.sizes.words()))
                .at(place("rating_a"))
                .remedy(format!("let a contactor of {} carry it, worked by the cut-off", out.current)),
            );
        }
        Some(rating) => fused(catalogue, case, rating, book),
    }
}

/// A fixed voltage cuts early under a heavy current that outlasts the delay. Points of charge.
const EARLY: Share = Share::new(0.15);

fn early(case: &Case<'_>, out: &CutOffDesign, book: &mut Book) {
    let Some(heavy) = out.at_currents.last() else { return };
    let Some(at) = heavy.trips_at.filter(|at| (*at - out.reserve).get() > EARLY.get()) else { return };
    let text = format!(
        "while {} flow the cut-off acts at {at} of the charge, not at the reserve of {}",
        heavy.current, out.reserve
    );
    let deeper = up(heavy.sensing, case.device);
    book.find(
        Finding::new(Kind::CutOffEarly, S, text)
            .rule("a fixed voltage cannot know the current; a heavy load that lasts longer than the delay is cut early")
            .at(place("cut_v"))
            .remedy(format!(
                "let less than {} run together for longer than {} when the battery is low",
                heavy.current, out.delay
            ))
            .remedy(format!("{deeper} would keep the reserve with that current, and let the usual one go deeper")),
    );
}

/// A fuse larger than the device lets an overload cook it without ever opening.
fn fused(catalogue: &Catalogue, case: &Case<'_>, rating: Amps, book: &mut Book) {
    let Some(fuse) = case.path.fuse.filter(|f| f.get() > rating.get() + 1e-9) else { return };
    let finding = Finding::new(
        Kind::CutOffRating,
        S,
        format!("the fuse of {fuse} before the cut-off lets more flow than its {rating}"),
    )
    .as_severity(Severity::Caution)
    .rule("a device is protected by a fuse no larger than its own rating")
    .at(place("rating_a"));
    book.find(match rest::rating(catalogue, fuse) {
        Some(size) => finding.remedy_number(format!("a device of {size}"), place("rating_a"), size.get()),
        None => finding.remedy(format!("let a contactor of {fuse} carry it, worked by the cut-off")),
    });
}
