//! The carrier: what is cut, bent and bolted, and whether it holds.

use crate::engine::simulate::hold_down::result::{Lift, Shape, Strength};
use crate::papers::document::{Cell, Column, Document, Table};
use crate::papers::job::Job;
use crate::plan::Choice;
use crate::quantity::{Figure, Unit, UnitSystem};

/// The carrier as a part of the report.
pub fn section(job: &Job, paper: &mut Document) {
    let Some(carrier) = &job.design.carrier else { return };
    paper.heading(1, "Carrier");
    let mut facts = vec![("Kind", carrier.style.key().to_string())];
    if let Some(mass) = carrier.battery_mass {
        facts.push(("Battery", mass.to_string()));
    }
    let torque = &carrier.torque;
    facts.push((
        "Torque",
        format!(
            "{}, which makes a preload of about {} ({} to {} by the scatter of friction)",
            torque.torque,
            rounded(torque.preload),
            rounded(torque.least),
            rounded(torque.greatest)
        ),
    ));
    facts.push(("Locking", carrier.locking.key().to_string()));
    if let Some(shape) = &carrier.shape {
        facts.push(("Height", shape.outside_height.to_string()));
        facts.push(("Steel", shape.steel_mass.to_string()));
    }
    if let Some(s) = &carrier.strength {
        let times = Figure::new(s.safety, Unit::Times);
        facts.push(("Shock", format!("{}, {} in all", s.shock, s.total_mass)));
        facts.push(("Studs", format!("used to {}, safety {times}", s.utilisation)));
        facts.push(("Holds at most", rounded(s.largest_mass)));
    }
    if let Some(lifting) = &carrier.lifting {
        let by = match lifting.by {
            Lift::One => "one person",
            Lift::Two => "two people",
            Lift::Jack => "a jack or hoist",
        };
        facts.push(("Lifting", format!("{} by {by}", lifting.mass)));
    }
    paper.facts(facts);
    carrier.shape.iter().for_each(|s| paper.table(blanks(s)));
    carrier.strength.iter().for_each(|s| {
        paper.table(studs(s));
        paper.table(cases(s));
    });
    paper.paragraph("What these figures do not cover:");
    paper.list(carrier.limits.iter().map(|l| (*l).to_string()).collect());
}

/// In two figures, never more than it is.
fn rounded(quantity: impl Into<Figure>) -> String {
    quantity.into().about_at_most(UnitSystem::Metric)
}

fn blanks(shape: &Shape) -> Table {
    let columns = [
        Column::text("piece", "Piece"),
        Column::number("count", "Count", Unit::Count),
        Column::number("length", "Blank", Unit::Millimetre),
        Column::number("width", "Width", Unit::Millimetre),
        Column::number("thickness", "Thick", Unit::Millimetre),
        Column::text("marks", "Middle of each bend, from one end"),
        Column::number("mass", "Mass", Unit::Kilogram),
    ];
    let mut table = Table::new("carrier-blanks", "Steel to cut, flat; bends of 90°", &columns);
    for b in &shape.blanks {
        let marks: Vec<String> = b.marks.iter().map(ToString::to_string).collect();
        table.row(vec![
            b.name.into(),
            Cell::count(b.count as usize),
            Cell::of(b.length),
            Cell::of(b.width),
            Cell::of(b.thickness),
            marks.join(", ").into(),
            Cell::of(b.mass),
        ]);
    }
    table
}

fn studs(strength: &Strength) -> Table {
    let columns = [
        Column::text("stud", "Stud"),
        Column::number("along", "Ahead", Unit::Millimetre),
        Column::number("across", "Right", Unit::Millimetre),
        Column::number("tension", "Pull", Unit::Newton),
        Column::number("shear", "Sideways", Unit::Newton),
        Column::number("utilisation", "Used", Unit::Share),
        Column::text("case", "Worst when thrown"),
    ];
    let mut table = Table::new("carrier-studs", "Each stud at its worst", &columns);
    for (n, s) in strength.studs.iter().enumerate() {
        table.row(vec![
            format!("S{}", n + 1).into(),
            Cell::of(s.along),
            Cell::of(s.across),
            Cell::of(s.tension),
            Cell::of(s.shear),
            Cell::of(s.utilisation),
            strength.cases.get(s.case).map_or("", |c| c.name).into(),
        ]);
    }
    table
}

fn cases(strength: &Strength) -> Table {
    let columns = [
        Column::text("direction", "Thrown"),
        Column::number("level", "Shock", Unit::Gravity),
        Column::number("along", "Along", Unit::Newton),
        Column::number("across", "Across", Unit::Newton),
        Column::number("upright", "Upright", Unit::Newton),
    ];
    let mut table = Table::new("carrier-shocks", "Force on the studs by direction, weight included", &columns);
    for c in &strength.cases {
        table.row(vec![c.name.into(), Cell::of(c.level), Cell::of(c.along), Cell::of(c.across), Cell::of(c.upright)]);
    }
    table
}
