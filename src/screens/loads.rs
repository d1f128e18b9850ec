//! Loads: what uses energy, when, and how much a day.

use super::form::{self, Facts, form};
use super::pane::{Cell, Column, Pane, Row, Table};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::Subject;
use crate::plan::{Place, Section};
use crate::quantity::{AmpHours, Amps, Volts, WattHours};

/// The panes: all loads, what they add up to, the load in hand, the inverter.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![
        table(scene),
        a_day(scene),
        form(scene, format!("Fields of {}", in_hand(&scene)), &[Section::Load], scene.item, chosen),
        form(scene, "Job and inverter", &[Section::Job, Section::Inverter], 0, form::nothing_chosen),
    ]
}

fn in_hand(scene: &Scene<'_>) -> String {
    scene.plan().loads.get(scene.item).map_or_else(|| "the load".into(), |l| format!("“{}”", l.name))
}

fn table(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::words("Load").widest(22),
        Column::words("At").widest(16),
        Column::figures("Count"),
        Column::figures("Power").unit("of one"),
        Column::figures("Hours").unit("a day"),
        Column::figures("Share").unit("25 °C"),
        Column::figures("A day").unit(scene.symbol(AmpHours::ZERO)),
        Column::figures("Draws").unit(scene.symbol(Amps::ZERO)),
        Column::figures("A day").unit(scene.symbol(WattHours::ZERO)),
        Column::figures("Gets").unit(scene.symbol(Volts::ZERO)),
        Column::words("Fits").widest(14),
        Column::figures("Lead"),
        Column::figures("Size").unit("of lead").widest(12),
        Column::figures("Fuse").unit("of lead"),
        Column::figures("Share").unit("counted"),
    ];
    let row = move |i: usize| row(&scene, i);
    let empty = "no loads yet; n picks one from the list";
    let rows = scene.plan().loads.len();
    Pane::table("Loads", Table { columns, rows, row: Box::new(row), list: Some(Section::Load), empty, start: 0 })
}

fn row(scene: &Scene<'_>, i: usize) -> Row {
    let Some(load) = scene.plan().loads.get(i) else { return Row::default() };
    let field = |key| form::cell(scene, Place::load(i, key), chosen);
    let power = if load.current.is_some() { "current_a" } else { "power_w" };
    let mut cells = vec![
        field("name"),
        field("at"),
        field("count"),
        field(power),
        field("duty.hours_a_day"),
        field("duty.share_on"),
    ];
    let subject = || Subject::Load(i);
    match scene.design().budget.loads.get(i) {
        Some(b) => cells.extend([
            Cell::digits(scene, b.charge).topic(subject(), "charge a day"),
            Cell::digits(scene, b.running).topic(subject(), "running current"),
            Cell::digits(scene, b.energy).topic(subject(), "energy a day"),
        ]),
        None => cells.extend([Cell::dash(), Cell::dash(), Cell::dash()]),
    }
    // A load on the inverter gets what the inverter makes; the 12 V side is the inverter's.
    let supplied = || if load.inverter { Subject::Inverter } else { Subject::Load(i) };
    match scene.design().loads.get(i) {
        Some(s) => cells.extend([
            s.voltage.map_or_else(Cell::dash, |v| Cell::digits(scene, v)).topic(supplied(), "voltage"),
            if s.fits {
                Cell::words("yes").role(Role::Good)
            } else {
                Cell::words(format!("no, drop {}", scene.show(s.drop_share))).role(Role::Stop)
            }
            .topic(supplied(), "drop"),
        ]),
        None => cells.extend([Cell::dash(), Cell::dash()]),
    }
    cells.extend(["lead_m", "lead_size", "lead_fuse_a"].map(field));
    let counted = scene.design().budget.loads.get(i).map(|b| b.share);
    cells.push(Cell::maybe(scene, counted).topic(subject(), "share"));
    Row::new(load.name.clone(), cells)
}

/// What is used for a field of a load that the plan leaves out.
fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let budget = scene.design().budget.loads.get(place.index)?;
    match place.key {
        "lead_size" | "lead_fuse_a" => super::runs::chosen(scene, place),
        "duty.hours_a_day" => Some(Cell::figure(scene, budget.hours).topic(Subject::Load(place.index), "hours")),
        _ => None,
    }
}

fn a_day(scene: Scene<'_>) -> Pane<'_> {
    let b = &scene.design().budget;
    let mut facts = Facts::of(scene, Subject::Budget);
    facts.number("Charge a day", b.charge, "charge a day");
    facts.number("Energy a day", b.energy, "energy a day");
    facts.number("By day", b.by_day, "charge by day");
    facts.number("By night", b.by_night, "charge by night");
    facts.number("While driving", b.driving, "charge while driving");
    facts.number("While parked", b.parked, "charge while parked");
    facts.number("Standing draws", b.standing, "standing");
    if scene.plan().inverter.rating.get() > 0.0 {
        facts.number("Inverter idle", b.inverter_idle, "inverter idle");
    }
    facts.number("All that can be on", b.peak, "peak current");
    let starts = b.surge_load.and_then(|i| scene.plan().loads.get(i)).map_or("", |l| l.name.as_str());
    let remark = if starts.is_empty() { String::new() } else { format!("when the {starts} starts") };
    facts.remark("Worst start on top", facts.cell(b.surge, "surge current"), remark, Role::Muted);
    facts.number("Usual at night", b.usual, "usual current");
    facts.number("Least that flows", b.light, "light current");
    facts.number("Warmest month", b.summer_day, "charge of a summer day");
    facts.number("Hottest day", b.hot_day, "charge of a hot day");
    facts.pane("What it adds up to")
}
