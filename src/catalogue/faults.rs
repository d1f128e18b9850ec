//! Faults of a row, gathered, and the checks that every kind of row shares.

use super::curve::Curve;
use super::sourced::Value;
use crate::quantity::Quantity;

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

    /// A bare number within a range.
    pub fn number(&mut self, field: &str, value: f64, low: f64, high: f64) {
        if !(value >= low && value <= high) {
            self.add(field, format!("is {value}; it must be from {low} to {high}"));
        }
    }

    /// A quantity within a range in its own unit.
    pub fn within<Q: Quantity>(&mut self, field: &str, value: Q, low: f64, high: f64) {
        let (value, unit) = (value.number(), Q::UNIT.symbol());
        if !(value >= low && value <= high) {
            self.add(field, format!("is {value}; it must be from {low} to {high} {unit}").trim_end());
        }
    }

    /// A share of a whole, 0 to 1.
    pub fn share(&mut self, field: &str, value: impl Quantity) {
        let value = value.number();
        if !(0.0..=1.0).contains(&value) {
            self.add(field, format!("is {value}; it is a share from 0 to 1 (40 % is 0.4)"));
        }
    }

    /// Values given, above zero and each above the one before.
    pub fn ascending<Q: Quantity>(&mut self, field: &str, values: &[Q]) {
        self.need(!values.is_empty(), field, "is empty; list at least one value");
        self.need(values.iter().all(|v| v.number() > 0.0), field, "must all be above zero");
        let rising = values.iter().zip(values.iter().skip(1)).all(|(a, b)| a.number() < b.number());
        self.need(rising, field, "must be in ascending order, each once");
    }

    /// A curve with at least two points, in range and going one way.
    pub fn curve<X: Quantity, Y: Quantity>(
        &mut self,
        field: &str,
        curve: &Curve<X, Y>,
        x: (f64, f64),
        y: (f64, f64),
        trend: Trend,
    ) {
        let points = curve.points();
        self.need(points.len() >= 2, field, "needs at least two points: [[x, y], [x, y]]");
        for (px, py) in points {
            let (px, py) = (px.number(), py.number());
            if !(px >= x.0 && px <= x.1 && py >= y.0 && py <= y.1) {
                let (x0, x1, y0, y1) = (x.0, x.1, y.0, y.1);
                self.add(
                    field,
                    format!("has the point [{px}, {py}]; x must be from {x0} to {x1}, y from {y0} to {y1}"),
                );
            }
        }
        for (a, b) in points.iter().zip(points.iter().skip(1)) {
            let (ax, bx, ay, by) = (a.0.number(), b.0.number(), a.1.number(), b.1.number());
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

    /// Every value has a source, or says that it has none; one complaint a part is enough.
    pub fn sources(&mut self, part: &str, values: &[Value<'_>]) {
        if let Some(first) = values.iter().find(|v| v.from.is_nameless()) {
            let field = if first.from.whole_row { "how" } else { "sources" };
            self.nameless(&if part.is_empty() { field.into() } else { format!("{part}.{field}") });
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
