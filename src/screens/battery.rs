//! Battery: how big, and of which chemistry, side by side.

use super::form::{self, form};
use super::pane::{Body, Cell, Column, Offer, Pane, Plot, Scatter, Table, marks};
use super::promise;
use super::results::{Columns, Facts};
use super::scene::Scene;
use super::supply::capital;
use super::theme::Role;
use crate::engine::design::results::fact::At;
use crate::engine::installation::place::{coldest_air, hottest};
use crate::engine::simulate::battery::BySheets;
use crate::engine::simulate::battery::Criterion;
use crate::engine::simulate::standing::Standing;
use crate::engine::{Bank, BatteryCurves, BatteryDesign, Candidate, Subject, battery_curves, cold_factor};
use crate::plan::{Place, Section, Value};
use crate::quantity::{Celsius, Figure, Share, Volts};

/// The panes: the battery and its surroundings, the candidates, the bank that
/// follows, its curves, the user's prices.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    const SECTIONS: &[Section] = &[Section::ServiceBattery, Section::Standing, Section::Surroundings];
    vec![
        form(scene, "Service battery and surroundings", SECTIONS, 0, chosen),
        candidates(scene),
        bank(scene),
        resting(scene),
        capacity(scene),
        prices(scene),
        unlike(scene),
        measured(scene),
    ]
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    if place.section == Section::Standing {
        return standing(scene, place);
    }
    if place.section != Section::ServiceBattery {
        return None;
    }
    let battery = &scene.design().battery;
    let of_bank = |fact| Some(Cell::fact(scene, fact, battery.bank.as_ref()?, scene.at(0)));
    match place.key {
        "capacity_ah" => of_bank(Bank::CAPACITY),
        "in_parallel" => of_bank(Bank::BLOCKS),
        "mass_kg" => of_bank(Bank::MASS),
        "resistance_mohm" => of_bank(Bank::RESISTANCE),
        "days_without_charge" => Some(Cell::figure(scene, scene.design().installation.days_without_charge)),
        "place" => Some(Cell::fact(scene, BatteryDesign::PLACE, battery, scene.at(0))),
        "coldest_c" => Some(Cell::figure(scene, coldest_air(&scene.design().installation))),
        "hottest_c" => Some(Cell::figure(scene, hottest(&scene.design().installation))),
        "depth" => Some(Cell::fact(scene, BatteryDesign::DEPTH, battery, scene.at(0))),
        "end_of_life" => {
            let chemistry = scene.state.catalogue.chemistry(&scene.plan().service_battery.chemistry);
            Some(Cell::figure(scene, chemistry?.life.end_of_life))
        }
        _ => None,
    }
}

fn standing(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let standing = scene.design().standing.as_ref()?;
    match place.key {
        "days" => Some(Cell::fact(scene, Standing::DAYS, standing, scene.at(0))),
        "coldest_c" => Some(Cell::figure(scene, standing.coldest)),
        _ => None,
    }
}

