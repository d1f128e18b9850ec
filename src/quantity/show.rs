//! Writing a number with its unit and sensible digits: one function for screen, paper and JSON labels.

use super::unit::Unit;
use std::fmt;

/// A number with its unit, ready to be shown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The number, in [`Figure::unit`].
    pub value: f64,
    /// The unit.
    pub unit: Unit,
}

/// Which units lengths, masses and temperatures are shown in. Plans and the
/// engine always keep metric values, so switching never rounds anything.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum UnitSystem {
    /// Metres, kilograms, degrees Celsius.
    #[default]
    Metric,
    /// Feet, inches, pounds, degrees Fahrenheit.
    Us,
}

impl Figure {
    /// A number with its unit.
    pub const fn new(value: f64, unit: Unit) -> Self {
        Figure { value, unit }
    }

    /// A pure number.
    pub const fn number(value: f64) -> Self {
        Figure::new(value, Unit::Number)
    }

    /// Shown with unit, in the chosen system: `6.2 m`, `20.3 ft`.
    pub fn show(self, system: UnitSystem) -> String {
        let (value, symbol) = self.converted(system);
        with_symbol(&digits(value, symbol), symbol)
    }

    /// Shown with unit, never more than it is: a limit that is read may not allow
    /// more than was worked out. As many digits as [`Figure::show`] writes.
    pub fn show_at_most(self, system: UnitSystem) -> String {
        let (digits, symbol) = self.lowered(system, 3);
        with_symbol(&digits, symbol)
    }

    /// The same in two figures, for running text: 0.1778 m is `0.17 m`.
    pub fn about_at_most(self, system: UnitSystem) -> String {
        let (digits, symbol) = self.lowered(system, 2);
        with_symbol(&digits, symbol)
    }

    /// Only the digits of [`Figure::show_at_most`], for columns whose head has the unit.
    pub fn digits_at_most(self, system: UnitSystem) -> String {
        self.lowered(system, 3).0
    }

    fn lowered(self, system: UnitSystem, figures: i32) -> (String, &'static str) {
        let (value, symbol) = self.converted(system);
        if !value.is_finite() || value == 0.0 {
            return (digits(value, symbol), symbol);
        }
        let size = value.abs().log10().floor() as i32 + 1;
        // Of what is shown whole nothing is lost, unless two figures are asked for.
        let places = if symbol == "V" { 2 } else { (figures - size).min(4) };
        let places = if figures > 2 { places.max(0) } else { places };
        let step = 10f64.powi(places);
        // A hair under a round number is that number: 1.2 is stored as 1.19999….
        let value = (value * step + value.abs() * step * 1e-12).floor() / step;
        (digits(value, symbol), symbol)
    }

    /// Only the digits, in the chosen system, for columns whose head has the unit.
    pub fn digits(self, system: UnitSystem) -> String {
        let (value, symbol) = self.converted(system);
        digits(value, symbol)
    }

    /// Shown with unit and all its digits (to nine places): what is edited. In
    /// units that are not its own six figures are enough: text that is taken
    /// back unchanged changes nothing anyway.
    pub fn exact(self, system: UnitSystem) -> String {
        let (value, symbol) = match self.unit {
            // These units change with the size of the number; the plain one is edited.
            Unit::Ohm | Unit::Second | Unit::Amp => (self.value, self.unit.symbol()),
            _ => self.converted(system),
        };
        if !value.is_finite() {
            return String::new();
        }
        let own = symbol == self.unit.symbol();
        let size = if value == 0.0 { 1 } else { value.abs().log10().floor() as i32 + 1 };
        let places = if own { 9 } else { (6 - size).clamp(0, 9) as usize };
        let text = format!("{value:.places$}");
        let text = if text.contains('.') { text } else { format!("{text}.") };
        let text = text.trim_end_matches('0').trim_end_matches('.');
        with_symbol(if text == "-0" { "0" } else { text }, symbol)
    }

