//! Faults of a row, gathered, and the checks that every kind of row shares.

use super::curve::Curve;
use super::sourced::Value;
use crate::quantity::{Quantity, Share, Unit};
use itertools::Itertools;

/// Something wrong with a row.
pub(super) struct Fault {
    /// Dotted name of the field; empty for the row as a whole.
    pub field: String,
    /// What is wrong and how to mend it, to be read after the field's name.
    pub message: String,
}

/// What is wrong with a row, gathered.
#[derive(Default)]
pub(super) struct Faults {
    pub list: Vec<Fault>,
}

/// Which way the y of a curve has to go.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Trend {
    /// Each y above the one before, so that it can be read backwards.
    Rises,
    /// No y below the one before.
    NeverFalls,
    /// No y above the one before.
    NeverRises,
}

/// A value, one that may be absent, or a list of them: the same is asked of each.
pub(super) trait Each {
    type One;
    /// Those that are there.
    fn each(&self) -> &[Self::One];
}

impl<Q: Quantity> Each for Q {
    type One = Q;
    fn each(&self) -> &[Q] {
        std::slice::from_ref(self)
    }
}

impl<X, Y> Each for Curve<X, Y> {
    type One = Self;
    fn each(&self) -> &[Self] {
        std::slice::from_ref(self)
    }
}

impl<T> Each for Option<T> {
    type One = T;
    fn each(&self) -> &[T] {
        self.as_slice()
    }
}

impl<T> Each for Vec<T> {
    type One = T;
    fn each(&self) -> &[T] {
        self
    }
}

impl Faults {
    /// Report a fault of a field.
    pub fn add(&mut self, field: &str, message: impl Into<String>) {
        self.list.push(Fault { field: field.into(), message: message.into() });
    }

    /// Report it unless the condition holds.
    pub fn need(&mut self, holds: bool, field: &str, message: &str) {
        if !holds {
            self.add(field, message);
        }
    }

    /// The text must not be empty.
    pub fn text(&mut self, field: &str, text: &str) {
        self.need(!text.trim().is_empty(), field, "is empty; write what it is");
    }

    /// The text must be one of some words.
    pub fn one_of(&mut self, field: &str, text: &str, words: &[&str]) {
        if !words.contains(&text) {
            self.add(field, format!("is “{text}”; it must be one of {}", words.join(", ")));
        }
    }

    /// A count must not be below the least.
    pub fn at_least(&mut self, field: &str, count: &u32, least: u32) {
        self.need(*count >= least, field, &format!("must be {least} or more"));
    }

    /// Each number must be within a range in its own unit.
    pub fn within<Q: Quantity>(&mut self, field: &str, values: &impl Each<One = Q>, low: f64, high: f64) {
        // A profile gives a share as a number, not in per cent.
        let unit = if Q::UNIT == Unit::Share { "" } else { Q::UNIT.symbol() };
        for value in values.each().iter().map(|q| q.number()) {
            if !(value >= low && value <= high) {
                self.add(field, format!("is {value}; it must be from {low} to {high} {unit}").trim_end());
            }
        }
    }

    /// A share of a whole, 0 to 1.
    pub fn share(&mut self, field: &str, value: &Share) {
        let value = value.get();
        if !(0.0..=1.0).contains(&value) {
            self.add(field, format!("is {value}; it is a share from 0 to 1 (40 % is 0.4)"));
        }
    }

    /// Values given, above zero and each above the one before.
    pub fn ascending<Q: Quantity>(&mut self, field: &str, values: &[Q]) {
        self.need(!values.is_empty(), field, "is empty; list at least one value");
        self.need(values.iter().all(|v| v.number() > 0.0), field, "must all be above zero");
        let rising = values.iter().tuple_windows().all(|(a, b)| a.number() < b.number());
        self.need(rising, field, "must be in ascending order, each once");
    }

    /// Each curve must have at least two points, in range and going one way.
    pub fn curve<X: Quantity, Y: Quantity>(
        &mut self,
        field: &str,
        curves: &impl Each<One = Curve<X, Y>>,
        x: (f64, f64),
        y: (f64, f64),
        trend: Trend,
    ) {
        for curve in curves.each() {
            let points: Vec<_> = curve.points().iter().map(|(x, y)| (x.number(), y.number())).collect();
            self.need(points.len() >= 2, field, "needs at least two points: [[x, y], [x, y]]");
            for (px, py) in &points {
                if !((x.0..=x.1).contains(px) && (y.0..=y.1).contains(py)) {
                    let ((x0, x1), (y0, y1)) = (x, y);
                    self.add(
                        field,
                        format!("has the point [{px}, {py}]; x must be from {x0} to {x1}, y from {y0} to {y1}"),
                    );
                }
            }
            for ((ax, ay), (bx, by)) in points.iter().tuple_windows() {
                let (fine, rule) = match trend {
                    Trend::Rises => (by > ay, "y must rise with x"),
                    Trend::NeverFalls => (by >= ay, "y must not fall as x grows"),
                    Trend::NeverRises => (by <= ay, "y must not rise as x grows"),
                };
                if bx <= ax {
                    self.add(field, format!("has x = {bx} twice; give each x once"));
                } else if !fine {
                    self.add(field, format!("goes from {ay} to {by} at x = {bx}; {rule}"));
                }
            }
        }
    }

    /// What is wrong with a part is told with the part's name before the field's.
    pub fn part(&mut self, name: &str, check: impl FnOnce(&mut Faults)) {
        let mut own = Faults::default();
        check(&mut own);
        for Fault { field, message } in own.list {
            self.add(&format!("{name}.{field}"), message);
        }
    }

    /// Every value has a source, or says that it has none; one complaint a row is enough.
    pub fn sources(&mut self, values: &[Value<'_>]) {
        if let Some(first) = values.iter().find(|v| v.from.is_nameless()) {
            self.nameless(if first.from.whole_row { "how" } else { "sources" });
        }
    }

    /// Something was read or computed, but nobody says where.
    pub fn nameless(&mut self, field: &str) {
        self.add(
            field,
            "says the figure was read or computed but there is no `source`; name the publication with table or clause, \
             or write how = \"memory\" or \"practice\"",
        );
    }
}
