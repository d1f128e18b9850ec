//! The catalogue on paper: each shelf as a table, each row with its source.

use super::document::{Block, Cell, Column, Document, Table};
use super::facts::Columns;
use super::look_up;
use crate::catalogue::*;
use crate::engine::design::results::fact::At;
use crate::quantity::{Figure, Unit, Volts};
use itertools::Itertools;

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
    Prices "prices" "What you pay, by prices.toml of your own profiles";
    Rules "rules" "Losses allowed, fuse distances, numbers";
    Sources "sources" "Where every value comes from";
}

/// Rows of the user's own, with the file of each.
pub fn own_rows(files: &[OwnFile]) -> Document {
    let mut paper = Document::new("Rows of your own");
    if files.is_empty() {
        paper.paragraph("None. The key y on the screens makes one from a data sheet.");
        return paper;
    }
    let columns = Columns::new().text("key", "Key", |f: &OwnFile| &f.key).text("file", "File", |f| &f.name);
    paper.table(columns.list("own", "A key after `own` prints the file of a row", files));
    paper
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
        Shelf::Prices => prices(catalogue, &mut paper),
        Shelf::Sources => paper.table(sources(catalogue)),
    }
    paper
}

fn chemistries(catalogue: &Catalogue) -> Table {
    Columns::new()
        .text("key", "Key", |c: &Chemistry| &c.key)
        .text("name", "Name", |c| &c.name)
        .number("charge", "Charge", |c| c.charge.absorption)
        .number("depth", "Depth", |c| c.life.depth)
        .number("reserve", "Reserve", |c| c.low.reserve)
        .number("mass", "100 Ah", |c| c.blocks.mass_100ah)
        .number("charge_min", "Charges from", |c| c.limits.charge_min)
        .list("chemistries", "Battery chemistries; `sources` says where each part comes from", &catalogue.chemistries)
}

fn conductors(catalogue: &Catalogue) -> Table {
    let family = |c: &Conductor| match c.family {
        Family::Metric => "metric".into(),
        Family::Tinned => "tinned".into(),
        Family::Awg => "awg".into(),
        Family::RoadVehicle => "road-vehicle".into(),
    };
    Columns::new()
        .text("label", "Size", |c: &Conductor| &c.label)
        .words("family", "Family", family)
        .number("area", "Copper", |c| c.area)
        .number("resistance_ohm_per_km", "At 20 °C", |c| c.resistance)
        .number("outside", "Outside", |c| c.outside)
        .words("source", "Source", |c| c.from.resistance.words())
        .list("conductors", "Stranded copper conductors", &catalogue.conductors)
}

fn trade_labels(catalogue: &Catalogue) -> Table {
    Columns::new()
        .text("label", "Label", |l: &TradeLabel| &l.label)
        .number("copper", "Copper", |l| l.copper)
        .text("trap", "Beware", |l| &l.trap)
        .words("source", "Source", |l| l.from.copper.words())
        .list("trade-labels", "Labels that do not say what they seem to", &catalogue.trade_labels)
}

fn insulation(catalogue: &Catalogue) -> Table {
    Columns::new()
        .text("key", "Key", |i: &Insulation| &i.key)
        .text("name", "Name", |i| &i.name)
        .number("max", "Up to", |i| i.max)
        .words("source", "Source", |i| i.from.max.words())
        .list("insulation", "Insulation classes", &catalogue.insulations)
}

fn fuses(catalogue: &Catalogue) -> Table {
    let breaking = |f: &FuseStyle| f.breaking_at(Volts::new(12.0)).cloned();
    let ratings = |f: &FuseStyle| match (f.ratings.first(), f.ratings.last()) {
        (Some(first), Some(last)) => format!("{first} to {last}"),
        _ => String::new(),
    };
    Columns::new()
        .text("key", "Key", |f: &FuseStyle| &f.key)
        .text("name", "Name", |f| &f.name)
        .words("ratings", "Ratings", ratings)
        .own(Column::number("breaking_capacity", "Breaks", Unit::Amp), move |f, _| {
            Cell::maybe(breaking(f).map(|b| b.amps))
        })
        .number("rated", "Up to", |f| f.rated)
        .words("source", "Source", move |f| breaking(f).map_or(String::new(), |b| b.from.amps.words()))
        .list("fuse-styles", "Fuse-link styles, breaking capacity at 12 V", &catalogue.fuse_styles)
}