fn candidates(scene: Scene<'_>) -> Pane<'_> {
    let list = &scene.design().battery.candidates;
    let candidate = move |i: usize| Some((list.get(i)?, scene.at(i)));
    let bank = move |i: usize| {
        let c = list.get(i)?;
        Some((c.bank.as_ref()?, At { candidate: Some(&c.chemistry), ..scene.at(i) }))
    };
    let chosen = move |i: usize| list.get(i).is_some_and(|c| c.chosen);
    let columns = Columns::new(scene)
        .fact(Candidate::NAME, candidate)
        .widest(28)
        .but(move |i, cell| cell.role(if chosen(i) { Role::Heading } else { Role::Text }))
        .own(Column::label("").widest(8), move |i| Cell::words(if chosen(i) { "planned" } else { "" }).role(Role::Good))
        .fact(Candidate::NEEDED, candidate)
        .own(Column::figures(Candidate::BANK.label).widest(16), move |i| {
            candidate(i).map_or_else(Cell::dash, |(c, at)| of_blocks(&scene, c, at))
        })
        .fact(Bank::MASS, bank)
        .facts([Candidate::USABLE, Candidate::LASTS], candidate)
        .fact(Candidate::CHARGES_COLD, candidate)
        .widest(18)
        .but(move |i, cell| match list.get(i) {
            Some(c) if !c.charges_cold => {
                Cell { text: format!("not below {}", scene.show(c.charge_min)), ..cell }.role(Role::Stop)
            }
            _ => cell.role(Role::Good),
        })
        .facts([Candidate::RECHARGE, Candidate::CHARGE_MAX], candidate)
        .fact(Candidate::RULING, candidate)
        .widest(22)
        .facts([Candidate::CHARGER, Candidate::PRICE, Candidate::PRICE_A_YEAR], candidate)
        .offer(move |i| list.get(i).map(offer));
    let start = list.iter().position(|c| c.chosen).unwrap_or(0);
    let key = move |i: usize| list.get(i).map_or_else(String::new, |c| c.chemistry.clone());
    let empty = "no candidates could be computed; see Findings";
    Pane::table("Chemistries side by side", Table { empty, start, ..columns.table(list.len(), key) })
}

/// Enter plans with a chemistry.
fn offer(c: &Candidate) -> Offer {
    Offer::Put {
        place: Place::of(Section::ServiceBattery, "chemistry"),
        value: Some(Value::Text(c.chemistry.clone())),
        words: format!("plan with {}", c.name),
    }
}

/// The bank as its blocks.
fn of_blocks(scene: &Scene<'_>, c: &Candidate, at: At<'_>) -> Cell {
    let cell = Cell::fact(scene, Candidate::BANK, c, at);
    match &c.bank {
        None => Cell { text: "none big enough".into(), ..cell }.role(Role::Stop),
        Some(b) => Cell { text: blocks(scene, b), ..cell }.role(Role::Text),
    }
}

fn blocks(scene: &Scene<'_>, b: &Bank) -> String {
    if b.blocks == 1 { scene.show(b.capacity) } else { format!("{} × {}", b.blocks, scene.show(b.block)) }
}

fn bank(scene: Scene<'_>) -> Pane<'_> {
    let (battery, at) = (&scene.design().battery, scene.at(0));
    let mut facts = Facts::new(scene);
    facts.heading("Capacity asked for by each rule");
    for c in &battery.criteria {
        let (remark, role) =
            if battery.ruling == Some(c.by) { ("this one decides", Role::Heading) } else { ("", Role::Text) };
        facts.remark(capital(c.by.name()), Cell::fact(&scene, Criterion::NEEDED, c, at), remark, role);
    }
    facts.heading(BatteryDesign::BANK.label);
    match &battery.bank {
        Some(b) => {
            facts.list(b, at, &[Bank::CAPACITY]);
            facts.add(Bank::BLOCKS.label, Cell::words(format!("{} × {}", b.blocks, scene.show(b.block))));
            facts.list(b, at, &[Bank::MASS]);
            facts.list(battery, at, &[BatteryDesign::USABLE, BatteryDesign::DEPTH_REACHED]);
            facts.list(b, at, &[Bank::RESISTANCE, Bank::RESISTANCE_WORST, Bank::FAULT]);
            if battery.vent_air.get() > 0.0 {
                facts.list(battery, at, &[BatteryDesign::VENT_AIR, BatteryDesign::VENT_OPENING]);
            }
        }
        None => facts.add(Bank::CAPACITY.label, Cell::dash().topic(Subject::ServiceBattery, "capacity")),
    }
    let near = scene.design().near_banks();
    if !near.is_empty() {
        facts.heading("Smaller banks, tried");
    }
    for n in near {
        let price = n.price.map_or_else(String::new, |p| format!(", {}", scene.show(p)));
        let lasts = Cell::words(format!("{} of {}", scene.digits(n.lasts), scene.show(n.of)));
        facts.remark(blocks(&scene, &n.bank), lasts, format!("{}{price}", scene.show(n.bank.mass)), Role::Muted);
    }
    if let Some(s) = scene.design().by_sheets() {
        facts.heading("In an hour, of its rating");
        facts.told(s, at, BySheets::MODEL, "which sizes it", Role::Muted);
        let would = s.bank.as_ref().map_or_else(|| "the same bank".into(), |b| blocks(&scene, b));
        facts.told(s, at, BySheets::SHEETS, format!("{would} would do"), Role::Muted);
    }
    if let Some(standing) = &scene.design().standing {
        facts.heading("Left without use");
        let all = [Standing::DAYS, Standing::DRAW, Standing::LEFT, Standing::GOOD_FOR, Standing::EMPTY_AFTER];
        facts.list(standing, at, &all);
    }
    promise::trials(&scene, &mut facts);
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
        across: marks(5, 0.0, 100.0, |share| scene.digits(Figure::number(share))),
        up: marks(3, low, high, tick),
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
        across: marks(3, from, to, tick),
        up: marks(3, 0.0, 100.0, |share| scene.digits(Figure::number(share))),
        spare: true,
        ..Plot::default()
    };
    Pane { title: format!("Capacity left by temperature, {}", scene.symbol(Share::ZERO)), body: Body::Plot(plot) }
}

/// Blocks that differ.
fn unlike(scene: Scene<'_>) -> Pane<'_> {
    let field = move |key| form::column(scene, Section::Block, key, form::nothing_chosen);
    let columns = Columns::new(scene)
        .own(Column::figures("Block"), field("capacity_ah"))
        .own(Column::words("Chemistry").widest(24), field("chemistry"))
        .own(Column::figures("Age"), field("age_y"));
    let table = columns.table(scene.plan().blocks.len(), |i| format!("block {i}"));
    let empty = "all blocks alike; n adds one where they differ";
    Pane::table("Blocks", Table { list: Some(Section::Block), empty, ..table })
}

/// What a battery costs where the user buys it.
fn prices(scene: Scene<'_>) -> Pane<'_> {
    let field = move |key| form::column(scene, Section::Price, key, form::nothing_chosen);
    let columns = Columns::new(scene)
        .own(Column::words("Chemistry").widest(38), field("chemistry"))
        .own(Column::figures("100 Ah cost"), field("per_100ah"))
        .own(Column::words("or part").widest(38), field("part"))
        .own(Column::figures("Each costs"), field("each"));
    let table = columns.table(scene.plan().prices.len(), |i| format!("price {i}"));
    let empty = match scene.state.catalogue.prices.is_empty() {
        true => "no prices yet; n adds one, to compare what a year costs",
        false => "none of this plan, so those of your own profiles count; n adds one that counts before them",
    };
    Pane::table("Prices", Table { list: Some(Section::Price), empty, ..table })
}

/// What the battery was found to hold over the years.
fn measured(scene: Scene<'_>) -> Pane<'_> {
    let field = move |key| form::column(scene, Section::Measured, key, form::nothing_chosen);
    let columns = Columns::new(scene)
        .own(Column::figures("Year"), field("year"))
        .own(Column::figures("Month"), field("month"))
        .own(Column::figures("Held"), field("capacity_ah"))
        .own(Column::figures("Least"), field("least_ah"))
        .own(Column::figures("Most"), field("most_ah"))
        .own(Column::figures("Inside"), field("resistance_mohm"));
    let table = columns.table(scene.plan().measured.len(), |i| format!("measurement {i}"));
    let empty = "nothing measured yet; n adds the month in which it was fitted, then each test";
    Pane::table("Measured", Table { list: Some(Section::Measured), empty, ..table })
}
