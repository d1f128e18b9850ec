//! Which results stand on a screen: under which name, in which unit, meaning what, by which working?
//!
//! All of that is written in the table of results. A screen names a row of it
//! and says of which thing; what is no result by itself it makes on its own.

use super::pane::{Cell, Column, Offer, Pane, Row, Table};
use super::scene::Scene;
use super::theme::Role;
use crate::engine::design::results::fact::{At, Content, Fact, Thing};
use crate::quantity::Figure;

impl<'a> Scene<'a> {
    /// Where the things of the design stand, each the `index`th of its list.
    pub fn at(&self, index: usize) -> At<'a> {
        At { index, ..At::site(&self.design().installation) }
    }
}

impl Column {
    /// A column of a result.
    pub fn fact<T: Thing>(scene: &Scene<'_>, fact: &Fact<T>) -> Column {
        match fact.unit() {
            Some(unit) => Column::figures(fact.label).unit(scene.symbol(Figure::new(0.0, unit))),
            None => Column::words(fact.label),
        }
    }
}

impl Cell {
    /// A result with its unit.
    pub fn fact<T: Thing>(scene: &Scene<'_>, fact: Fact<T>, thing: &T, at: At<'_>) -> Cell {
        Cell::under(scene, "", fact, thing, at)
    }

    /// A result under a head that says the unit; where it is shown in another one it has that.
    fn under<T: Thing>(scene: &Scene<'_>, unit: &str, fact: Fact<T>, thing: &T, at: At<'_>) -> Cell {
        let cell = match words(scene, unit, (fact.get)(thing, &at)) {
            Some(words) => Cell::words(words),
            None => Cell::dash(),
        };
        Cell { topic: fact.topic(thing, &at), help: fact.help, ..cell }
    }
}

fn words(scene: &Scene<'_>, unit: &str, content: Content) -> Option<String> {
    let headed = |f: Figure| !unit.is_empty() && scene.symbol(f) == unit;
    Some(match content {
        Content::Number(f) | Content::Figure(f) if headed(f) => scene.digits(f),
        Content::Number(f) | Content::Figure(f) => scene.show(f),
        Content::Limit(f) if headed(f) => scene.plain(f.digits_at_most(scene.units)),
        Content::Limit(f) => scene.plain(f.show_at_most(scene.units)),
        Content::Band([low, _, high]) if headed(low) => format!("{} to {}", scene.digits(low), scene.digits(high)),
        Content::Band([low, _, high]) => format!("{} to {}", scene.show(low), scene.show(high)),
        Content::Text(text) => scene.plain(text),
        Content::Flag(flag) => if flag { "yes" } else { "no" }.into(),
        Content::List(items) => {
            let items: Vec<String> = items.into_iter().filter_map(|item| words(scene, unit, item)).collect();
            items.join(", ")
        }
        Content::Absent | Content::NotAsked | Content::Entry(_) | Content::Group(_) => return None,
    })
}

/// What a column shows of a row.
type Show<'a> = Box<dyn Fn(usize) -> Cell + 'a>;

/// The columns of a table, each with what it shows of a row.
pub struct Columns<'a> {
    scene: Scene<'a>,
    columns: Vec<Column>,
    shows: Vec<Show<'a>>,
}

impl<'a> Columns<'a> {
    /// None yet.
    pub fn new(scene: Scene<'a>) -> Self {
        Columns { scene, columns: Vec::new(), shows: Vec::new() }
    }

    /// A result of the thing that `find` has for a row.
    pub fn fact<T: Thing>(self, fact: Fact<T>, find: impl Fn(usize) -> Option<(&'a T, At<'a>)> + 'a) -> Self {
        let scene = self.scene;
        let column = Column::fact(&scene, &fact);
        let unit = column.unit.clone();
        self.own(column, move |row| match find(row) {
            Some((thing, at)) => Cell::under(&scene, &unit, fact, thing, at),
            None => Cell::dash(),
        })
    }

    /// Several results of the same thing.
    pub fn facts<T: Thing, const N: usize>(
        self,
        facts: [Fact<T>; N],
        find: impl Fn(usize) -> Option<(&'a T, At<'a>)> + Copy + 'a,
    ) -> Self {
        facts.into_iter().fold(self, |columns, fact| columns.fact(fact, find))
    }

