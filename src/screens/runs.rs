//! Runs: size, drop, heat and fuse of each; and for the run in hand every size side by side.

use super::form::{self, Facts, form};
use super::pane::{Cell, Column, Offer, Pane, Row, Table};
use super::scene::Scene;
use super::strip;
use super::theme::Role;
use crate::engine::{RunDesign, SizeRow, Subject, run_name};
use crate::plan::{Place, Section, Value};
use crate::quantity::{Amps, Celsius, Kilograms, Share, Volts, WattHours};

/// The panes: all runs, every size for the run in hand, its fuses and limits,
/// the voltages along its path, its fields, the rules.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    let name = if scene.item < scene.plan().runs.len() { run_name(scene.plan(), scene.item) } else { "the run".into() };
    vec![
        table(scene),
        sizes(scene, &name),
        form(scene, format!("Fields of {name}"), &[Section::Run], scene.item, chosen),
        fuses(scene, &name),
        strip::pane(scene, scene.item),
        form(scene, "Rules of this plan", &[Section::Rules], 0, form::nothing_chosen),
    ]
}

fn table(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::label("Run"),
        Column::words("Name").widest(18),
        Column::words("From").widest(16),
        Column::words("To").widest(16),
        Column::figures("Length"),
        Column::figures("Size").widest(12),
        Column::figures("Carries").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Drop").unit(scene.symbol(Volts::ZERO)),
        Column::figures("Drop").unit(scene.symbol(Share::ZERO)),
        Column::figures("Copper").unit(scene.symbol(Celsius::ZERO)),
        Column::figures("Fuse"),
        Column::words("Decided by").widest(20),
    ];
    let empty = "no runs yet; N adds one";
    let row = move |i: usize| row(&scene, i);
    let rows = scene.plan().runs.len();
    Pane::table("Runs", Table { columns, rows, row: Box::new(row), list: Some(Section::Run), empty })
}

fn row(scene: &Scene<'_>, i: usize) -> Row {
    let field = |key| form::cell(scene, Place::run(i, key), chosen);
    let subject = || Subject::Run(i);
    let mut cells = vec![
        Cell::words(format!("R{}", i + 1)).role(Role::Muted),
        field("name"),
        field("from"),
        field("to"),
        field("length_m"),
        field("size"),
    ];
    let design = scene.design().runs.get(i);
    let size = design.and_then(|d| d.size.as_ref());
    cells.push(design.map_or_else(Cell::dash, |d| Cell::digits(scene, d.current)).topic(subject(), "current"));
    cells.push(size.map_or_else(Cell::dash, |s| Cell::digits(scene, s.drop)).topic(subject(), "drop"));
    cells.push(size.map_or_else(Cell::dash, |s| Cell::digits(scene, s.drop_share)).topic(subject(), "drop share"));
    cells.push(size.map_or_else(Cell::dash, |s| Cell::digits(scene, s.temperature)).topic(subject(), "temperature"));
    cells.push(field("fuse_a"));
    cells.push(Cell::words(design.map_or("", |d| d.ruling)));
    Row::new(format!("R{}", i + 1), cells)
}

/// What was chosen for a field of a run that the plan leaves out.
fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let design = scene.design().runs.get(place.index)?;
    let subject = Subject::Run(place.index);
    match place.key {
        "size" => Some(Cell::words(design.size.as_ref()?.label.clone()).topic(subject, "size")),
        "fuse_a" => Some(Cell::figure(scene, design.fuses.first()?.rating?).topic(subject, "fuse")),
        "fuse_style" => Some(Cell::words(design.fuses.first()?.style_name.clone())),
        "air_c" => Some(Cell::figure(scene, design.air).topic(subject, "air")),
        "current_a" => Some(Cell::figure(scene, design.current).topic(subject, "current")),
        _ => None,
    }
}

fn sizes<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let columns = vec![
        Column::words("Size").widest(12),
        Column::figures("Drop").unit(scene.symbol(Volts::ZERO)),
        Column::figures("Drop").unit(scene.symbol(Share::ZERO)),
        Column::figures("Copper").unit(scene.symbol(Celsius::ZERO)),
        Column::figures("Carries").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Fuse").unit(scene.symbol(Amps::ZERO)),
        Column::figures("Mass").unit(scene.symbol(Kilograms::ZERO)),
        Column::figures("Lost a day").unit(scene.symbol(WattHours::ZERO)),
        Column::words("Verdict").widest(34),
    ];
    let empty = "no size could be computed; see Findings";
    let design = scene.design().runs.get(scene.item);
    let rows = design.map_or(0, |d| d.sizes.len());
    let row = move |i: usize| match design.and_then(|d| Some((d, d.sizes.get(i)?))) {
        Some((d, s)) => size_row(&scene, d, s),
        None => Row::default(),
    };
    let title = format!("Every size for {name}");
    Pane::table(title, Table { columns, rows, row: Box::new(row), list: None, empty })
}

