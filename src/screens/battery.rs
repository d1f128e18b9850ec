//! Battery: how big, and of which chemistry, side by side.

use super::form::{Facts, form};
use super::pane::{Body, Cell, Column, Offer, Pane, Plot, Row, Scatter, Table};
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::{BatteryCurves, Candidate, Subject, battery_curves, cold_factor};
use crate::plan::{Place, Section, Value};
use crate::quantity::{AmpHours, Amps, Celsius, Kilograms, Share, Volts, WattHours};

/// The panes: the battery and its surroundings, the candidates, the bank that
/// follows, its curves, the user's prices.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    const SECTIONS: &[Section] = &[Section::ServiceBattery, Section::Surroundings];
    vec![
        form(scene, "Service battery and surroundings", SECTIONS, 0, chosen),
        candidates(scene),
        bank(scene),
        resting(scene),
        capacity(scene),
        prices(scene),
    ]
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
        Column::words("Chemistry").widest(28),
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
        Column::figures("Charger").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Price"),
        Column::figures("A year"),
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
        c.charger.map_or_else(Cell::dash, |amps| Cell::digits(scene, amps)),
        c.price.map_or_else(Cell::dash, |p| Cell::digits(scene, p)).topic(subject(), "price"),
        c.price_a_year.map_or_else(Cell::dash, |p| Cell::digits(scene, p)).topic(subject(), "price a year"),
    ];
    for cell in &mut cells {
        cell.offer = Some(offer.clone());
    }
    Row::new(c.chemistry.clone(), cells)
}

fn bank(scene: Scene<'_>) -> Pane<'_> {
    let battery = &scene.design().battery;
    let subject = || Subject::ServiceBattery;
    let mut facts = Facts::of(scene, Subject::ServiceBattery);
    facts.heading("Capacity asked for by each rule");
    for (i, c) in battery.criteria.iter().enumerate() {
        let (remark, role) = if i == battery.ruling { ("this one decides", Role::Heading) } else { ("", Role::Text) };
        facts.remark(capital(c.name), facts.cell(c.needed, c.name), remark, role);
    }
    facts.heading("The bank");
    match &battery.bank {
        Some(b) => {
            facts.number("Capacity", b.capacity, "capacity");
            facts.add("Blocks", Cell::words(format!("{} × {}", b.blocks, scene.show(b.block))));
            facts.number("Mass", b.mass, "mass");
            facts.number("Usable energy", battery.usable, "usable energy");
            facts.number("Depth reached, cold, aged", battery.depth_reached, "depth reached");
            facts.number("Resistance, warm, new", b.resistance, "resistance");
            facts.number("Resistance, cold, aged", b.resistance_worst, "worst resistance");
            facts.number("Short circuit at the posts", b.fault, "fault current");
        }
        None => facts.add("Capacity", Cell::dash().topic(subject(), "capacity")),
    }
    facts.pane("How it follows")
}

/// What the planned chemistry does with charge and temperature.
fn curves(scene: &Scene<'_>) -> Option<BatteryCurves> {
    let plan = scene.plan();
    let chemistry = scene.state.catalogue.chemistry(&plan.service_battery.chemistry)?;
    Some(battery_curves(chemistry, plan.surroundings.coldest))
}

fn resting(scene: Scene<'_>) -> Pane<'_> {
    let points: Vec<(f64, f64)> = curves(&scene)
        .map(|c| c.resting.iter().map(|(charge, volts)| (charge.get() * 100.0, volts.get())).collect())
        .unwrap_or_default();
    let least = points.iter().map(|p| p.1).fold(f64::INFINITY, f64::min).min(20.0);
    let most = points.iter().map(|p| p.1).fold(0.0, f64::max);
    let (low, high) = ((least * 2.0).floor() / 2.0, (most * 2.0).ceil() / 2.0);
    let tick = |v: f64| scene.digits(Volts::new(v));
    let reserve = scene.design().cut_off.reserve;
    let at = points.iter().find(|p| p.0 >= reserve.get() * 100.0).copied();
    let kept =
        at.map(|point| Scatter { name: format!("reserve {}", scene.show(reserve)), sign: 'x', points: vec![point] });
    let plot = Plot {
        curves: vec![("resting".into(), points)],
        marks: kept.into_iter().collect(),
        x: ("State of charge, %".into(), 0.0, 100.0),
        y: ("Volts".into(), low, high),
        ticks: (
            ["0", "25", "50", "75", "100"].map(String::from).to_vec(),
            vec![tick(low), tick((low + high) / 2.0), tick(high)],
        ),
        spare: true,
        ..Plot::default()
    };
    Pane { title: "Rested at 25 °C, V".into(), body: Body::Plot(plot) }
}

fn capacity(scene: Scene<'_>) -> Pane<'_> {
    let points: Vec<(f64, f64)> = curves(&scene)
        .map(|c| c.capacity.iter().map(|(air, left)| (air.get(), left.get() * 100.0)).collect())
        .unwrap_or_default();
    let (from, to) = (points.first().map_or(-20.0, |p| p.0), points.last().map_or(40.0, |p| p.0));
    let coldest = scene.plan().surroundings.coldest;
    let chemistry = scene.state.catalogue.chemistry(&scene.plan().service_battery.chemistry);
    let here = chemistry.map(|c| (coldest.get(), cold_factor(c, coldest).get() * 100.0));
    let name = format!("coldest air {}", scene.show(coldest));
    let tick = |t: f64| scene.show(Celsius::new(t));
    let plot = Plot {
        curves: vec![("capacity".into(), points)],
        marks: here.map(|point| Scatter { name, sign: 'x', points: vec![point] }).into_iter().collect(),
        x: ("Air".into(), from, to),
        y: ("Share".into(), 0.0, 100.0),
        ticks: (vec![tick(from), tick((from + to) / 2.0), tick(to)], ["0", "50", "100"].map(String::from).to_vec()),
        spare: true,
        ..Plot::default()
    };
    Pane { title: format!("Capacity left by temperature, {}", scene.symbol(Share::ZERO)), body: Body::Plot(plot) }
}

/// What a battery costs where the user buys it.
fn prices(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![Column::words("Chemistry").widest(38), Column::figures("100 Ah cost")];
    let row = move |i: usize| {
        let cell = |key: &'static str| {
            super::form::cell(&scene, Place { section: Section::Price, index: i, key }, super::form::nothing_chosen)
        };
        Row::new(format!("price {i}"), vec![cell("chemistry"), cell("per_100ah")])
    };
    let rows = scene.plan().prices.len();
    let empty = "no prices yet; n adds one, to compare what a year costs";
    let list = Some(Section::Price);
    Pane::table("Your prices", Table { columns, rows, row: Box::new(row), list, empty, start: 0 })
}
