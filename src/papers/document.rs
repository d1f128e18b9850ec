//! What does a paper say, before it is decided how it looks?
//!
//! A paper is written once, as blocks; `plain`, `markdown`, `html` and `pdf`
//! render them. Numbers stay numbers until then, so that a table can also be written
//! as CSV in full digits. There is no markup inside a text: what a plan says is
//! shown as it is.

use super::pen::Picture;
use super::stamp::Stamp;
use crate::engine::Severity;
use crate::quantity::{Figure, Quantity, Unit};

/// A paper: its title and what stands in it.
#[derive(Clone, Debug, Default)]
pub struct Document {
    /// Title of the paper.
    pub title: String,
    /// Whether it is a card: set small, so that it stays on one page.
    pub card: bool,
    /// Whether it stays metric whatever units are wanted: formulas, and what is measured out on metal or paper.
    pub metric: bool,
    /// From top to bottom.
    pub blocks: Vec<Block>,
}

/// One piece of a paper.
#[derive(Clone, Debug)]
pub enum Block {
    /// A heading: level 1 for a part of the paper, 2 for one within.
    Heading(u8, String),
    /// Running text.
    Paragraph(String),
    /// Points without order.
    List(Vec<String>),
    /// Steps in order.
    Steps(Vec<String>),
    /// Label and value pairs.
    Facts(Vec<(String, String)>),
    /// A table.
    Table(Table),
    /// Something to heed: a finding or a caution.
    Notice(Notice),
    /// A drawing: SVG where it can be shown, text elsewhere.
    Drawing(Drawing),
    /// How a number came about: what it is, then small lines.
    Entry(String, Vec<String>),
}

/// Something to heed.
#[derive(Clone, Debug)]
pub struct Notice {
    /// How bad.
    pub severity: Severity,
    /// One sentence.
    pub text: String,
    /// Further lines, each with a short label: `rule`, `remedy`, `at`.
    pub lines: Vec<(String, String)>,
}

/// A drawing.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// What it shows.
    pub caption: String,
    /// As lines and words; none where it is there as characters only.
    pub picture: Option<Picture>,
    /// As characters, for plain text and Markdown.
    pub text: String,
}

/// A table.
#[derive(Clone, Debug)]
pub struct Table {
    /// Name of its CSV file.
    pub name: &'static str,
    /// What it shows.
    pub caption: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each with a cell for each column.
    pub rows: Vec<Vec<Cell>>,
    /// Whether the last row sums up the others.
    pub total: bool,
}

/// A column of a table.
#[derive(Clone, Copy, Debug)]
pub struct Column {
    /// Name in the CSV file, without unit.
    pub key: &'static str,
    /// Head for people.
    pub head: &'static str,
    /// Unit of its numbers; `None` for text.
    pub unit: Option<Unit>,
}

/// A cell of a table.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words.
    Text(String),
    /// A number with its unit.
    Number(Figure),
    /// A number that may not be passed: people read it rounded down.
    Limit(Figure),
    /// There is none.
    Absent,
    /// A blank to be filled in with a pen.
    ToFill,
}

impl Column {
    /// A column of words.
    pub const fn text(key: &'static str, head: &'static str) -> Column {
        Column { key, head, unit: None }
    }

    /// A column of numbers.
    pub const fn number(key: &'static str, head: &'static str, unit: Unit) -> Column {
        Column { key, head, unit: Some(unit) }
    }
}

impl Cell {
    /// A number with its unit.
    pub fn of(quantity: impl Into<Figure>) -> Cell {
        Cell::Number(quantity.into())
    }

    /// A number that may be absent.
    pub fn maybe<Q: Quantity + Into<Figure>>(quantity: Option<Q>) -> Cell {
        quantity.map_or(Cell::Absent, Cell::of)
    }

    /// A number that may not be passed.
    pub fn limit(quantity: impl Into<Figure>) -> Cell {
        Cell::Limit(quantity.into())
    }

