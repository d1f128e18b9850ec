//! One way to compare a number with its source, and to read the copied tables.

pub use crate::ledger::{Source, by_hand, independent, memory, simulator, typed_twice};

use crate::ledger::{note, note_bound};
use toml::{Table, Value};

/// Compare with a number of a source; the failure names source, expected, got and tolerance.
#[track_caller]
pub fn check(source: Source<'_>, what: &str, expected: f64, got: f64, tolerance: f64) {
    note(source, expected, got, tolerance);
    assert!(
        (got - expected).abs() <= tolerance + 1e-12,
        "\n  what: {what}\nsource: {}\nexpected {expected}, got {got}, tolerance {tolerance}\n",
        source.name
    );
}

/// The same with the tolerance as a share of the expected value.
#[track_caller]
pub fn check_share(source: Source<'_>, what: &str, expected: f64, got: f64, share: f64) {
    check(source, what, expected, got, share * expected.abs());
}

/// Compare with a published range.
#[track_caller]
pub fn check_between(source: Source<'_>, what: &str, low: f64, high: f64, got: f64) {
    let (middle, half) = ((low + high) / 2.0, (high - low) / 2.0);
    check(source, what, middle, got, half);
}

/// Hold a value to the safe side of a published one.
#[track_caller]
pub fn check_at_most(source: Source<'_>, what: &str, most: f64, got: f64) {
    note_bound(source, most, got);
    assert!(got <= most + 1e-12, "\n  what: {what}\nsource: {}\nat most {most}, got {got}\n", source.name);
}

/// The same from below.
#[track_caller]
pub fn check_at_least(source: Source<'_>, what: &str, least: f64, got: f64) {
    note_bound(source, least, got);
    assert!(got >= least - 1e-12, "\n  what: {what}\nsource: {}\nat least {least}, got {got}\n", source.name);
}

/// A file of copied tables.
pub struct Data(Table);

impl Data {
    pub fn new(text: &str) -> Data {
        Data(text.parse().unwrap())
    }

    pub fn table(&self, section: &str) -> Section<'_> {
        let table = self.0.get(section).and_then(Value::as_table);
        Section(table.unwrap_or_else(|| panic!("no [{section}]")))
    }

    /// Each table that says where it comes from.
    pub fn sections(&self) -> impl Iterator<Item = (&String, Section<'_>)> {
        self.0.iter().filter_map(|(name, value)| Some((name, Section(value.as_table()?))))
    }
}

/// One table of a [`Data`] file.
#[derive(Clone, Copy)]
pub struct Section<'a>(&'a Table);

impl<'a> Section<'a> {
    fn value(self, key: &str) -> &'a Value {
        self.0.get(key).unwrap_or_else(|| panic!("no `{key}`"))
    }

    pub fn source(self) -> &'a str {
        self.text("source")
    }

    pub fn text(self, key: &str) -> &'a str {
        self.value(key).as_str().unwrap_or_else(|| panic!("`{key}` is no text"))
    }

    pub fn number(self, key: &str) -> f64 {
        float(self.value(key))
    }

    pub fn numbers(self, key: &str) -> Vec<f64> {
        self.value(key).as_array().unwrap().iter().map(float).collect()
    }

    pub fn texts(self, key: &str) -> Vec<&'a str> {
        self.value(key).as_array().unwrap().iter().map(|v| v.as_str().unwrap()).collect()
    }

    pub fn tables(self, key: &str) -> Vec<Section<'a>> {
        self.value(key).as_array().unwrap().iter().map(|v| Section(v.as_table().unwrap())).collect()
    }

    /// Two columns side by side.
    pub fn pairs(self, x: &str, y: &str) -> Vec<(f64, f64)> {
        let (x, y) = (self.numbers(x), self.numbers(y));
        assert_eq!(x.len(), y.len());
        x.into_iter().zip(y).collect()
    }
}

fn float(value: &Value) -> f64 {
    value.as_float().or_else(|| value.as_integer().map(|i| i as f64)).unwrap_or_else(|| panic!("{value} is no number"))
}
