//! Supply: what the vehicle and the sun give, which charger, how long to recover.

use super::form::{Facts, form};
use super::pane::{Body, Cell, Pane, Plot};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::{Bound, RechargePoint, Subject, planned_depth, recharge_curve};
use crate::plan::{Place, Section};
use crate::quantity::{Amps, Hours, Share};

/// The panes: everything that gives, the charger that follows, a charge from the planned depth.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    const SECTIONS: &[Section] =
        &[Section::Vehicle, Section::Charger, Section::Solar, Section::Mains, Section::StarterBattery];
    vec![form(scene, "Vehicle, charger, sun, mains", SECTIONS, 0, chosen), charger(scene), recharge(scene)]
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let charger = &scene.design().charger;
    match (place.section, place.key) {
        (Section::Charger, "current_a") => {
            Some(Cell::figure(scene, charger.current?).topic(Subject::Charger, "current"))
        }
        (Section::Charger, "output_v") => {
            Some(Cell::figure(scene, charger.output).topic(Subject::Charger, "highest voltage"))
        }
        (Section::Charger, "lowest_input_v") => Some(Cell::figure(scene, charger.lowest_input)),
        (Section::Vehicle, key) => vehicle(scene, key),
        (Section::Solar, "sun_hours") if scene.plan().solar.array.get() > 0.0 => {
            Some(Cell::figure(scene, charger.sun_hours).topic(Subject::Solar, "sun hours"))
        }
        (Section::Solar, "derating") => {
            let usual = crate::engine::usual_derating(&scene.design().installation);
            Some(Cell::figure(scene, usual.value))
        }
        _ => None,
    }
}

/// The catalogue's figures of a vehicle.
fn vehicle(scene: &Scene<'_>, key: &str) -> Option<Cell> {
    let rules = &scene.state.catalogue.rules;
    match key {
        "idle_share" => Some(Cell::figure(scene, rules.alternator_idle.value)),
        "road_share" => Some(Cell::figure(scene, rules.alternator_road.value)),
        _ => None,
    }
}

fn charger(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().charger;
    let mut facts = Facts::of(scene, Subject::Charger);
    facts.heading("Charger");
    facts.add("Output current", Cell::maybe(&scene, c.current).topic(Subject::Charger, "current"));
    facts.number("Charge voltage", c.output, "highest voltage");
    facts.number("To put back a day", c.to_put_back, "to put back");
    facts.number("Puts back a day", c.a_day, "a day");
    facts.heading("At least");
    for bound in &c.lowers {
        let missed = c.current.is_some_and(|a| a.get() < bound.amps.get());
        bound_row(&mut facts, bound, missed, "not reached");
    }
    facts.heading("At most");
    for bound in &c.upper {
        let broken = c.current.is_some_and(|a| a.get() > bound.amps.get());
        bound_row(&mut facts, bound, broken, "exceeded");
    }
    facts.heading("Its feed at worst");
    facts.number("Input current", c.input, "input current");
    facts.number("Voltage at its input", c.input_voltage, "input voltage");
    facts.add("It works down to", Cell::figure(&scene, c.lowest_input));
    let spare = |amps: crate::quantity::Amps, number: &'static str| {
        Cell::figure(&scene, amps).topic(Subject::Alternator, number)
    };
    facts.add("Alternator spare, idle", spare(c.spare_idle, "spare at idle"));
    facts.add("Alternator spare, road", spare(c.spare_road, "spare on the road"));
    facts.heading("Other sources a day");
    let (sun, mains) = (scene.plan().solar.array.get() > 0.0, scene.plan().mains.current.get() > 0.0);
    let none = || Cell::words("none").role(Role::Muted);
    let of_source = |there: bool, amount: crate::quantity::AmpHours, subject: Subject| {
        if there { Cell::figure(&scene, amount).topic(subject, "a day") } else { none() }
    };
    let share = if sun { format!("{} of the need", scene.show(c.solar_share)) } else { String::new() };
    facts.remark("Sun", of_source(sun, c.solar_a_day, Subject::Solar), share, Role::Muted);
    facts.add("Mains", of_source(mains, c.mains_a_day, Subject::Mains));
    facts.heading("Driving time to recover");
    for r in &c.recovery {
        let cell =
            r.hours.map_or_else(|| Cell::words("never reached").role(Role::Caution), |h| Cell::figure(&scene, h));
        facts.add(format!("To {}", scene.show(r.to)), cell.topic(Subject::Charger, recovery_topic(r.to.get())));
    }
    relay(&scene, &mut facts);
    facts.pane("What follows")
}

