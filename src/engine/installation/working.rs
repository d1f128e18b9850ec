//! How a number came about: formula, numbers put in, result, source.
//!
//! A working is made where its number is made, by the same expression, and
//! only when somebody asks for it: [`Notes`] that are not kept throw it away
//! unmade. The formula is kept in plain arithmetic (`2 * L * R / 1000`), so
//! that a test can work it out again from the numbers put in alone.

use crate::engine::installation::subject::Subject;
use crate::engine::physics::reckon::Reckoned;
use crate::quantity::{Figure, Quantity};
use std::borrow::Cow;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// Which number: of what, and its name.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Topic {
    /// What it belongs to.
    pub subject: Subject,
    /// The number's stable name, e.g. `drop`, `ampacity`, `needed capacity`.
    pub number: Cow<'static, str>,
}

/// One number put into a formula.
#[derive(Clone, Debug, PartialEq)]
pub struct Input {
    /// As in the formula: letters, digits and `_`.
    pub symbol: &'static str,
    /// What it is, in words.
    pub meaning: Cow<'static, str>,
    /// The number with its unit.
    pub value: Figure,
    /// The working it comes from, to step into.
    pub from: Option<Topic>,
}

/// How one number came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// What the result is, in words.
    pub name: Cow<'static, str>,
    /// Arithmetic in the symbols of `inputs`: + - * / ^ ( ) and min, max, sqrt,
    /// exp, ln, ceil, floor. Empty when the number is read from a table or solved for.
    pub formula: Cow<'static, str>,
    /// In the order of the formula.
    pub inputs: Vec<Input>,
    /// The result, in the unit that the formula gives when each input is in its own.
    pub result: Figure,
    /// Where the rule or the table comes from; says so when from memory.
    pub source: Cow<'static, str>,
    /// What else to know: an approximation, a method that was not used, a rounding.
    pub notes: Vec<String>,
}

impl Working {
    /// A working with nothing put in yet.
    pub fn new(
        name: impl Into<Cow<'static, str>>,
        formula: impl Into<Cow<'static, str>>,
        result: impl Into<Figure>,
    ) -> Self {
        Working {
            name: name.into(),
            formula: formula.into(),
            inputs: Vec::with_capacity(6),
            result: result.into(),
            source: Cow::Borrowed(""),
            notes: Vec::new(),
        }
    }

    /// With a number put in.
    pub fn with(
        mut self,
        symbol: &'static str,
        meaning: impl Into<Cow<'static, str>>,
        value: impl Into<Figure>,
    ) -> Self {
        self.inputs.push(Input { symbol, meaning: meaning.into(), value: value.into(), from: None });
        self
    }

    /// With a number put in that has a working of its own.
    pub fn with_from(
        mut self,
        symbol: &'static str,
        meaning: impl Into<Cow<'static, str>>,
        value: impl Into<Figure>,
        subject: Subject,
        number: impl Into<Cow<'static, str>>,
    ) -> Self {
        let from = Some(Topic { subject, number: number.into() });
        self.inputs.push(Input { symbol, meaning: meaning.into(), value: value.into(), from });
        self
    }

    /// Where the number of a symbol has a working of its own, to step into.
    pub fn from(mut self, symbol: &'static str, subject: Subject, number: impl Into<Cow<'static, str>>) -> Self {
        if let Some(input) = self.inputs.iter_mut().find(|i| i.symbol == symbol) {
            input.from = Some(Topic { subject, number: number.into() });
        }
        self
    }

    /// With its source.
    pub fn source(mut self, source: impl Into<Cow<'static, str>>) -> Self {
        self.source = source.into();
        self
    }

    /// With a remark.
    pub fn note(mut self, note: impl Into<String>) -> Self {
        self.notes.push(note.into());
        self
    }
}

impl<Q: Quantity, const N: usize> Reckoned<Q, N> {
    /// The working of this number, under its name in words.
    pub fn working(&self, name: impl Into<Cow<'static, str>>) -> Working {
        let mut working = Working::new(name, plain(self.formula), Figure::new(self.value.number(), Q::UNIT));
        working.inputs.extend(self.terms.iter().map(|t| Input {
            symbol: t.symbol,
            meaning: Cow::Borrowed(t.meaning),
            value: t.value,
            from: None,
        }));
        working
    }
}

/// Symbols of the terms of a sum.
const SYMBOLS: [&str; 24] = [
    "a1", "a2", "a3", "a4", "a5", "a6", "a7", "a8", "a9", "a10", "a11", "a12", "a13", "a14", "a15", "a16", "a17",
    "a18", "a19", "a20", "a21", "a22", "a23", "a24",
];

