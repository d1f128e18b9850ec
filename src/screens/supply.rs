//! Supply: what the vehicle and the sun give, which charger, how long to recover.

use super::form::form;
use super::pane::{Body, Cell, Pane, Plot, marks};
use super::results::Facts;
use super::scene::Scene;
use super::theme::Role;
use crate::engine::design::results::fact::Fact;
use crate::engine::parts::array_cable::ArrayCable;
use crate::engine::simulate::charger::array::Array;
use crate::engine::simulate::charger::result::RelayComparison;
use crate::engine::{Bound, ChargerDesign, Recharge, Recovery, planned_depth};
use crate::plan::{Place, Section};
use crate::quantity::{Amps, Figure, Hours, Share};

/// The panes: everything that gives, the charger that follows, a charge from the planned depth.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    const SECTIONS: &[Section] =
        &[Section::Vehicle, Section::Charger, Section::Solar, Section::Mains, Section::StarterBattery];
    vec![form(scene, "Vehicle, charger, sun, mains", SECTIONS, 0, chosen), charger(scene), recharge(scene)]
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let charger = &scene.design().charger;
    let result = |fact| Some(Cell::fact(scene, fact, charger, scene.at(0)));
    match (place.section, place.key) {
        (Section::Charger, "current_a") if charger.current.is_some() => result(ChargerDesign::CURRENT),
        (Section::Charger, "output_v") => result(ChargerDesign::OUTPUT),
        (Section::Charger, "lowest_input_v") => result(ChargerDesign::LOWEST_INPUT),
        (Section::Vehicle, key) => vehicle(scene, key),
        (Section::Solar, "sun_hours") if scene.plan().solar.array.get() > 0.0 => result(ChargerDesign::SUN_HOURS),
        (Section::Solar, "cable_size") => {
            Some(Cell::fact(scene, ArrayCable::SIZE, charger.array_cable.as_ref()?, scene.at(0)))
        }
        (Section::Solar, "device_a") => {
            Some(Cell::fact(scene, ArrayCable::DEVICE, charger.array_cable.as_ref()?, scene.at(0)))
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
    let (c, at) = (&scene.design().charger, scene.at(0));
    let mut facts = Facts::new(scene);
    facts.heading("Charger");
    facts.list(
        c,
        at,
        &[
            ChargerDesign::CURRENT,
            ChargerDesign::OUTPUT,
            ChargerDesign::OUTPUT_HIGHEST,
            ChargerDesign::TO_PUT_BACK,
            ChargerDesign::A_DAY,
        ],
    );
    facts.heading(ChargerDesign::LOWERS.label);
    for bound in &c.lowers() {
        let missed = c.current.is_some_and(|a| a.get() < bound.amps.get());
        bound_row(&scene, &mut facts, bound, missed, "not reached");
    }
    facts.heading(ChargerDesign::UPPER.label);
    for bound in c.upper() {
        let broken = c.current.is_some_and(|a| a.get() > bound.amps.get());
        bound_row(&scene, &mut facts, bound, broken, "exceeded");
    }
    facts.heading("Its feed at worst");
    facts.list(
        c,
        at,
        &[
            ChargerDesign::INPUT,
            ChargerDesign::INPUT_VOLTAGE,
            ChargerDesign::LOWEST_INPUT,
            ChargerDesign::SPARE_IDLE,
            ChargerDesign::SPARE_ROAD,
            ChargerDesign::STARTS_FOR,
        ],
    );
    facts.heading("Other sources a day");
    let (sun, mains) = (scene.plan().solar.array.get() > 0.0, scene.plan().mains.current.get() > 0.0);
    let source = |there: bool, fact: Fact<ChargerDesign>| {
        if there { Cell::fact(&scene, fact, c, at) } else { Cell::words("none").role(Role::Muted) }
    };
    let share = if sun { format!("{} of the need", scene.show(c.solar_share)) } else { String::new() };
    let by_sun = ChargerDesign::SOLAR_A_DAY;
    facts.remark(by_sun.label, source(sun, by_sun), share, Role::Muted);
    if sun {
        facts.list(&c.array, at, &[Array::OPEN, Array::CABLE, Array::PASSED]);
    }
    facts.add(ChargerDesign::MAINS_A_DAY.label, source(mains, ChargerDesign::MAINS_A_DAY));
    facts.heading(ChargerDesign::RECOVERY.label);
    for r in &c.recovery {
        let cell = Cell::fact(&scene, Recovery::TIME, r, at);
        let never = |cell| Cell { text: "never reached".into(), ..cell }.role(Role::Caution);
        facts.add(format!("To {}", scene.show(r.to)), if r.hours.is_some() { cell } else { never(cell) });
    }
    relay(&scene, &mut facts);
    facts.pane("What follows")
}

/// A bound, and in words what is wrong when it is not kept.
fn bound_row(scene: &Scene<'_>, facts: &mut Facts<'_>, bound: &Bound, missed: bool, words: &str) {
    let role = if bound.advice() { Role::Note } else { Role::Stop };
    let (remark, role) = if missed { (words, role) } else { ("", Role::Text) };
    facts.remark(capital(bound.name()), Cell::fact(scene, Bound::CURRENT, bound, scene.at(0)), remark, role);
}

/// What a plain relay would do instead.
fn relay(scene: &Scene<'_>, facts: &mut Facts<'_>) {
    let Some(relay) = &scene.design().charger.relay else { return };
    facts.heading(ChargerDesign::RELAY.label);
    let verdict = if relay.possible { "possible" } else { "not possible" };
    let role = if relay.possible { Role::Text } else { Role::Stop };
    facts.remark(RelayComparison::POSSIBLE.label, Cell::words(verdict).role(role), relay.why.clone(), Role::Muted);
    facts.list(
        relay,
        scene.at(0),
        &[
            RelayComparison::CURRENT,
            RelayComparison::INRUSH,
            RelayComparison::TO_80,
            RelayComparison::REACHES,
            RelayComparison::WANTS,
        ],
    );
}

/// The charge over the hours driven, with the charger and, where possible, with a relay instead.
fn recharge(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().charger;
    let full = c.recovery.last().and_then(|r| r.hours).filter(|h| h.get() > 0.0);
    let hours = full.map_or(12.0, |h| h.get().ceil().clamp(1.0, 48.0));
    let installation = &scene.design().installation;
    let curve = |current: Amps| -> Vec<(f64, f64)> {
        let Some(chemistry) = installation.chemistry() else { return Vec::new() };
        let from = Share::FULL - planned_depth(installation, chemistry);
        let recharge = Recharge { catalogue: &installation.catalogue, chemistry, capacity: c.capacity, current, from };
        recharge.curve(Hours::new(hours)).iter().map(|p| (p.at.get(), p.charge.get() * 100.0)).collect()
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
        across: marks(5, 0.0, hours, tick),
        up: marks(3, 0.0, 100.0, |share| scene.digits(Figure::number(share))),
        spare: true,
        ..Plot::default()
    };
    Pane { title: "Charge while driving, %".into(), body: Body::Plot(plot) }
}

/// First letter large.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}