    /// A count of things.
    pub fn count(n: usize) -> Cell {
        Cell::Number(Figure::new(n as f64, Unit::Count))
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Cell {
        Cell::Text(text.into())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Cell {
        Cell::Text(text)
    }
}

impl Table {
    /// An empty table.
    pub fn new(name: &'static str, caption: impl Into<String>, columns: &[Column]) -> Table {
        Table { name, caption: caption.into(), columns: columns.to_vec(), rows: Vec::new(), total: false }
    }

    /// Put a row at the end.
    pub fn row(&mut self, cells: Vec<Cell>) {
        debug_assert_eq!(cells.len(), self.columns.len(), "a row of `{}` has another number of cells", self.name);
        self.rows.push(cells);
    }

    /// Whether a row belongs to the one above it: it does not say once more what it is about.
    pub fn goes_on(&self, row: &[Cell]) -> bool {
        self.columns.first().is_some_and(|c| c.unit.is_none()) && row.first() == Some(&Cell::Text(String::new()))
    }

    /// Add the last row, which sums up: what stands in some columns, by their place.
    pub fn sum(&mut self, cells: &[(usize, Cell)]) {
        let mut row = vec![Cell::Text(String::new()); self.columns.len()];
        for (column, cell) in cells {
            row[*column] = cell.clone();
        }
        self.row(row);
        self.total = true;
    }
}

impl Document {
    /// An empty paper.
    pub fn new(title: impl Into<String>) -> Document {
        Document { title: title.into(), card: false, metric: false, blocks: Vec::new() }
    }

    /// Begin a part.
    pub fn heading(&mut self, level: u8, text: impl Into<String>) {
        self.blocks.push(Block::Heading(level, text.into()));
    }

    /// Running text.
    pub fn paragraph(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Paragraph(text.into()));
    }

    /// Points without order; nothing when there are none.
    pub fn list(&mut self, points: Vec<String>) {
        if !points.is_empty() {
            self.blocks.push(Block::List(points));
        }
    }

    /// Steps in order.
    pub fn steps(&mut self, steps: Vec<String>) {
        self.blocks.push(Block::Steps(steps));
    }

    /// Label and value pairs.
    pub fn facts(&mut self, facts: Vec<(&str, String)>) {
        self.blocks.push(Block::Facts(facts.into_iter().map(|(label, value)| (label.into(), value)).collect()));
    }

    /// A table; nothing when it has no rows.
    pub fn table(&mut self, table: Table) {
        if !table.rows.is_empty() {
            self.blocks.push(Block::Table(table));
        }
    }

    /// A caution of the papers themselves.
    pub fn caution(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Notice(Notice { severity: Severity::Caution, text: text.into(), lines: Vec::new() }));
    }

    /// A STOP at its head, so that a sheet taken to the workshop alone says it too.
    pub fn stop_first(&mut self, text: impl Into<String>) {
        let notice = Notice { severity: Severity::Stop, text: text.into(), lines: Vec::new() };
        self.blocks.insert(0, Block::Notice(notice));
    }

    /// What it is made from at its head, below the STOP if there is one, and a blank for the
    /// revision: a sheet handed on must tell which of two is the newer.
    pub fn stamped(&mut self, stamp: &Stamp, blank: bool) {
        let mut facts = vec![("Made from".to_string(), stamp.words())];
        if blank {
            facts.push(("Date / revision".to_string(), "______________________".to_string()));
        }
        self.blocks.insert(0, Block::Facts(facts));
    }

    /// Heads of its parts, in order.
    pub fn parts(&self) -> impl Iterator<Item = &str> {
        self.blocks.iter().filter_map(|b| match b {
            Block::Heading(1, text) => Some(text.as_str()),
            _ => None,
        })
    }

    /// All its tables.
    pub fn tables(&self) -> impl Iterator<Item = &Table> {
        self.blocks.iter().filter_map(|b| match b {
            Block::Table(t) => Some(t),
            _ => None,
        })
    }

    /// All its drawings.
    pub fn drawings(&self) -> impl Iterator<Item = &Picture> {
        self.blocks.iter().filter_map(|b| match b {
            Block::Drawing(d) => d.picture.as_ref(),
            _ => None,
        })
    }
}
