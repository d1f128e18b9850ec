//! Supply: what the vehicle and the sun give, which charger, how long to recover.

use super::form::{Facts, form};
use super::pane::{Cell, Pane};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::Subject;
use crate::plan::{Place, Section};

/// The panes: everything that gives, and the charger that follows.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    const SECTIONS: &[Section] =
        &[Section::Vehicle, Section::Charger, Section::Solar, Section::Mains, Section::StarterBattery];
    vec![form(scene, "Vehicle, charger, sun, mains", SECTIONS, 0, chosen), charger(scene)]
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let charger = &scene.design().charger;
    match (place.section, place.key) {
        (Section::Charger, "current_a") => {
            Some(Cell::figure(scene, charger.current?).topic(Subject::Charger, "charger current"))
        }
        (Section::Charger, "output_v") => {
            Some(Cell::figure(scene, charger.output).topic(Subject::Charger, "charge voltage"))
        }
        _ => None,
    }
}

fn charger(scene: Scene<'_>) -> Pane<'_> {
    let c = &scene.design().charger;
    let of = |figure: crate::quantity::Figure, number: &'static str| {
        Cell::figure(&scene, figure).topic(Subject::Charger, number)
    };
    let mut facts = Facts::default();
    facts.heading("Charger");
    facts.add("Output current", Cell::maybe(&scene, c.current).topic(Subject::Charger, "charger current"));
    facts.add("Charge voltage", of(c.output.into(), "charge voltage"));
    facts.add("Puts back a day", of(c.a_day.into(), "charge back a day"));
    facts.heading("At least");
    if !c.lower.name.is_empty() {
        facts.add(capital(c.lower.name), of(c.lower.amps.into(), c.lower.name));
    }
    facts.heading("At most");
    for bound in &c.upper {
        let broken = c.current.is_some_and(|a| a.get() > bound.amps.get());
        let (remark, role) = if broken { ("exceeded", Role::Stop) } else { ("", Role::Text) };
        facts.remark(capital(bound.name), of(bound.amps.into(), bound.name), remark, role);
    }
    facts.heading("Its feed at worst");
    facts.add("Input current", of(c.input.into(), "input current"));
    facts.add("Voltage at its input", of(c.input_voltage.into(), "input voltage"));
    facts.add("Alternator spare, idle", of(c.spare_idle.into(), "alternator at idle"));
    facts.add("Alternator spare, road", of(c.spare_road.into(), "alternator on the road"));
    facts.heading("Other sources a day");
    facts.add("Sun", Cell::figure(&scene, c.solar_a_day).topic(Subject::Solar, "charge a day"));
    facts.add("Mains", Cell::figure(&scene, c.mains_a_day).topic(Subject::Mains, "charge a day"));
    facts.heading("Driving time to recover");
    for r in &c.recovery {
        let cell =
            r.hours.map_or_else(|| Cell::words("never reached").role(Role::Caution), |h| Cell::figure(&scene, h));
        facts.add(format!("To {}", scene.show(r.to)), cell.topic(Subject::Charger, recovery_topic(r.to.get())));
    }
    facts.pane("What follows")
}

fn recovery_topic(to: f64) -> String {
    format!("recovery to {:.0} %", to * 100.0)
}

/// First letter large.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |c| c.to_uppercase().chain(chars).collect())
}
