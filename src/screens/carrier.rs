//! Hold-down: what holds the battery, how strong it is, which pieces to cut.

use super::form::{Facts, form};
use super::pane::{Cell, Column, Pane, Row, Table};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::Subject;
use crate::engine::simulate::hold_down::result::{CarrierDesign, Lift, Strength};
use crate::plan::{Place, Section, field_at};
use crate::quantity::{Figure, Millimetres, Newtons, Share};

/// The panes: the carrier's fields, how it holds, each stud, the pieces to cut.
pub fn panes(scene: Scene<'_>) -> Vec<Pane<'_>> {
    vec![
        form(scene, "Hold-down", &[Section::Carrier], 0, chosen),
        holds(scene),
        studs(scene),
        pieces(scene),
        given_studs(scene),
    ]
}

fn design<'a>(scene: &Scene<'a>) -> Option<&'a CarrierDesign> {
    scene.design().carrier.as_ref()
}

fn strength<'a>(scene: &Scene<'a>) -> Option<&'a Strength> {
    design(scene).and_then(|d| d.strength.as_ref())
}

fn chosen(scene: &Scene<'_>, place: Place) -> Option<Cell> {
    let carrier = design(scene)?;
    let shape = carrier.shape.as_ref();
    match place.key {
        "torque_nm" => Some(Cell::figure(scene, carrier.torque.torque).topic(Subject::Carrier, "torque")),
        "length_mm" => Some(Cell::figure(scene, shape?.inside.along)),
        "width_mm" => Some(Cell::figure(scene, shape?.inside.across)),
        "height_mm" => Some(Cell::figure(scene, shape?.inside.upright)),
        "k_factor" => Some(Cell::figure(scene, shape?.k_factor)),
        "centre_mm" => Some(Cell::figure(scene, carrier.strength.as_ref()?.lever)),
        _ => None,
    }
}

fn holds(scene: Scene<'_>) -> Pane<'_> {
    let mut facts = Facts::of(scene, Subject::Carrier);
    let Some(c) = design(&scene) else {
        facts.remark("Style", Cell::words("none"), "choose a style to have it designed", Role::Muted);
        return facts.pane("How it holds");
    };
    if let Some(s) = &c.strength {
        strong(&scene, s, &mut facts);
    } else {
        let words = "give the battery's mass and dimensions";
        facts.remark("Strength", Cell::dash(), words, Role::Muted);
    }
    facts.heading("Tightening");
    facts.number("Torque", c.torque.torque, "torque");
    facts.number("Preload", c.torque.preload, "preload");
    facts.add("Preload of proof load", Cell::figure(&scene, c.torque.share_of_proof));
    facts.heading("Getting it in");
    let mass = c.battery_mass.map(Figure::from);
    facts.add("Battery", Cell::maybe(&scene, mass));
    if let Some(lifting) = &c.lifting {
        let by = match lifting.by {
            Lift::One => "one person",
            Lift::Two => "two people",
            Lift::Jack => "a jack or a hoist",
        };
        facts.remark("Heaviest piece", Cell::figure(&scene, lifting.mass), by, Role::Text);
    }
    facts.heading("Not covered");
    for limit in c.limits {
        facts.remark("·", Cell::words(""), *limit, Role::Caution);
    }
    facts.pane("How it holds")
}

fn strong(scene: &Scene<'_>, s: &Strength, facts: &mut Facts<'_>) {
    facts.heading(format!("Shock: {}", s.shock));
    let role = if s.utilisation > Share::FULL { Role::Stop } else { Role::Good };
    let words = if role == Role::Stop { "does not hold" } else { "holds" };
    facts.remark("Use of the worst stud", facts.cell(s.utilisation, "utilisation"), words, role);
    let worst = s.cases.get(s.ruling).map_or("", |c| c.name);
    facts.remark("Worst direction", Cell::words(worst), "", Role::Text);
    facts.number("Largest battery it holds", s.largest_mass, "largest mass");
    facts.add("Battery and steel", Cell::figure(scene, s.total_mass));
    facts.number("One stud stands", s.proof_load, "proof load");
    let slip = Figure::new(s.slip_margin, crate::quantity::Unit::Times);
    let slips = if s.slip_margin < 1.0 { "the studs bear sideways" } else { "friction holds it" };
    facts.remark("Friction over sideways", facts.cell(slip, "slip margin"), slips, Role::Muted);
    if let Some(strip) = &s.strip {
        facts.number("Strip at its hole", strip.stress, "strip stress");
    }
    if let Some(rods) = &s.hold_down {
        let words = format!("{} rods, {}", rods.rods, rods.case);
        facts.remark("Use of a rod", Cell::figure(scene, rods.utilisation), words, Role::Muted);
    }
}

fn studs(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::label("Stud"),
        Column::figures("Ahead").unit(scene.symbol(Millimetres::ZERO)),
        Column::figures("Right").unit(scene.symbol(Millimetres::ZERO)),
        Column::figures("Pull").unit(scene.symbol(Newtons::ZERO)),
        Column::figures("Sideways").unit(scene.symbol(Newtons::ZERO)),
        Column::figures("Use").unit(scene.symbol(Share::ZERO)),
        Column::words("Worst"),
    ];
    let strength = strength(&scene);
    let rows = strength.map_or(&[][..], |s| s.studs.as_slice()).iter().enumerate().map(|(n, stud)| {
        let case = strength.and_then(|s| s.cases.get(stud.case)).map_or("", |c| c.name);
        let role = if stud.utilisation > Share::FULL { Role::Stop } else { Role::Text };
        Row::new(
            format!("stud {}", n + 1),
            vec![
                Cell::words(format!("{}", n + 1)),
                Cell::digits(&scene, stud.along),
                Cell::digits(&scene, stud.across),
                Cell::digits(&scene, stud.tension),
                Cell::digits(&scene, stud.shear),
                Cell::digits(&scene, stud.utilisation).role(role).topic(Subject::Carrier, "utilisation"),
                Cell::words(case),
            ],
        )
    });
    let mut table = Table::of(columns, rows.collect());
    table.empty = "strength needs a style, a mass and dimensions";
    Pane::table("Each stud", table)
}

