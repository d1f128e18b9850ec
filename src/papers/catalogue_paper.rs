//! The catalogue on paper: each shelf as a table, each row with its source.

use super::document::{Block, Cell, Column, Document, Table};
use super::look_up;
use crate::catalogue::{Catalogue, Family, Listed, Provenance};
use crate::quantity::{Amps, Unit, Volts};

macro_rules! shelves {
    ($($shelf:ident $word:literal $about:literal;)*) => {
        /// A part of the catalogue.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        #[allow(missing_docs)] // the table below says it
        pub enum Shelf { $($shelf,)* }

        impl Shelf {
            /// All of them.
            pub const ALL: &'static [Shelf] = &[$(Shelf::$shelf,)*];
            /// The word that asks for it.
            pub fn word(self) -> &'static str {
                match self { $(Shelf::$shelf => $word,)* }
            }
            /// What stands on it.
            pub fn about(self) -> &'static str {
                match self { $(Shelf::$shelf => $about,)* }
            }
        }
    };
}

shelves! {
    Chemistries "chemistries" "Battery chemistries";
    Conductors "conductors" "Conductor sizes, and labels that mislead";
    Insulation "insulation" "Insulation classes";
    Fuses "fuses" "Fuse-link styles";
    Loads "loads" "Typical loads";
    Places "places" "What a cable may run through";
    Regions "regions" "What to look up where a vehicle is registered";
    Rules "rules" "Drop classes, fuse distances, numbers";
    Sources "sources" "Where every value comes from";
}

/// One shelf of the catalogue.
pub fn catalogue_paper(catalogue: &Catalogue, shelf: Shelf) -> Document {
    let mut paper = Document::new("Catalogue");
    match shelf {
        Shelf::Chemistries => paper.table(chemistries(catalogue)),
        Shelf::Conductors => {
            paper.table(conductors(catalogue));
            paper.table(trade_labels(catalogue));
        }
        Shelf::Insulation => paper.table(insulation(catalogue)),
        Shelf::Fuses => paper.table(fuses(catalogue)),
        Shelf::Loads => paper.table(loads(catalogue)),
        Shelf::Places => paper.table(places(catalogue)),
        Shelf::Rules => {
            paper.table(classes(catalogue));
            paper.table(placement(catalogue));
            paper.table(numbers(catalogue));
        }
        Shelf::Regions => paper.table(look_up::all(catalogue)),
        Shelf::Sources => paper.table(sources(catalogue)),
    }
    paper
}

fn chemistries(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("key", "Key"),
        Column::text("name", "Name"),
        Column::number("charge", "Charge", Unit::Volt),
        Column::number("depth", "Depth", Unit::Share),
        Column::number("reserve", "Reserve", Unit::Share),
        Column::number("mass", "100 Ah", Unit::Kilogram),
        Column::number("charge_min", "Charges from", Unit::Celsius),
    ];
    let mut table =
        Table::new("chemistries", "Battery chemistries; `sources` says where each part comes from", &columns);
    for c in &catalogue.chemistries {
        table.row(vec![
            c.key.as_str().into(),
            c.name.as_str().into(),
            Cell::of(c.charge.absorption),
            Cell::of(c.life.depth),
            Cell::of(c.low.reserve),
            Cell::of(c.blocks.mass_100ah),
            Cell::of(c.limits.charge_min),
        ]);
    }
    table
}

fn conductors(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("label", "Size"),
        Column::text("family", "Family"),
        Column::number("area", "Copper", Unit::SquareMillimetre),
        Column::number("resistance_ohm_per_km", "At 20 °C", Unit::OhmPerKm),
        Column::number("outside", "Outside", Unit::Millimetre),
        Column::text("source", "Source"),
    ];
    let mut table = Table::new("conductors", "Stranded copper conductors", &columns);
    for c in &catalogue.conductors {
        let family = match c.family {
            Family::Metric => "metric",
            Family::Tinned => "tinned",
            Family::Awg => "awg",
        };
        table.row(vec![
            c.label.as_str().into(),
            family.into(),
            Cell::of(c.area),
            Cell::of(c.resistance),
            Cell::of(c.outside),
            c.from.resistance.words().into(),
        ]);
    }
    table
}

fn trade_labels(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("label", "Label"),
        Column::number("copper", "Copper", Unit::SquareMillimetre),
        Column::text("trap", "Beware"),
        Column::text("source", "Source"),
    ];
    let mut table = Table::new("trade-labels", "Labels that do not say what they seem to", &columns);
    for l in &catalogue.trade_labels {
        table.row(vec![
            l.label.as_str().into(),
            Cell::of(l.copper),
            l.trap.as_str().into(),
            l.from.copper.words().into(),
        ]);
    }
    table
}

fn insulation(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("key", "Key"),
        Column::text("name", "Name"),
        Column::number("max", "Up to", Unit::Celsius),
        Column::text("source", "Source"),
    ];
    let mut table = Table::new("insulation", "Insulation classes", &columns);
    for i in &catalogue.insulations {
        table.row(vec![i.key.as_str().into(), i.name.as_str().into(), Cell::of(i.max), i.from.max.words().into()]);
    }
    table
}