fn size_row(scene: &Scene<'_>, design: &RunDesign, s: &SizeRow) -> Row {
    let subject = || Subject::Size(design.run, s.label.clone());
    let (verdict, role) = verdict(design, s);
    let offer = Offer::Put {
        place: Place::run(design.run, "size"),
        value: Some(Value::Text(s.label.clone())),
        words: format!("use {}", s.label),
    };
    let mut cells = vec![
        Cell::words(s.label.clone()).role(if s.used { Role::Heading } else { Role::Text }),
        Cell::digits(scene, s.drop).topic(subject(), "drop"),
        Cell::digits(scene, s.drop_share).topic(subject(), "drop share"),
        Cell::digits(scene, s.temperature).topic(subject(), "temperature"),
        Cell::digits(scene, s.ampacity).topic(subject(), "ampacity"),
        s.fuse.map_or_else(Cell::dash, |f| Cell::digits(scene, f)).topic(subject(), "fuse"),
        Cell::digits(scene, s.mass).topic(subject(), "mass"),
        Cell::digits(scene, s.loss).topic(subject(), "loss"),
        Cell::words(verdict).role(role),
    ];
    for cell in &mut cells {
        cell.offer = Some(offer.clone());
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

fn fuses<'a>(scene: Scene<'a>, name: &str) -> Pane<'a> {
    let mut facts = Facts::default();
    let subject = || Subject::Run(scene.item);
    let Some(d) = scene.design().runs.get(scene.item) else { return facts.pane("Fuses and limits") };
    for f in &d.fuses {
        let of = |figure: crate::quantity::Figure, number: &'static str| {
            Cell::figure(&scene, figure).topic(subject(), format!("{number} at {}", f.at))
        };
        facts.heading(format!("Fuse at {}", f.at));
        let rating = f.rating.map_or_else(|| Cell::words("none fits").role(Role::Stop), |a| Cell::figure(&scene, a));
        facts.remark("Rating", rating.topic(subject(), format!("fuse at {}", f.at)), f.ruling, Role::Muted);
        facts.add("Style", Cell::words(f.style_name.clone()));
        facts.add("At least", of(f.at_least.into(), "fuse at least"));
        facts.add("At most", of(f.at_most.into(), "fuse at most"));
        facts.add("Fault current here", of(f.prospective.into(), "prospective"));
        facts.add("It can break", of(f.breaking.into(), "breaking"));
        facts.add("Fault at the far end", of(f.far_fault.into(), "far fault"));
        let opens = f.opens_within.map_or_else(|| Cell::words("not known"), |s| Cell::figure(&scene, s));
        facts.add("Then opens within", opens.topic(subject(), format!("opens within at {}", f.at)));
        facts.add("Sits within", of(f.within.into(), "within"));
    }
    facts.heading("Limits at this size");
    let limit = |figure: Option<(crate::quantity::Figure, &'static str)>, number: &'static str| match figure {
        Some((figure, stops)) => (Cell::figure(&scene, figure).topic(subject(), number), stops),
        None => (Cell::dash().topic(subject(), number), ""),
    };
    for (label, (cell, stops)) in [
        ("Longest length", limit(d.longest.map(|(l, s)| (l.into(), s)), "longest length")),
        ("Biggest current", limit(d.biggest.map(|(a, s)| (a.into(), s)), "biggest current")),
        ("Warmest air", limit(d.warmest.map(|(t, s)| (t.into(), s)), "warmest air")),
    ] {
        let remark = if stops.is_empty() { String::new() } else { format!("then {stops}") };
        facts.remark(label, cell, remark, Role::Muted);
    }
    facts.add("Short current on top", Cell::figure(&scene, d.surge).topic(subject(), "surge"));
    facts.add("Drop it may have", Cell::figure(&scene, d.drop_allowed).topic(subject(), "drop allowed"));
    facts.pane(format!("Fuses and limits of {name}"))
}