    /// The unit symbol in the chosen system, for column heads.
    pub fn symbol(self, system: UnitSystem) -> &'static str {
        self.converted(system).1
    }

    /// The number alone, in the chosen system.
    pub fn in_system(self, system: UnitSystem) -> f64 {
        self.converted(system).0
    }

    fn converted(self, system: UnitSystem) -> (f64, &'static str) {
        let v = self.value;
        match (self.unit, system) {
            (Unit::Share, _) => (v * 100.0, "%"),
            (Unit::SharePerKelvin, _) => (v * 100.0, "%/K"),
            (Unit::Ohm, _) if v.abs() < 1.0 => (v * 1000.0, "mΩ"),
            (Unit::Second, _) if v.abs() < 1.0 && v != 0.0 => (v * 1000.0, "ms"),
            (Unit::Second, _) if v.abs() >= 7200.0 => (v / 3600.0, "h"),
            (Unit::Second, _) if v.abs() >= 300.0 => (v / 60.0, "min"),
            (Unit::Amp, _) if v.abs() >= 10_000.0 => (v / 1000.0, "kA"),
            (Unit::Metre, UnitSystem::Us) => (v / 0.3048, "ft"),
            (Unit::Millimetre, UnitSystem::Us) => (v / 25.4, "in"),
            (Unit::Kilogram, UnitSystem::Us) => (v / 0.453_592_37, "lb"),
            (Unit::NewtonMetre, UnitSystem::Us) => (v / 1.355_817_948, "lbf ft"),
            (Unit::Celsius, UnitSystem::Us) => (v * 1.8 + 32.0, "°F"),
            (Unit::Kelvin, UnitSystem::Us) => (v * 1.8, "°F diff"),
            (unit, _) => (v, unit.symbol()),
        }
    }
}

impl fmt::Display for Figure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&self.show(UnitSystem::Metric))
    }
}

/// The digits of a number shown with this symbol.
fn digits(value: f64, symbol: &str) -> String {
    // What is not finite is a dash, so that NaN cannot reach a reader even if one were ever made.
    match symbol {
        _ if !value.is_finite() => "–".into(),
        "V" => volts(value),
        _ => three_digits(value),
    }
}

/// Digits and the symbol behind them.
fn with_symbol(digits: &str, symbol: &str) -> String {
    match symbol {
        "" => digits.into(),
        "×" | "°" => format!("{digits}{symbol}"),
        _ => format!("{digits} {symbol}"),
    }
}

/// Voltages are read against meters that show hundredths, so they keep two
/// places always; a small drop keeps three.
fn volts(value: f64) -> String {
    let text = if value.abs() < 0.0995 { format!("{value:.3}") } else { format!("{value:.2}") };
    if text.trim_start_matches('-').bytes().all(|b| b == b'0' || b == b'.') { "0".into() } else { text }
}

/// Three significant digits, or whole numbers when larger; no exponent, no
/// trailing zeros after the point, never `-0`.
fn three_digits(value: f64) -> String {
    let places = match value.abs() {
        size if size >= 99.95 => 0,
        size if size >= 9.995 => 1,
        size if size >= 0.9995 => 2,
        size if size >= 0.09995 => 3,
        _ => 4,
    };
    let text = format!("{value:.places$}");
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if text == "-0" { "0".into() } else { text.into() }
}

