//! Battery: how big, and of which chemistry, side by side.

use super::form::{Facts, form};
use super::pane::{Cell, Column, Offer, Pane, Row, Table};
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::{Candidate, Subject};
use crate::plan::{Place, Section, Value};
use crate::quantity::{AmpHours, Amps, Kilograms, WattHours};

/// The panes: the battery and its surroundings, the candidates, the bank that follows.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    const SECTIONS: &[Section] = &[Section::ServiceBattery, Section::Surroundings];
    vec![form(scene, "Service battery and surroundings", SECTIONS, 0, chosen), candidates(scene), bank(scene)]
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    if place.section != Section::ServiceBattery {
        return None;
    }
    let battery = &scene.design().battery;
    let bank = battery.bank.as_ref();
    let chemistry = scene.state.catalogue.chemistry(&scene.plan().service_battery.chemistry);
    match place.key {
        "capacity_ah" => Some(Cell::figure(scene, bank?.capacity).topic(Subject::ServiceBattery, "capacity")),
        "in_parallel" => Some(Cell::words(bank?.blocks.to_string())),
        "mass_kg" => Some(Cell::figure(scene, bank?.mass).topic(Subject::ServiceBattery, "mass")),
        "resistance_mohm" => Some(Cell::figure(scene, bank?.resistance).topic(Subject::ServiceBattery, "resistance")),
        "depth" => Some(Cell::figure(scene, battery.depth).topic(Subject::ServiceBattery, "depth")),
        "end_of_life" => Some(Cell::figure(scene, chemistry?.life.end_of_life)),
        _ => None,
    }
}

fn candidates(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::words("Chemistry").widest(26),
        Column::label("").widest(8),
        Column::figures("Needed").unit(scene.symbol(AmpHours::ZERO)),
        Column::figures("Bank").widest(16),
        Column::figures("Mass").unit(scene.symbol(Kilograms::ZERO)),
        Column::figures("Usable").unit(scene.symbol(WattHours::ZERO)),
        Column::figures("Lasts"),
        Column::words("Charges").unit("cold").widest(18),
        Column::figures("To 90 %"),
        Column::figures("Takes").unit(scene.symbol(Amps::ZERO)),
        Column::words("Decided by").widest(22),
    ];
    let list = &scene.design().battery.candidates;
    let row = move |i: usize| list.get(i).map_or_else(Row::default, |c| candidate(&scene, c));
    let empty = "no candidates could be computed; see Findings";
    let start = list.iter().position(|c| c.chosen).unwrap_or(0);
    let table = Table { columns, rows: list.len(), row: Box::new(row), list: None, empty, start };
    Pane::table("Chemistries side by side", table)
}

fn candidate(scene: &Scene<'_>, c: &Candidate) -> Row {
    let subject = || Subject::Candidate(c.chemistry.clone());
    let offer = Offer::Put {
        place: Place::of(Section::ServiceBattery, "chemistry"),
        value: Some(Value::Text(c.chemistry.clone())),
        words: format!("plan with {}", c.name),
    };
    let bank = c.bank.as_ref().map_or_else(
        || Cell::words("none big enough").role(Role::Stop),
        |b| match b.blocks {
            1 => Cell::figure(scene, b.capacity),
            n => Cell::words(format!("{n} × {}", scene.show(b.block))),
        },
    );
    let cold = if c.charges_cold {
        Cell::words("yes").role(Role::Good)
    } else {
        Cell::words(format!("not below {}", scene.show(c.charge_min))).role(Role::Stop)
    };
    let mut cells = vec![
        Cell::words(c.name.clone()).role(if c.chosen { Role::Heading } else { Role::Text }),
        Cell::words(if c.chosen { "planned" } else { "" }).role(Role::Good),
        Cell::digits(scene, c.needed).topic(subject(), "needed"),
        bank.topic(subject(), "needed"),
        c.bank.as_ref().map_or_else(Cell::dash, |b| Cell::digits(scene, b.mass)).topic(subject(), "mass"),
        Cell::digits(scene, c.usable).topic(subject(), "usable energy"),
        Cell::words(format!("{} years", scene.digits(c.years))).topic(subject(), "years"),
        cold,
        Cell::maybe(scene, c.recharge),
        Cell::digits(scene, c.charge_max).topic(subject(), "highest charge current"),
        Cell::words(c.ruling),
    ];
    for cell in &mut cells {
        cell.offer = Some(offer.clone());
    }
    Row::new(c.chemistry.clone(), cells)
}

fn bank(scene: Scene<'_>) -> Pane<'_> {
    let battery = &scene.design().battery;
    let subject = || Subject::ServiceBattery;
    let of = |figure: crate::quantity::Figure, number: &'static str| {
        Cell::figure(&scene, figure).topic(Subject::ServiceBattery, number)
    };
    let mut facts = Facts::default();
    facts.heading("Capacity asked for by each rule");
    for (i, c) in battery.criteria.iter().enumerate() {
        let (remark, role) = if i == battery.ruling { ("this one decides", Role::Heading) } else { ("", Role::Text) };
        facts.remark(capital(c.name), of(c.needed.into(), c.name), remark, role);
    }
    facts.heading("The bank");
    match &battery.bank {
        Some(b) => {
            facts.add("Capacity", of(b.capacity.into(), "capacity"));
            facts.add("Blocks", Cell::words(format!("{} × {}", b.blocks, scene.show(b.block))));
            facts.add("Mass", of(b.mass.into(), "mass"));
            facts.add("Usable energy", of(battery.usable.into(), "usable energy"));
            facts.add("Depth reached, cold, aged", of(battery.depth_reached.into(), "depth reached"));
            facts.add("Resistance, warm, new", of(b.resistance.into(), "resistance"));
            facts.add("Resistance, cold, aged", of(b.resistance_worst.into(), "worst resistance"));
            facts.add("Short circuit at the posts", of(b.fault.into(), "fault current"));
        }
        None => facts.add("Capacity", Cell::dash().topic(subject(), "capacity")),
    }
    facts.pane("How it follows")
}