/// A bound, and in words what is wrong when it is not kept.
fn bound_row(facts: &mut Facts<'_>, bound: &Bound, missed: bool, words: &str) {
    let role = if bound.advice { Role::Note } else { Role::Stop };
    let (remark, role) = if missed { (words, role) } else { ("", Role::Text) };
    facts.remark(capital(bound.name), facts.cell(bound.amps, bound.name), remark, role);
}

/// What a plain relay would do instead.
fn relay(scene: &Scene<'_>, facts: &mut Facts<'_>) {
    let Some(relay) = &scene.design().charger.relay else { return };
    facts.heading("A plain relay instead");
    let verdict = if relay.possible { "possible" } else { "not possible" };
    let role = if relay.possible { Role::Text } else { Role::Stop };
    facts.remark("Possible here", Cell::words(verdict).role(role), relay.why.clone(), Role::Muted);
    facts.number("Charge current", relay.current, "relay current");
    facts.number("First rush", relay.inrush, "relay inrush");
    facts.add("Driving to 80 %", Cell::maybe(scene, relay.to_80));
    facts.add("Brings at most", Cell::figure(scene, relay.reaches));
    facts.add("The battery wants", Cell::figure(scene, relay.wants));
}

/// The charge over the hours driven, with the charger and, where possible, with a relay instead.
fn recharge(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().charger;
    let full = c.recovery.last().and_then(|r| r.hours).filter(|h| h.get() > 0.0);
    let hours = full.map_or(12.0, |h| h.get().ceil().clamp(1.0, 48.0));
    let curve = |current: Amps| {
        let points = charge_points(&scene, current, Hours::new(hours));
        points.iter().map(|p| (p.at.get(), p.charge.get() * 100.0)).collect::<Vec<_>>()
    };
    let name = |what: &str, current: Amps| format!("{what} {}", scene.show(current));
    let mut curves = vec![];
    if let Some(current) = c.current {
        curves.push((name("charger", current), curve(c.net)));
    }
    if let Some(relay) = c.relay.as_ref().filter(|r| r.possible) {
        curves.push((name("relay, at first", relay.current), curve(relay.current)));
    }
    let tick = |h: f64| scene.digits(Hours::new(h));
    let plot = Plot {
        curves,
        levels: vec![("90 %".into(), 90.0)],
        empty: "nothing charges it while driving".into(),
        x: ("Hours driven".into(), 0.0, hours),
        y: ("Share".into(), 0.0, 100.0),
        ticks: (vec![tick(0.0), tick(hours / 2.0), tick(hours)], ["0", "50", "100"].map(String::from).to_vec()),
        spare: true,
        ..Plot::default()
    };
    Pane { title: "Charge while driving, %".into(), body: Body::Plot(plot) }
}

fn charge_points(scene: &Scene<'_>, current: Amps, hours: Hours) -> Vec<RechargePoint> {
    let (plan, catalogue) = (scene.plan(), &scene.state.catalogue);
    let Some(chemistry) = catalogue.chemistry(&plan.service_battery.chemistry) else { return Vec::new() };
    let from = Share::FULL - planned_depth(&scene.design().installation, chemistry);
    recharge_curve(catalogue, chemistry, scene.design().charger.capacity, current, from, hours)
}

fn recovery_topic(to: f64) -> String {
    format!("recovery to {:.0} %", to * 100.0)
}

/// First letter large.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}