/// `1 run`, `2 runs`; for words whose plural only takes an s.
pub fn counted(n: usize, what: &str) -> String {
    if n == 1 { format!("1 {what}") } else { format!("{n} {what}s") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Amps, Celsius, Metres, Ohms, Share, SquareMillimetres, Volts, parse};
    use proptest::prelude::*;

    #[test]
    fn shown_as_the_trade_writes_it() {
        assert_eq!(Metres::new(6.2).to_string(), "6.2 m");
        assert_eq!(SquareMillimetres::new(25.0).to_string(), "25 mm²");
        assert_eq!(Volts::new(12.834).to_string(), "12.83 V");
        assert_eq!(Share::new(0.0283).to_string(), "2.83 %");
        assert_eq!(Amps::new(2000.0).to_string(), "2000 A");
        assert_eq!(Ohms::new(0.0123).to_string(), "12.3 mΩ");
        assert_eq!(Celsius::new(-0.0).to_string(), "0 °C");
        assert_eq!(Volts::new(f64::NAN).to_string(), "– V");
        assert_eq!(Figure::from(Metres::new(6.096)).show(UnitSystem::Us), "20 ft");
        assert_eq!(Figure::from(Celsius::new(-5.0)).show(UnitSystem::Us), "23 °F");
    }

    /// 33 CFR 183.455: 7 in and 40 in are 0.1778 m and 1.016 m (25.4 mm to the inch).
    #[test]
    fn a_limit_is_never_rounded_up() {
        let at_most = |figure: Figure| figure.show_at_most(UnitSystem::Metric);
        let about = |figure: Figure| figure.about_at_most(UnitSystem::Metric);
        assert_eq!(at_most(Metres::new(1.016).into()), "1.01 m");
        assert_eq!(at_most(Metres::new(0.1778).into()), "0.177 m");
        assert_eq!(at_most(Metres::new(1.2).into()), "1.2 m");
        assert_eq!(at_most(Amps::new(100.0).into()), "100 A");
        assert_eq!(at_most(Amps::new(1234.9).into()), "1234 A");
        assert_eq!(at_most(Celsius::new(-0.55).into()), "-0.55 °C");
        assert_eq!(at_most(Volts::new(14.409).into()), "14.40 V");
        assert_eq!(at_most(Volts::new(f64::NAN).into()), "– V");
        assert_eq!(about(Metres::new(0.1778).into()), "0.17 m");
        assert_eq!(about(Figure::new(15_625.0, Unit::Newton)), "15000 N");
        assert_eq!(about(Metres::new(0.0).into()), "0 m");
    }

    #[test]
    fn exact_keeps_every_digit() {
        assert_eq!(Figure::from(Metres::new(6.2345)).exact(UnitSystem::Metric), "6.2345 m");
        assert_eq!(Figure::from(Metres::new(6.096)).exact(UnitSystem::Us), "20 ft");
        assert_eq!(Figure::from(Share::new(0.333)).exact(UnitSystem::Metric), "33.3 %");
        assert_eq!(Figure::new(0.5, Unit::Second).exact(UnitSystem::Metric), "0.5 s");
    }

    proptest! {
        #[test]
        fn limits_shown_allow_no_more(value in 0.001f64..99_999.0, us: bool) {
            let system = if us { UnitSystem::Us } else { UnitSystem::Metric };
            for unit in [Unit::Amp, Unit::Metre, Unit::Celsius, Unit::Newton, Unit::Share] {
                let figure = Figure::new(value, unit);
                for shown in [figure.show_at_most(system), figure.about_at_most(system)] {
                    let back = parse(&shown, unit).map_err(|e| TestCaseError::fail(format!("{shown}: {e:?}")))?;
                    prop_assert!(back <= value * (1.0 + 1e-9) + 1e-9, "{} shown as {}", value, shown);
                }
            }
        }

        /// What is shown, typed back in, is the value to the shown digits.
        #[test]
        fn shown_values_read_back(value in 0.01f64..9999.0, us: bool) {
            let system = if us { UnitSystem::Us } else { UnitSystem::Metric };
            for unit in [Unit::Volt, Unit::Amp, Unit::Ohm, Unit::Watt, Unit::Metre, Unit::Millimetre, Unit::Kilogram,
                         Unit::Celsius, Unit::Share, Unit::Second, Unit::Hour, Unit::AmpHour, Unit::SquareMillimetre] {
                let shown = Figure::new(value, unit).show(system);
                let back = parse(&shown, unit).map_err(|e| TestCaseError::fail(format!("{shown}: {e:?}")))?;
                let rounding = match unit {
                    Unit::Celsius => 0.6,
                    Unit::Volt => (0.006 * value).max(0.0051),
                    _ => 0.006 * value.max(0.1),
                };
                prop_assert!((back - value).abs() <= rounding, "{} shown as {} read as {}", value, shown, back);
            }
        }
    }
}
