//! A table of pairs read as straight lines between its points.

use crate::quantity::Quantity;
use serde::Deserialize;

/// A piecewise-linear relation between two quantities, e.g. resting voltage
/// by state of charge. Points are by growing x. Outside its ends it holds the
/// end value: published tables say nothing there, and extrapolating invents.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curve<X, Y> {
    points: Vec<(X, Y)>,
}

impl<X: Quantity, Y: Quantity> Curve<X, Y> {
    /// From pairs; they are sorted by x. Pairs that are not finite are dropped.
    pub fn new(mut points: Vec<(X, Y)>) -> Self {
        points.retain(|(x, y)| x.number().is_finite() && y.number().is_finite());
        points.sort_by(|a, b| a.0.number().total_cmp(&b.0.number()));
        Curve { points }
    }

    /// The pairs, by growing x.
    pub fn points(&self) -> &[(X, Y)] {
        &self.points
    }

    /// y at x, held at the ends; `None` for an empty table.
    pub fn at(&self, x: X) -> Option<Y> {
        self.before(x.number(), self.points.partition_point(|(px, _)| px.number() <= x.number()))
    }

    /// The same for one x after the other, each no smaller than the last: without looking for each anew.
    pub fn growing(&self) -> impl FnMut(X) -> Option<Y> + '_ {
        let mut next = 0;
        move |x| {
            let x = x.number();
            while self.points.get(next).is_some_and(|(px, _)| px.number() <= x) {
                next += 1;
            }
            self.before(x, next)
        }
    }

    /// y at x that lies just before a point.
    fn before(&self, x: f64, next: usize) -> Option<Y> {
        let (first, last) = (self.points.first()?, self.points.last()?);
        if x <= first.0.number() {
            return Some(first.1);
        }
        if x >= last.0.number() {
            return Some(last.1);
        }
        let (a, b) = (self.points.get(next.checked_sub(1)?)?, self.points.get(next)?);
        Some(Y::of(between(x, a.0.number(), b.0.number(), a.1.number(), b.1.number())))
    }

    /// x at which y is reached, for a table whose y only grows or only falls;
    /// held at the ends. `None` for an empty table.
    pub fn inverse(&self, y: Y) -> Option<X> {
        let flipped = Curve { points: self.points.iter().map(|&(x, y)| (y, x)).collect::<Vec<_>>() };
        let mut flipped = flipped;
        flipped.points.sort_by(|a, b| a.0.number().total_cmp(&b.0.number()));
        flipped.at(y)
    }
}

fn between(x: f64, x0: f64, x1: f64, y0: f64, y1: f64) -> f64 {
    if x1 == x0 { y0 } else { y0 + (y1 - y0) * (x - x0) / (x1 - x0) }
}

impl<'de, X: Quantity + Deserialize<'de>, Y: Quantity + Deserialize<'de>> Deserialize<'de> for Curve<X, Y> {
    /// Written as a list of pairs: `[[0.0, 11.7], [1.0, 12.6]]`.
    fn deserialize<D: serde::Deserializer<'de>>(source: D) -> Result<Self, D::Error> {
        Ok(Curve::new(Vec::<(X, Y)>::deserialize(source)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Share, Volts};

    #[test]
    fn reads_between_its_points_and_holds_at_its_ends() {
        // US Army TM 5-3805-262-20 p. 5-142: 12.2 V is 50 %, 12.4 V is 75 %; 12.3 V lies between at 62.5 %.
        let curve = Curve::new(vec![
            (Share::new(0.75), Volts::new(12.4)),
            (Share::new(0.5), Volts::new(12.2)),
            (Share::new(0.25), Volts::new(12.0)),
        ]);
        let share = curve.inverse(Volts::new(12.3)).unwrap();
        assert!((share.get() - 0.625).abs() < 1e-9);
        assert_eq!(curve.at(Share::new(0.0)), Some(Volts::new(12.0)));
        let mut growing = curve.growing();
        for x in [0.0, 0.2, 0.25, 0.25, 0.3, 0.5, 0.74, 0.75, 0.9].map(Share::new) {
            assert_eq!(growing(x), curve.at(x), "{x}");
        }
        assert_eq!(Curve::<Share, Volts>::default().at(Share::new(0.5)), None);
    }
}
