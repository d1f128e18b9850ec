//! How are a number and the words about it made by one expression?
//!
//! [`reckon!`](crate::reckon) takes an expression in plain symbols and what each symbol
//! stands for. It works the number out and keeps the expression as text, so
//! that what is shown cannot differ from what was computed. The functions of
//! [`arithmetic`] may stand in it. Nothing is put on the heap: a number that
//! nobody asks about costs no more than its arithmetic.

use crate::quantity::{Figure, Quantity};

/// The functions that an expression of [`reckon!`](crate::reckon) may use.
pub mod arithmetic {
    /// The larger of two.
    pub fn max(a: f64, b: f64) -> f64 {
        a.max(b)
    }

    /// The smaller of two.
    pub fn min(a: f64, b: f64) -> f64 {
        a.min(b)
    }

    /// Square root; of a negative number zero.
    pub fn sqrt(a: f64) -> f64 {
        a.max(0.0).sqrt()
    }

    /// e to the power of a number.
    pub fn exp(a: f64) -> f64 {
        a.exp()
    }

    /// Natural logarithm.
    pub fn ln(a: f64) -> f64 {
        a.ln()
    }

    /// The next whole number above.
    pub fn ceil(a: f64) -> f64 {
        a.ceil()
    }

    /// The next whole number below.
    pub fn floor(a: f64) -> f64 {
        a.floor()
    }

    /// A number to a power.
    pub fn power(a: f64, b: f64) -> f64 {
        a.powf(b)
    }
}

/// One symbol of an expression: as written, what it is, its value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// As in the expression.
    pub symbol: &'static str,
    /// What it is, in words.
    pub meaning: &'static str,
    /// The number with its unit.
    pub value: Figure,
}

/// A number with the expression it came from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reckoned<Q, const N: usize> {
    /// The number.
    pub value: Q,
    /// The expression, as compiled.
    pub formula: &'static str,
    /// Its symbols in the order given.
    pub terms: [Term; N],
}

impl<Q: Quantity, const N: usize> Reckoned<Q, N> {
    /// Made by [`reckon!`](crate::reckon).
    pub fn new(number: f64, formula: &'static str, terms: [Term; N]) -> Self {
        Reckoned { value: Q::of(number), formula, terms }
    }
}

/// A number and its expression at once.
///
/// `reckon!(Volts: I * R, I: "steady current" = flow.current, R: "loop, hot" = resistance)`
/// gives a [`Reckoned`]; each value is a quantity or a [`Figure`], used in its own unit.
#[macro_export]
macro_rules! reckon {
    ($quantity:ty: $formula:expr, $($symbol:ident: $meaning:literal = $value:expr),+ $(,)?) => {{
        $(#[allow(non_snake_case)] let $symbol = $crate::quantity::Figure::from($value);)+
        let terms = [$($crate::engine::physics::reckon::Term {
            symbol: stringify!($symbol),
            meaning: $meaning,
            value: $symbol,
        }),+];
        #[allow(non_snake_case, unused_imports)]
        let number: f64 = {
            use $crate::engine::physics::reckon::arithmetic::*;
            $(let $symbol: f64 = $symbol.value;)+
            $formula
        };
        $crate::engine::physics::reckon::Reckoned::<$quantity, _>::new(number, stringify!($formula), terms)
    }};
}

#[cfg(test)]
mod tests {
    use crate::quantity::{Amps, Ohms, Volts};

    #[test]
    fn number_and_text_come_from_one_expression() {
        let drop =
            reckon!(Volts: max(2.0 * I * R, 0.0), I: "current" = Amps::new(10.0), R: "one way" = Ohms::new(0.01));
        assert_eq!(drop.value, Volts::new(0.2));
        assert_eq!(drop.formula, "max(2.0 * I * R, 0.0)");
        assert_eq!(drop.terms.map(|t| t.symbol), ["I", "R"]);
    }
}