fn pieces(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![
        Column::words("Piece").widest(18),
        Column::figures("Count"),
        Column::figures("Length"),
        Column::figures("Width"),
        Column::figures("Thick"),
        Column::figures("Mass"),
        Column::words("Bend at").widest(40),
    ];
    let shape = design(&scene).and_then(|d| d.shape.as_ref());
    let rows = shape.map_or(&[][..], |s| s.blanks.as_slice()).iter().map(|b| {
        // Of the pieces of a basket the cross strip's length is worked out; the others follow alike.
        let length = Cell::figure(&scene, b.length);
        let length = if b.name == "cross strip" { length.topic(Subject::Carrier, "blank length") } else { length };
        let marks: Vec<String> = b.marks.iter().map(|m| scene.show(*m)).collect();
        Row::new(
            b.name,
            vec![
                Cell::words(b.name),
                Cell::words(b.count.to_string()),
                length,
                Cell::figure(&scene, b.width),
                Cell::figure(&scene, b.thickness),
                Cell::figure(&scene, b.mass).topic(Subject::Carrier, format!("mass of {}", b.name)),
                Cell::words(marks.join(", ")),
            ],
        )
    });
    let mut table = Table::of(columns, rows.collect());
    table.empty = "pieces need the battery's or the inside dimensions";
    Pane::table("Pieces to cut", table)
}

/// Studs that lie where the plan says, instead of on a grid.
fn given_studs(scene: Scene<'_>) -> Pane<'_> {
    let columns = vec![Column::label("Stud"), Column::figures("Ahead"), Column::figures("Right")];
    let row = move |i: usize| {
        let cell = |key: &'static str| {
            let place = Place { section: Section::Stud, index: i, key };
            debug_assert!(field_at(place).is_some());
            super::form::cell(&scene, place, super::form::nothing_chosen)
        };
        Row::new(format!("stud {i}"), vec![Cell::words((i + 1).to_string()), cell("along_mm"), cell("across_mm")])
    };
    let rows = scene.plan().studs.len();
    let empty = "studs stand on a grid; n adds one by its own place";
    let list = Some(Section::Stud);
    Pane::table("Studs by their own place", Table { columns, rows, row: Box::new(row), list, empty, start: 0 })
}
