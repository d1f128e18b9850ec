//! What a screen is made of: panes of tables, plots and text, as data.
//!
//! A screen says what its panes hold; one place draws them, one place moves in
//! them, one place edits. Each cell knows which field it edits and which number
//! it shows, so that every screen behaves alike.

use super::action::Action;
use super::scene::Scene;
use super::theme::Role;
use crate::engine::{Subject, Topic};
use crate::plan::{Place, Section, Value};
use crate::quantity::Figure;
use std::borrow::Cow;

/// A part of a screen.
pub struct Pane<'a> {
    /// Title in the border.
    pub title: String,
    /// What is in it.
    pub body: Body<'a>,
}

/// What a pane holds.
pub enum Body<'a> {
    /// Rows and columns.
    Table(Table<'a>),
    /// Curves.
    Plot(Plot),
    /// Lines of text, wrapped or scrolled.
    Text(Text),
}

/// A table whose rows are made only when they are seen.
pub struct Table<'a> {
    /// The columns.
    pub columns: Vec<Column>,
    /// How many rows.
    pub rows: usize,
    /// Makes a row.
    pub row: Box<dyn Fn(usize) -> Row + 'a>,
    /// The list of the plan that the rows are, if rows can be added and moved.
    pub list: Option<Section>,
    /// Shown when there is no row.
    pub empty: &'static str,
    /// The row to stand on before the user has moved in it.
    pub start: usize,
}

/// One column.
#[derive(Clone, Debug, Default)]
pub struct Column {
    /// Head; empty for none.
    pub head: Cow<'static, str>,
    /// Second part of the head: the unit.
    pub unit: String,
    /// Numbers stand right.
    pub right: bool,
    /// The cursor can stand here.
    pub stops: bool,
    /// Widest it may grow.
    pub widest: u16,
}

/// One row.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// Who the row is, to find it again after a change.
    pub key: String,
    /// A heading among the rows; the cursor passes over it.
    pub heading: bool,
    /// One for each column.
    pub cells: Vec<Cell>,
}

/// One cell.
#[derive(Clone, Debug, Default)]
pub struct Cell {
    /// What is shown.
    pub text: String,
    /// How.
    pub role: Role,
    /// The field it edits.
    pub place: Option<Place>,
    /// The number it shows.
    pub topic: Option<Topic>,
    /// What it is, in a few words.
    pub help: &'static str,
    /// Why it is as it is, in a sentence, where no working says so.
    pub why: String,
    /// What Enter does here instead of editing.
    pub offer: Option<Offer>,
}

/// What Enter does on a cell that is no field.
#[derive(Clone, Debug, PartialEq)]
pub enum Offer {
    /// Put this value at this place: a candidate, a size, a remedy.
    #[allow(missing_docs)]
    Put { place: Place, value: Option<Value>, words: String },
    /// Go to the place that mends it.
    Go(Place),
    /// Do something else.
    #[allow(missing_docs)]
    Do { action: Box<Action>, words: String },
}

/// Curves over a common axis.
#[derive(Clone, Debug, Default)]
pub struct Plot {
    /// Name and points of each curve.
    pub curves: Vec<(String, Vec<(f64, f64)>)>,
    /// Points that stand out.
    pub marks: Vec<Scatter>,
    /// Stretches of the x axis that each have a line of their own below it, with its name.
    pub bars: Vec<(String, Vec<(f64, f64)>)>,
    /// What to say when there is no curve.
    pub empty: String,
    /// Shown beside other panes only where they need not be scrolled for it.
    pub spare: bool,
    /// Horizontal lines with their names.
    pub levels: Vec<(String, f64)>,
    /// Title of the x axis with its unit, and its ends.
    pub x: (String, f64, f64),
    /// Title of the y axis with its unit, and its ends.
    pub y: (String, f64, f64),
    /// What stands along the x axis, each where it belongs.
    pub across: Vec<(f64, String)>,
    /// What stands along the y axis.
    pub up: Vec<(f64, String)>,
    /// A place on the x axis in words, for the cursor; the number and the title when absent.
    pub read: Option<fn(f64) -> String>,
}

/// Places of the cursor along a plot, from end to end: two hours each of a fortnight.
pub const PLACES: usize = 168;

/// So many marks along an axis at equal distances, its ends among them.
pub fn marks(count: usize, from: f64, to: f64, words: impl Fn(f64) -> String) -> Vec<(f64, String)> {
    let parts = count.saturating_sub(1).max(1) as f64;
    (0..count).map(|n| from + (to - from) * n as f64 / parts).map(|v| (v, words(v))).collect()
}

