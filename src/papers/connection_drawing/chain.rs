//! Which pieces and devices does one run consist of, from one end to the other?

use crate::engine::{
    Connections, Cut, Joins, Joint, PANELS, PANELS_DEVICE, Part as TerminalPart, Polarity, Terminal, Wire,
};
use crate::papers::cut_list::lug;
use crate::plan::point;
use crate::quantity::{Figure, UnitSystem};
use itertools::Itertools;

/// A run as it is drawn: the plus with its devices, the minus below it.
pub struct Row {
    /// From the end toward the battery to the other.
    pub plus: Vec<Element>,
    /// The way of a board in which its first device sits.
    pub way: Option<String>,
    /// The way back, with its devices; of a return through the body the piece to it.
    pub minus: Vec<Element>,
    /// Where the plus begins and ends.
    pub ends: Option<[Terminal; 2]>,
    /// Where the minus begins and ends, toward the battery first.
    pub back: Option<[Terminal; 2]>,
    /// What hangs between plus and minus of its far end.
    pub hangs: Vec<String>,
}

/// A piece of cable in words.
pub struct Piece {
    /// `R3 + 1 red`.
    pub name: String,
    /// `35 mm², 2.4 m`.
    pub size: String,
    /// `M8 to M6`.
    pub lugs: String,
}

/// What the plus leads through.
pub enum Element {
    /// A piece of cable.
    Piece(Piece),
    /// A fuse or breaker: its name, rating and style.
    Device(String, String, String),
    /// A way without a device.
    Bridge(String),
}

/// Every run with cable: those of one place together, else in the order of the list.
pub fn rows(list: &Connections, system: UnitSystem) -> Vec<Row> {
    let stems = list.wires.iter().map(|w| w.cut.stem.as_str()).unique();
    let mut rows: Vec<Row> = stems.map(|stem| row(list, stem, system)).collect();
    let begins = |row: &Row| row.ends.as_ref().or(row.back.as_ref()).map(|ends| ends[0].at.clone());
    let places: Vec<Option<String>> = rows.iter().map(begins).unique().collect();
    rows.sort_by_cached_key(|row| places.iter().position(|place| *place == begins(row)));
    rows
}

fn row(list: &Connections, stem: &str, system: UnitSystem) -> Row {
    let wires = || list.wires.iter().filter(move |w| w.cut.stem == stem);
    let run = wires().find_map(|w| w.cut.run);
    let mut parts: Vec<Part<'_>> = wires().filter(|w| w.cut.polarity == Polarity::Positive).map(Part::wire).collect();
    let own = move |j: &Joint| if run.is_some() { j.run == run } else { stem == PANELS && j.name == PANELS_DEVICE };
    let devices = || list.joints.iter().filter(move |j| own(j));
    let in_minus = |j: &&Joint| j.terminals.iter().all(|t| t.polarity == Polarity::Negative);
    parts.extend(devices().filter(|j| !in_minus(j)).filter_map(Part::joint));
    let mut plus = in_line(parts);
    // The device of a shared way belongs to a run without cable.
    let shared = plus.first().map(|first| first.ends[0].clone()).and_then(|begins| {
        let cabled = |joint: &Joint| list.wires.iter().any(|w| w.cut.run == joint.run);
        let before = list.joints.iter().filter(|j| j.run.is_some() && !cabled(j)).filter_map(Part::joint);
        before.into_iter().find(|part| *part.ends[1] == begins)
    });
    plus.splice(0..0, shared);
    let ends = plus.first().zip(plus.last()).map(|(first, last)| [first.ends[0].clone(), last.ends[1].clone()]);
    let mut minus: Vec<Part<'_>> = wires().filter(|w| w.cut.polarity == Polarity::Negative).map(Part::wire).collect();
    minus.extend(devices().filter(in_minus).filter_map(Part::joint));
    let minus = in_line(minus);
    let back = minus.first().zip(minus.last()).map(|(first, last)| {
        let [a, b] = [first.ends[0].clone(), last.ends[1].clone()];
        // A return through the body leads from the far end to the body, which stands where the battery is.
        if run.is_some() && b.part == TerminalPart::Earth { [b, a] } else { [a, b] }
    });
    let hangs = ends.iter().flat_map(|[_, far]| {
        let between = |j: &&Joint| matches!(j.joins, Joins::Load | Joins::Source) && j.run.is_none();
        let there = list.joints.iter().filter(between).filter(|j| j.terminals.first() == Some(far));
        let drawn = [point::SERVICE_BATTERY, point::STARTER_BATTERY, point::CHARGER];
        let own = there.filter(|j| !drawn.contains(&j.name.as_str()));
        own.map(|j| if j.name == far.at { j.what.clone() } else { format!("{}, {}", j.name, j.what) })
            .collect::<Vec<_>>()
    });
    let is_way = |end: &Terminal| matches!(end.part, TerminalPart::Way(_));
    let way = plus.first().map(|first| first.ends[1]).filter(|end| is_way(end)).map(Terminal::mark);
    Row {
        way,
        hangs: hangs.collect(),
        plus: plus.iter().map(|part| part.element(system)).collect(),
        minus: minus.iter().map(|part| part.element(system)).collect(),
        ends,
        back,
    }
}

/// A piece or a device, from its end toward the battery to the other.
struct Part<'a> {
    ends: [&'a Terminal; 2],
    what: What<'a>,
}

enum What<'a> {
    Wire(&'a Wire),
    Joint(&'a Joint),
}

impl<'a> Part<'a> {
    fn wire(wire: &'a Wire) -> Part<'a> {
        Part { ends: [&wire.cut.ends[0], &wire.cut.ends[1]], what: What::Wire(wire) }
    }

    fn joint(joint: &'a Joint) -> Option<Part<'a>> {
        let (first, last) = joint.terminals.first().zip(joint.terminals.last())?;
        Some(Part { ends: [first, last], what: What::Joint(joint) })
    }

    fn element(&self, system: UnitSystem) -> Element {
        match self.what {
            What::Wire(wire) => Element::Piece(piece(&wire.name, &wire.cut, system)),
            What::Joint(joint) => match joint.what.split_once(", ") {
                Some((rating, style)) => {
                    let rating = rating.split(':').next().unwrap_or_default();
                    Element::Device(joint.name.clone(), rating.into(), style.into())
                }
                None => Element::Bridge(joint.name.clone()),
            },
        }
    }
}

fn piece(name: &str, cut: &Cut, system: UnitSystem) -> Piece {
    Piece {
        name: format!("{name} {}", cut.colour),
        size: format!("{}, {}", cut.size, Figure::from(cut.along).show(system)),
        lugs: format!("{} to {}", lug(&cut.lug_from), lug(&cut.lug_to)),
    }
}

/// One behind the other, from the end on which none of the others ends.
fn in_line(mut parts: Vec<Part<'_>>) -> Vec<Part<'_>> {
    let first = parts.iter().position(|p| parts.iter().all(|other| other.ends[1] != p.ends[0]));
    let mut line: Vec<Part<'_>> = first.map(|n| parts.swap_remove(n)).into_iter().collect();
    while let Some(n) = line.last().and_then(|last| parts.iter().position(|p| p.ends[0] == last.ends[1])) {
        line.push(parts.swap_remove(n));
    }
    // What is not joined in line is shown all the same.
    line.extend(parts);
    line
}