fn loads(catalogue: &Catalogue) -> Table {
    let start = |l: &TypicalLoad, _: &At<'_>| Cell::of(Figure::new(l.start_times, Unit::Times));
    Columns::new()
        .text("group", "Group", |l: &TypicalLoad| &l.group)
        .text("name", "Load", |l| &l.name)
        .number("power", "Power", |l| l.power)
        .number("share_on", "Duty", |l| l.share_on)
        .number("hours", "On a day", |l| l.hours)
        .own(Column::number("start", "Start", Unit::Times), start)
        .text("drop", "Loss allowed", |l| &l.drop)
        .list("typical-loads", "Typical loads: look at the label of yours", &catalogue.loads)
}

fn places(catalogue: &Catalogue) -> Table {
    Columns::new()
        .text("key", "Key", |p: &CablePlace| &p.key)
        .text("name", "Name", |p| &p.name)
        .number("warmer", "Warmer by", |p| p.warmer)
        .words("caution", "Mind", |p| p.caution.clone().unwrap_or_default())
        .list("places", "What a cable may run through", &catalogue.places)
}

fn prices(catalogue: &Catalogue, paper: &mut Document) {
    if catalogue.prices.is_empty() {
        paper.paragraph(
            "None. Rows [[price]] in prices.toml of your own folder of profiles count for every plan, those in a plan \
             before them.",
        );
        return;
    }
    let columns = Columns::new()
        .words("chemistry", "Chemistry", |p: &OwnPrice| p.chemistry().unwrap_or_default().to_string())
        .own(Column::number("per_100ah", "100 Ah cost", Unit::Price), |p, _| Cell::maybe(p.per_100ah))
        .words("part", "or part", |p| p.part().unwrap_or_default().to_string())
        .own(Column::number("each", "Each costs", Unit::Price), |p, _| Cell::maybe(p.each));
    paper.table(columns.list("prices", "For every plan; a price in a plan counts before them", &catalogue.prices));
}

fn classes(catalogue: &Catalogue) -> Table {
    Columns::new()
        .text("key", "Loss allowed", |c: &DropClass| &c.key)
        .number("limit", "Limit", |c| c.limit)
        .text("about", "For", |c| &c.about)
        .words("source", "Source", |c| c.from.limit.words())
        .list("drop-classes", "Loss allowed on the way, share of 12 V", &catalogue.rules.drop_class)
}

fn placement(catalogue: &Catalogue) -> Table {
    Columns::new()
        .text("key", "Rule", |p: &Placement| &p.key)
        .number("bare", "Bare", |p| p.bare)
        .number("enclosed", "Enclosed", |p| p.enclosed)
        .words("source", "Source", |p| p.from.bare.words())
        .list("placement", "How far from its source a fuse may sit", &catalogue.rules.placement)
}

fn numbers(catalogue: &Catalogue) -> Table {
    Columns::new()
        .text("key", "Number", |n: &Numbered<'_>| n.value.key)
        .words("value", "Value", |n| n.value.shown.to_string())
        .text("about", "What it is", |n| n.about)
        .words("source", "Source", |n| n.value.from.words())
        .list("numbers", "Plain numbers of the rules", &catalogue.rules.numbers())
}

fn sources(catalogue: &Catalogue) -> Table {
    let values = catalogue.values();
    let mut said: Vec<(String, &Provenance)> = Vec::new();
    for row in values.chunk_by(|a, b| a.row == b.row) {
        for from in row.iter().map(|v| v.value.from).unique_by(|from| (from.how.word(), &from.source, &from.note)) {
            let keys = row.iter().filter(|v| v.value.from == from).map(|v| v.value.key).join(", ");
            said.push((format!("{}: {keys}", row[0].row), from));
        }
    }
    Columns::new()
        .text("row", "Values", |s: &(String, &Provenance)| &s.0)
        .words("source", "Source", |s| s.1.words())
        .words("note", "Note", |s| s.1.note.clone().unwrap_or_default())
        .list("sources", "Where every value comes from", &said)
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