/// Points of a plot with a sign of their own.
#[derive(Clone, Debug)]
pub struct Scatter {
    /// What they are.
    pub name: String,
    /// How they are drawn.
    pub sign: char,
    /// Where.
    pub points: Vec<(f64, f64)>,
}

/// Lines of text.
#[derive(Clone, Debug, Default)]
pub struct Text {
    /// Pieces with their roles.
    pub lines: Vec<Vec<(String, Role)>>,
    /// Whether long lines wrap; a drawing does not.
    pub wrap: bool,
    /// The run that each line of a drawing is about; empty for prose.
    pub runs: Vec<Option<usize>>,
}

impl<'a> Pane<'a> {
    /// A table.
    pub fn table(title: impl Into<String>, table: Table<'a>) -> Self {
        Pane { title: title.into(), body: Body::Table(table) }
    }

    /// The table in it, if it is one.
    pub fn as_table(&self) -> Option<&Table<'a>> {
        match &self.body {
            Body::Table(table) => Some(table),
            _ => None,
        }
    }
}

impl Table<'_> {
    /// A row, if there is one.
    pub fn at(&self, row: usize) -> Option<Row> {
        (row < self.rows).then(|| (self.row)(row))
    }

    /// A table of rows that are made already.
    pub fn of(columns: Vec<Column>, rows: Vec<Row>) -> Table<'static> {
        Table {
            columns,
            rows: rows.len(),
            row: Box::new(move |i| rows.get(i).cloned().unwrap_or_default()),
            list: None,
            empty: "nothing here yet",
            start: 0,
        }
    }
}

impl Column {
    /// A column of words that the cursor passes over.
    pub fn label(head: &'static str) -> Self {
        Column { head: head.into(), widest: 30, ..Column::default() }
    }
    /// A column of words.
    pub fn words(head: &'static str) -> Self {
        Column { head: head.into(), stops: true, widest: 30, ..Column::default() }
    }
    /// A column of numbers that carry their units.
    pub fn figures(head: impl Into<Cow<'static, str>>) -> Self {
        Column { head: head.into(), right: true, stops: true, widest: 24, ..Column::default() }
    }
    /// With the unit under the head.
    pub fn unit(mut self, unit: impl Into<String>) -> Self {
        self.unit = unit.into();
        self
    }
    /// With another greatest width.
    pub fn widest(mut self, widest: u16) -> Self {
        self.widest = widest;
        self
    }
}

impl Cell {
    /// Words.
    pub fn words(text: impl Into<String>) -> Self {
        Cell { text: text.into(), ..Cell::default() }
    }
    /// A number with its unit.
    pub fn figure(scene: &Scene<'_>, figure: impl Into<Figure>) -> Self {
        Cell::words(scene.show(figure))
    }
    /// A number without its unit.
    pub fn digits(scene: &Scene<'_>, figure: impl Into<Figure>) -> Self {
        Cell::words(scene.digits(figure))
    }
    /// Nothing to show.
    pub fn dash() -> Self {
        Cell::words("–").role(Role::Muted)
    }
    /// A number with its unit if it is there.
    pub fn maybe(scene: &Scene<'_>, figure: Option<impl Into<Figure>>) -> Self {
        figure.map_or_else(Cell::dash, |f| Cell::figure(scene, f))
    }
    /// With a role.
    pub fn role(mut self, role: Role) -> Self {
        self.role = role;
        self
    }
    /// With the field it edits.
    pub fn place(mut self, place: Place) -> Self {
        self.place = Some(place);
        self
    }
    /// With the number it shows.
    pub fn topic(mut self, subject: Subject, number: impl Into<Cow<'static, str>>) -> Self {
        self.topic = Some(Topic { subject, number: number.into() });
        self
    }
    /// With what Enter does here.
    pub fn offer(mut self, offer: Offer) -> Self {
        self.offer = Some(offer);
        self
    }
}

impl Row {
    /// A row.
    pub fn new(key: impl Into<String>, cells: Vec<Cell>) -> Self {
        Row { key: key.into(), heading: false, cells }
    }
    /// A heading among the rows.
    pub fn heading(text: impl Into<String>) -> Self {
        let text = text.into();
        Row { key: text.clone(), heading: true, cells: vec![Cell::words(text).role(Role::Heading)] }
    }
}

impl Text {
    /// A line of one piece.
    pub fn line(&mut self, text: impl Into<String>, role: Role) {
        self.lines.push(vec![(text.into(), role)]);
    }
}
