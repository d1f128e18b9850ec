//! Runs: size, drop, heat and fuse of each; and for the run in hand every size side by side.

use super::form::{self, form};
use super::pane::{Cell, Column, Offer, Pane, Row, Table};
use super::scene::Scene;
use super::theme::Role;
use super::{limits, strip};
use crate::engine::{RunDesign, SizeRow, Subject, run_name};
use crate::plan::{Place, Section, Value};
use crate::quantity::{Amps, Celsius, Figure, Kilograms, Share, Volts, WattHours};

/// The panes: all runs, every size for the run in hand, its fuses and limits,
/// the voltages along its path, its fields, the rules.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    let name = if scene.item < scene.design().installation.runs.len() {
        run_name(&scene.design().installation.runs, scene.item)
    } else {
        "the run".into()
    };
    vec![
        table(scene),
        sizes(scene, &name),
        fields(scene, &name),
        limits::pane(scene, &name),
        strip::pane(scene, scene.item),
        form(scene, "Rules of this plan", &[Section::Rules], 0, rule),
    ]
}

/// What is entered for the run in hand; a lead is entered with its load.
fn fields<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let title = format!("Fields of {name}");
    match scene.design().installation.load_of(scene.item) {
        Some(load) => form(scene, title, &[Section::Load], load, chosen),
        None => form(scene, title, &[Section::Run], scene.item, chosen),
    }
}

fn table(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::label("Run"),
        Column::words("From").widest(15),
        Column::words("To").widest(16),
        Column::figures("Length"),
        Column::figures("Size").widest(12),
        Column::figures("Fuse"),
        Column::figures("Flows").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Drop").unit(scene.symbol(Volts::ZERO)),
        Column::words("Decided by").widest(20),
        Column::figures("Drop").unit(scene.symbol(Share::ZERO)),
        Column::figures("Copper").unit(scene.symbol(Celsius::ZERO)),
        Column::words("Name").widest(18),
    ];
    let empty = "no runs yet; N adds one";
    let row = move |i: usize| row(&scene, i);
    let rows = scene.design().installation.runs.len();
    Pane::table("Runs", Table { columns, rows, row: Box::new(row), list: Some(Section::Run), empty, start: 0 })
}

fn row(scene: &Scene<'_>, i: usize) -> Row {
    let site = &scene.design().installation;
    let field = |key| match site.place_of(Place::run(i, key)) {
        Some(place) => form::cell(scene, place, chosen),
        None => Cell::dash(),
    };
    let subject = || Subject::Run(i);
    let design = scene.design().runs.get(i);
    let size = design.and_then(|d| d.size.as_ref());
    let of_size = |figure: fn(&SizeRow) -> Figure, number: &'static str| {
        size.map_or_else(Cell::dash, |s| Cell::digits(scene, figure(s))).topic(subject(), number)
    };
    let cells = vec![
        Cell::words(format!("R{}", i + 1)).role(Role::Muted),
        field("from"),
        field("to"),
        field("length_m"),
        field("size"),
        field("fuse_a"),
        design.map_or_else(Cell::dash, |d| Cell::digits(scene, d.current)).topic(subject(), "current"),
        of_size(|s| s.drop.into(), "drop"),
        Cell::words(design.map_or("", |d| d.ruling)),
        of_size(|s| s.drop_share.into(), "drop"),
        of_size(|s| s.temperature.into(), "temperature"),
        field("name"),
    ];
    Row::new(format!("R{}", i + 1), cells)
}

/// What was chosen for a field of a run, or of a load's lead, that the plan leaves out.
pub(super) fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let run = match place.section {
        Section::Load => scene.design().installation.lead_of(place.index)?,
        _ => place.index,
    };
    let design = scene.design().runs.get(run)?;
    let subject = Subject::Run(run);
    match place.key.trim_start_matches("lead_") {
        "size" => Some(Cell::words(design.size.as_ref()?.label.clone()).topic(subject, "drop allowed")),
        "fuse_a" => Some(Cell::figure(scene, design.fuses.first()?.rating?).topic(subject, "fuse at least")),
        "fuse_style" => Some(Cell::words(design.fuses.first()?.style_name.clone())),
        "air_c" => Some(Cell::figure(scene, design.air)),
        "current_a" => Some(Cell::figure(scene, design.current).topic(subject, "current")),
        _ => None,
    }
}