    /// Something that is no result by itself.
    pub fn own(mut self, column: Column, show: impl Fn(usize) -> Cell + 'a) -> Self {
        self.columns.push(column);
        self.shows.push(Box::new(show));
        self
    }

    /// The last column with another greatest width.
    pub fn widest(mut self, widest: u16) -> Self {
        if let Some(column) = self.columns.last_mut() {
            column.widest = widest;
        }
        self
    }

    /// The last column under a shorter head.
    pub fn headed(mut self, head: &'static str) -> Self {
        if let Some(column) = self.columns.last_mut() {
            column.head = head.into();
        }
        self
    }

    /// The last column with more said beside its unit.
    pub fn with_unit(mut self, words: impl Fn(&str) -> String) -> Self {
        if let Some(column) = self.columns.last_mut() {
            column.unit = words(&column.unit);
        }
        self
    }

    /// The last column made otherwise of what it shows.
    pub fn but(mut self, change: impl Fn(usize, Cell) -> Cell + 'a) -> Self {
        if let Some(show) = self.shows.pop() {
            self.shows.push(Box::new(move |row| change(row, show(row))));
        }
        self
    }

    /// What Enter does on all cells of a row.
    pub fn offer(mut self, offer: impl Fn(usize) -> Option<Offer> + Copy + 'a) -> Self {
        let with = |show: Show<'a>| -> Show<'a> { Box::new(move |row| Cell { offer: offer(row), ..show(row) }) };
        self.shows = self.shows.into_iter().map(with).collect();
        self
    }

    /// Why a row is as it is, on all of its cells that have no working.
    pub fn why(mut self, why: impl Fn(usize) -> String + Copy + 'a) -> Self {
        let with = |show: Show<'a>| -> Show<'a> {
            Box::new(move |row| {
                let cell = show(row);
                if cell.topic.is_some() { cell } else { Cell { why: why(row), ..cell } }
            })
        };
        self.shows = self.shows.into_iter().map(with).collect();
        self
    }

    /// A table of so many rows, each with its key.
    pub fn table(self, rows: usize, key: impl Fn(usize) -> String + 'a) -> Table<'a> {
        let Columns { columns, shows, .. } = self;
        let row = move |row: usize| Row::new(key(row), shows.iter().map(|show| show(row)).collect());
        Table { columns, rows, row: Box::new(row), list: None, empty: "nothing here yet", start: 0 }
    }
}

/// A list of results: name and number with unit.
pub struct Facts<'a> {
    scene: Scene<'a>,
    rows: Vec<Row>,
}

impl<'a> Facts<'a> {
    /// None yet.
    pub fn new(scene: Scene<'a>) -> Self {
        Facts { scene, rows: Vec::new() }
    }

    /// Results of a thing, one under the other.
    pub fn list<T: Thing>(&mut self, thing: &T, at: At<'_>, facts: &[Fact<T>]) {
        for fact in facts {
            self.add(fact.label, Cell::fact(&self.scene, *fact, thing, at));
        }
    }

    /// One of them, with a remark behind it.
    pub fn told<T: Thing>(&mut self, thing: &T, at: At<'_>, fact: Fact<T>, remark: impl Into<String>, role: Role) {
        self.remark(fact.label, Cell::fact(&self.scene, fact, thing, at), remark, role);
    }

    /// Something that is no result by itself.
    pub fn add(&mut self, name: impl Into<String>, cell: Cell) {
        let name = name.into();
        self.rows.push(Row::new(name.clone(), vec![Cell::words(name), cell]));
    }

    /// The same with a remark behind it.
    pub fn remark(&mut self, name: impl Into<String>, cell: Cell, remark: impl Into<String>, role: Role) {
        let name = name.into();
        self.rows.push(Row::new(name.clone(), vec![Cell::words(name), cell, Cell::words(remark).role(role)]));
    }

    /// A heading.
    pub fn heading(&mut self, text: impl Into<String>) {
        self.rows.push(Row::heading(text));
    }

    /// As a pane.
    pub fn pane(self, title: impl Into<String>) -> Pane<'static> {
        let columns = vec![Column::label("").widest(28), Column::figures("").widest(26), Column::label("").widest(40)];
        Pane::table(title, Table::of(columns, self.rows))
    }
}
