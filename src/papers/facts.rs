//! Which results stand in a table, and what is in its cells?
//!
//! Columns are named by the table of results, so that head, unit and meaning
//! are written there and nowhere else. What is no result has its head beside what it shows.

use super::document::{Cell, Column, Table};
use crate::engine::design::results::fact::{At, Content, Fact, Thing};
use crate::engine::installation::Installation;
use crate::quantity::{Figure, Quantity};

/// What a column shows of a thing.
type Show<'a, T> = Box<dyn Fn(&T, &At<'_>) -> Cell + 'a>;

/// The columns of a table of things.
pub struct Columns<'a, T> {
    columns: Vec<Column>,
    shows: Vec<Show<'a, T>>,
}

impl<'a, T: Thing> Columns<'a, T> {
    /// A result.
    pub fn fact(self, fact: Fact<T>) -> Self {
        self.own(Column::fact(&fact), move |t, at| (fact.get)(t, at).into())
    }

    /// A result, and the word for none.
    pub fn fact_or(self, fact: Fact<T>, none: &'static str) -> Self {
        self.own(Column::fact(&fact), move |t, at| match (fact.get)(t, at) {
            Content::Absent => none.into(),
            content => content.into(),
        })
    }

    /// A result of something within.
    pub fn within<U: Thing>(self, inner: fn(&T) -> Option<&U>, fact: Fact<U>) -> Self {
        self.own(Column::fact(&fact), move |t, at| inner(t).map_or(Cell::Absent, |u| (fact.get)(u, at).into()))
    }
}

impl<'a, T> Columns<'a, T> {
    /// None yet.
    pub fn new() -> Self {
        Columns { columns: Vec::new(), shows: Vec::new() }
    }

    /// A text that the thing holds.
    pub fn text(self, key: &'static str, head: &'static str, show: impl Fn(&T) -> &str + 'a) -> Self {
        self.own(Column::text(key, head), move |t, _| show(t).into())
    }

    /// A text made of it.
    pub fn words(self, key: &'static str, head: &'static str, show: impl Fn(&T) -> String + 'a) -> Self {
        self.own(Column::text(key, head), move |t, _| show(t).into())
    }

    /// A quantity, in the unit of its type.
    pub fn number<Q>(self, key: &'static str, head: &'static str, show: impl Fn(&T) -> Q + 'a) -> Self
    where
        Q: Quantity + Into<Figure>,
    {
        self.own(Column::number(key, head, Q::UNIT), move |t, _| Cell::of(show(t)))
    }

    /// A blank to fill in by hand.
    pub fn blank(self, key: &'static str, head: &'static str) -> Self {
        self.own(Column::text(key, head), |_, _| Cell::ToFill)
    }

    /// Something that is no result by itself.
    pub fn own(mut self, column: Column, show: impl Fn(&T, &At<'_>) -> Cell + 'a) -> Self {
        self.columns.push(column);
        self.shows.push(Box::new(show));
        self
    }

    /// The cells of a thing.
    pub fn row(&self, thing: &T, at: &At<'_>) -> Vec<Cell> {
        self.shows.iter().map(|show| show(thing, at)).collect()
    }

    /// The table of these things.
    pub fn table<'t>(
        &self,
        name: &'static str,
        caption: impl Into<String>,
        things: impl IntoIterator<Item = &'t T>,
        at: At<'_>,
    ) -> Table
    where
        T: 't,
    {
        let mut table = Table::new(name, caption, &self.columns);
        for (n, thing) in things.into_iter().enumerate() {
            table.row(self.row(thing, &at.item(n)));
        }
        table
    }

    /// The table of things that are no results.
    pub fn list<'t>(
        &self,
        name: &'static str,
        caption: impl Into<String>,
        things: impl IntoIterator<Item = &'t T>,
    ) -> Table
    where
        T: 't,
    {
        self.table(name, caption, things, At::site(&Installation::default()))
    }
}

impl Column {
    /// A column of this result.
    pub fn fact<T: Thing>(fact: &Fact<T>) -> Column {
        Column { key: fact.key, head: fact.label, unit: fact.unit() }
    }
}

impl From<Content> for Cell {
    fn from(content: Content) -> Cell {
        match content {
            Content::Number(figure) | Content::Figure(figure) => Cell::Number(figure),
            Content::Limit(figure) => Cell::Limit(figure),
            Content::Text(text) => Cell::Text(text),
            Content::Flag(flag) => if flag { "yes" } else { "no" }.into(),
            Content::Band([low, _, high]) => format!("{low} to {high}").into(),
            Content::List(items) => items.into_iter().map(words).collect::<Vec<_>>().join(", ").into(),
            Content::Absent | Content::NotAsked | Content::Entry(_) | Content::Group(_) => Cell::Absent,
        }
    }
}

fn words(content: Content) -> String {
    match content {
        Content::Number(figure) | Content::Limit(figure) | Content::Figure(figure) => Figure::to_string(&figure),
        Content::Text(text) => text,
        _ => String::new(),
    }
}