/// The catalogue's rule where the plan has none of its own.
fn rule(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let rules = &scene.state.catalogue.rules;
    let class = |key: &str| Some(Cell::figure(scene, rules.class(key)?.limit));
    match place.key {
        "placement" => Some(Cell::words(rules.placement.first()?.key.clone())),
        "fuse_loading" => Some(Cell::figure(scene, rules.fuse_loading.value)),
        "drop_critical" => class("critical"),
        "drop_ordinary" => class("ordinary"),
        "drop_tolerant" => class("tolerant"),
        "smallest_mm2" => Some(Cell::figure(scene, rules.smallest.value)),
        "most_sizes" => Some(Cell::words("as many as needed")),
        _ => None,
    }
}

fn sizes<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let columns = vec![
        Column::words("Size").widest(12),
        Column::figures("Drop").unit(scene.symbol(Volts::ZERO)),
        Column::figures("Drop").unit(scene.symbol(Share::ZERO)),
        Column::figures("Copper").unit(scene.symbol(Celsius::ZERO)),
        Column::figures("Ampacity").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Fuse").unit(scene.symbol(Amps::ZERO)),
        Column::words("Verdict").widest(34),
        Column::figures("Mass").unit(scene.symbol(Kilograms::ZERO)),
        Column::figures("Lost").unit(format!("{} a day", scene.symbol(WattHours::ZERO))),
        Column::figures("by table").unit(scene.symbol(Amps::ZERO)),
        Column::figures("by heat").unit(scene.symbol(Amps::ZERO)),
    ];
    let empty = "no size could be computed; see Findings";
    let design = scene.design().runs.get(scene.item);
    let rows = design.map_or(0, |d| d.sizes.len());
    let start = design.and_then(|d| d.sizes.iter().position(|s| s.used)).unwrap_or(0);
    let row = move |i: usize| match design.and_then(|d| Some((d, d.sizes.get(i)?))) {
        Some((d, s)) => size_row(&scene, d, s),
        None => Row::default(),
    };
    let title = format!("Every size for {name}");
    Pane::table(title, Table { columns, rows, row: Box::new(row), list: None, empty, start })
}

fn size_row(scene: &Scene<'_>, design: &RunDesign, s: &SizeRow) -> Row {
    // The workings kept are those of the size in use.
    let subject = || if s.used { Subject::Run(design.run) } else { Subject::Size(design.run, s.label.clone()) };
    let of = |figure: Figure, number: &'static str| Cell::digits(scene, figure).topic(subject(), number);
    let maybe = |amps: Option<Amps>, number: &'static str| {
        amps.map_or_else(Cell::dash, |a| Cell::digits(scene, a)).topic(subject(), number)
    };
    let (verdict, role) = verdict(design, s);
    let mut cells = vec![
        Cell::words(s.label.clone()).role(if s.used { Role::Heading } else { Role::Text }),
        of(s.drop.into(), "drop"),
        of(s.drop_share.into(), "drop"),
        of(s.temperature.into(), "temperature"),
        of(s.ampacity.into(), "ampacity"),
        // Only the fuse of the size in use has been worked out in full.
        if s.used {
            maybe(s.fuse, "fuse at least")
        } else {
            s.fuse.map_or_else(Cell::dash, |a| Cell::digits(scene, a))
        },
        Cell::words(verdict).role(role),
        of(s.mass.into(), "mass"),
        of(s.loss.into(), "loss"),
        maybe(s.ampacity_table, "ampacity by table"),
        maybe(s.ampacity_heat, "ampacity by heat balance"),
    ];
    let pinned = s.used && design.pinned;
    let value = (!pinned).then(|| Value::Text(s.label.clone()));
    let words = if pinned { "leave the size to the program".into() } else { format!("use {}", s.label) };
    for cell in &mut cells {
        let (value, words) = (value.clone(), words.clone());
        let place = scene.design().installation.place_of(Place::run(design.run, "size"));
        cell.offer = place.map(|place| Offer::Put { place, value, words });
    }
    Row::new(s.label.clone(), cells)
}

fn verdict(design: &RunDesign, s: &SizeRow) -> (String, Role) {
    let fails = s.fails.join(", ");
    match (s.used, s.fails.is_empty()) {
        (true, true) if design.pinned => ("given, and it passes".into(), Role::Good),
        (true, true) => (format!("used: {} decides", design.ruling), Role::Good),
        (true, false) => (format!("used, but fails: {fails}"), Role::Stop),
        (false, true) => ("passes".into(), Role::Text),
        (false, false) => (format!("fails: {fails}"), Role::Muted),
    }
}