fn fuses(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("key", "Key"),
        Column::text("name", "Name"),
        Column::text("ratings", "Ratings"),
        Column::number("breaking", "Breaks", Unit::Amp),
        Column::number("rated", "Up to", Unit::Volt),
        Column::text("source", "Source"),
    ];
    let mut table = Table::new("fuse-styles", "Fuse-link styles, breaking capacity at 12 V", &columns);
    for f in &catalogue.fuse_styles {
        let breaking = f.breaking_at(Volts::new(12.0));
        let ratings = match (f.ratings.first(), f.ratings.last()) {
            (Some(first), Some(last)) => format!("{first} to {last}"),
            _ => String::new(),
        };
        table.row(vec![
            f.key.as_str().into(),
            f.name.as_str().into(),
            ratings.into(),
            Cell::maybe::<Amps>(breaking.map(|b| b.amps)),
            Cell::of(f.rated),
            breaking.map_or(String::new(), |b| b.from.amps.words()).into(),
        ]);
    }
    table
}

fn loads(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("group", "Group"),
        Column::text("name", "Load"),
        Column::number("power", "Power", Unit::Watt),
        Column::number("share_on", "Draws", Unit::Share),
        Column::number("hours", "On a day", Unit::Hour),
        Column::number("start", "Start", Unit::Times),
        Column::text("drop", "Drop class"),
    ];
    let mut table = Table::new("typical-loads", "Typical loads: look at the label of yours", &columns);
    for l in &catalogue.loads {
        table.row(vec![
            l.group.as_str().into(),
            l.name.as_str().into(),
            Cell::of(l.power),
            Cell::of(l.share_on),
            Cell::of(l.hours),
            Cell::of(crate::quantity::Figure::new(l.start_times, Unit::Times)),
            l.drop.as_str().into(),
        ]);
    }
    table
}

fn places(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("key", "Key"),
        Column::text("name", "Name"),
        Column::number("warmer", "Warmer by", Unit::Kelvin),
        Column::text("caution", "Mind"),
    ];
    let mut table = Table::new("places", "What a cable may run through", &columns);
    for p in &catalogue.places {
        table.row(vec![
            p.key.as_str().into(),
            p.name.as_str().into(),
            Cell::of(p.warmer),
            p.caution.clone().unwrap_or_default().into(),
        ]);
    }
    table
}

fn classes(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("key", "Drop class"),
        Column::number("limit", "Limit", Unit::Share),
        Column::text("about", "For"),
        Column::text("source", "Source"),
    ];
    let mut table = Table::new("drop-classes", "Voltage-drop classes, share of 12 V", &columns);
    for c in &catalogue.rules.drop_class {
        table.row(vec![c.key.as_str().into(), Cell::of(c.limit), c.about.as_str().into(), c.from.limit.words().into()]);
    }
    table
}

fn placement(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("key", "Rule"),
        Column::number("bare", "Bare", Unit::Metre),
        Column::number("enclosed", "Enclosed", Unit::Metre),
        Column::text("source", "Source"),
    ];
    let mut table = Table::new("placement", "How far from its source a fuse may sit", &columns);
    for p in &catalogue.rules.placement {
        table.row(vec![p.key.as_str().into(), Cell::of(p.bare), Cell::of(p.enclosed), p.from.bare.words().into()]);
    }
    table
}

fn numbers(catalogue: &Catalogue) -> Table {
    let columns = [
        Column::text("key", "Number"),
        Column::text("value", "Value"),
        Column::text("about", "What it is"),
        Column::text("source", "Source"),
    ];
    let mut table = Table::new("numbers", "Plain numbers of the rules", &columns);
    for n in catalogue.rules.numbers() {
        let (shown, source) = (n.value.shown.to_string(), n.value.from.words());
        table.row(vec![n.value.key.into(), shown.into(), n.about.into(), source.into()]);
    }
    table
}

/// A line for the values of a row that have one source.
fn sources(catalogue: &Catalogue) -> Table {
    let columns = [Column::text("row", "Values"), Column::text("source", "Source"), Column::text("note", "Note")];
    let mut table = Table::new("sources", "Where every value comes from", &columns);
    let values = catalogue.values();
    for row in values.chunk_by(|a, b| a.row == b.row) {
        let mut sources: Vec<&Provenance> = Vec::new();
        for from in row.iter().map(|v| v.value.from) {
            if !sources.contains(&from) {
                sources.push(from);
            }
        }
        for from in sources {
            let keys: Vec<&str> = row.iter().filter(|v| v.value.from == from).map(|v| v.value.key).collect();
            let note = from.note.clone().unwrap_or_default();
            let what = format!("{}: {}", row[0].row, keys.join(", "));
            table.row(vec![what.into(), from.words().into(), note.into()]);
        }
    }
    table
}

/// Single values, each with its own source.
pub fn explanation(values: &[Listed<'_>]) -> Document {
    let mut paper = Document::new("Catalogue");
    for listed in values {
        let from = listed.value.from;
        let whose = if from.whole_row { " (said of the whole row)" } else { "" };
        let source = format!("{}: {}{whose}", from.how.word(), from.words());
        let lines = std::iter::once(source).chain(from.note.iter().map(|note| format!("note: {note}")));
        paper.blocks.push(Block::Entry(format!("{} = {}", listed.path(), listed.value.shown), lines.collect()));
    }
    paper
}