/// A term of a sum: words, number, the working it comes from.
pub type Addend = (String, Figure, Option<(Subject, &'static str)>);

/// A sum with a term for each thing; with more terms than symbols it is said in words.
pub fn sum(name: &'static str, result: impl Into<Figure>, terms: Vec<Addend>) -> Working {
    let many = terms.len() > SYMBOLS.len();
    let formula = if many { String::new() } else { SYMBOLS[..terms.len()].join(" + ") };
    let mut working = Working::new(name, formula, result);
    for (symbol, (words, value, from)) in SYMBOLS.iter().zip(terms) {
        working = match from {
            Some((subject, number)) => working.with_from(symbol, words, value, subject, number),
            None => working.with(symbol, words, value),
        };
    }
    if many { working.note("the sum of all; only the first 24 are listed") } else { working }
}

/// An expression as people write it: `2` for `2.0`.
fn plain(formula: &str) -> String {
    let mut out = String::with_capacity(formula.len());
    let mut rest = formula;
    while let Some(at) = rest.find(".0") {
        let (before, after) = (&rest[..at], &rest[at + 2..]);
        out.push_str(before);
        if !before.ends_with(|c: char| c.is_ascii_digit()) || after.starts_with(|c: char| c.is_ascii_digit()) {
            out.push_str(".0");
        }
        rest = after;
    }
    out + rest
}

/// Workings gathered on the way, when they are wanted.
#[derive(Clone, Debug, Default)]
pub struct Notes(Option<Workings>);

impl Notes {
    /// Nobody asks: nothing is kept, and nothing made.
    pub fn unkept() -> Self {
        Notes(None)
    }

    /// Somebody asks.
    pub fn kept() -> Self {
        Notes(Some(Workings::default()))
    }

    /// Keep the working that `make` gives, if any are kept.
    pub fn add(&mut self, subject: Subject, number: impl Into<Cow<'static, str>>, make: impl FnOnce() -> Working) {
        if let Some(all) = &mut self.0 {
            all.add(subject, number, make());
        }
    }

    /// A number by its expression; `words` gives the working its name, its sources and remarks.
    pub fn reckon<Q: Quantity, const N: usize>(
        &mut self,
        subject: &Subject,
        number: impl Into<Cow<'static, str>>,
        reckoned: Reckoned<Q, N>,
        words: impl FnOnce(&Reckoned<Q, N>) -> Working,
    ) -> Q {
        if let Some(all) = &mut self.0 {
            all.add(subject.clone(), number, words(&reckoned));
        }
        reckoned.value
    }

    /// Whether somebody asks.
    pub fn are_kept(&self) -> bool {
        self.0.is_some()
    }

    /// What has been kept so far.
    pub fn workings(&self) -> Option<&Workings> {
        self.0.as_ref()
    }

    /// All that was kept.
    pub fn into_workings(self) -> Workings {
        self.0.unwrap_or_default()
    }
}

/// All workings of a design.
#[derive(Clone, Debug, Default)]
pub struct Workings {
    /// Where each stands; kept apart, so that the tree moves no large things while it grows.
    place: BTreeMap<Topic, usize>,
    all: Vec<Working>,
}

impl Workings {
    /// Keep a working.
    pub fn add(&mut self, subject: Subject, number: impl Into<Cow<'static, str>>, working: Working) {
        match self.place.entry(Topic { subject, number: number.into() }) {
            Entry::Vacant(entry) => {
                entry.insert(self.all.len());
                self.all.push(working);
            }
            Entry::Occupied(entry) => {
                if let Some(old) = self.all.get_mut(*entry.get()) {
                    *old = working;
                }
            }
        }
    }

    /// All of another's, over one's own.
    pub fn extend(&mut self, more: Workings) {
        for (topic, place) in more.place {
            if let Some(working) = more.all.get(place) {
                self.add(topic.subject, topic.number, working.clone());
            }
        }
    }

    /// The working of a number.
    pub fn get(&self, subject: &Subject, number: &str) -> Option<&Working> {
        // The key owns a Cow; a borrowed copy of the name is enough to look it up.
        self.at(&Topic { subject: subject.clone(), number: Cow::Owned(number.to_string()) })
    }

    /// The working of a topic.
    pub fn at(&self, topic: &Topic) -> Option<&Working> {
        self.all.get(*self.place.get(topic)?)
    }

    /// All of them, by subject.
    pub fn iter(&self) -> impl Iterator<Item = (&Topic, &Working)> {
        self.place.iter().filter_map(|(topic, place)| Some((topic, self.all.get(*place)?)))
    }

    /// Those of one subject.
    pub fn of(&self, subject: &Subject) -> impl Iterator<Item = (&Topic, &Working)> {
        self.iter().filter(move |(t, _)| t.subject == *subject)
    }
}
