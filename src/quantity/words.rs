//! Which values in running text are lengths, masses, temperatures or torques, and how are they said in other units?
//!
//! Text is made in metric units, once; who thinks in feet reads it through this. A value is a
//! number with its unit behind it. What may be no value, such as the second number of a trade size
//! (`10 x 38 mm`), and formulas stay as they are: metric is never wrong.

use super::show::{Figure, UnitSystem};
use super::unit::Unit;
use std::borrow::Cow;

/// The text with its values in a system of units.
pub fn in_units(text: &str, system: UnitSystem) -> Cow<'_, str> {
    if system == UnitSystem::Metric || text.contains(" = ") || text.contains(" * ") {
        return Cow::Borrowed(text);
    }
    let mut words: Vec<Cow<'_, str>> = text.split(' ').map(Cow::Borrowed).collect();
    let mut changed = false;
    for n in 1..words.len() {
        let Some((unit, behind)) = unit(&words[n]) else { continue };
        let Some(numbers) = numbers_of(&words[..n]) else { continue };
        for at in numbers {
            if let Some(said) = converted(&words[at], unit, system) {
                words[at] = Cow::Owned(said);
            }
        }
        words[n] = Cow::Owned(format!("{}{behind}", Figure::new(1.0, unit).symbol(system)));
        changed = true;
    }
    if changed { Cow::Owned(words.join(" ")) } else { Cow::Borrowed(text) }
}

/// A unit that is said otherwise elsewhere, and the signs behind it.
fn unit(word: &str) -> Option<(Unit, String)> {
    let bare = word.trim_end_matches([',', ';', ':', '.', ')']);
    let units = [Unit::Metre, Unit::Millimetre, Unit::Kilogram, Unit::Celsius, Unit::Kelvin, Unit::NewtonMetre];
    let unit = units.into_iter().find(|u| u.symbol() == bare)?;
    Some((unit, word[bare.len()..].to_string()))
}

/// A number, with what opens before it.
fn number(word: &str) -> Option<(&str, f64)> {
    let bare = word.trim_start_matches('(');
    let plain = bare.strip_prefix('-').unwrap_or(bare);
    let is = plain.starts_with(|c: char| c.is_ascii_digit()) && plain.chars().all(|c| c.is_ascii_digit() || c == '.');
    is.then(|| bare.parse().ok()).flatten().map(|value| (bare, value))
}

/// The places of the numbers before a unit: one, or both ends of a range. None where it may be no value.
fn numbers_of(before: &[Cow<'_, str>]) -> Option<Vec<usize>> {
    let last = before.len().checked_sub(1)?;
    number(&before[last])?;
    let (Some(link), earlier) = (last.checked_sub(1).map(|n| &*before[n]), last.checked_sub(2)) else {
        return Some(vec![last]);
    };
    let other = earlier.and_then(|n| number(&before[n])).map(|(_, value)| value);
    match (link, other) {
        // A list with one unit at its end.
        (list, _) if list.strip_suffix(',').and_then(number).is_some() => None,
        ("to" | "and" | "–", Some(_)) => Some(vec![last - 2, last]),
        // A count of pieces, or a side of a body, of which only the last has the unit.
        ("×", Some(count)) => (count < 10.0 && count.fract() == 0.0).then(|| vec![last]),
        ("×", None) if earlier.is_some_and(|n| before[n].starts_with('M')) => None,
        ("x" | "or", Some(_)) => None,
        _ => Some(vec![last]),
    }
}

/// As finely as it was said.
fn converted(word: &str, unit: Unit, system: UnitSystem) -> Option<String> {
    let (bare, value) = number(word)?;
    let places = bare.split_once('.').map_or(0, |(_, digits)| digits.len()) as i32;
    let step = Figure::new(10f64.powi(-places), unit).in_system(system) - Figure::new(0.0, unit).in_system(system);
    let places = (-step.abs().log10()).ceil().clamp(0.0, 6.0) as usize;
    let text = format!("{:.places$}", Figure::new(value, unit).in_system(system));
    let text = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    let opens = &word[..word.len() - bare.len()];
    Some(format!("{opens}{}", if text == "-0" { "0" } else { text }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::parse;
    use proptest::prelude::*;

    fn us(text: &str) -> String {
        in_units(text, UnitSystem::Us).into_owned()
    }

    /// The foot is 0.3048 m, the inch 25.4 mm, the pound 0.45359237 kg (international yard and pound agreement, 1959);
    /// °F = 1.8 °C + 32; 1 lbf ft = 1.3558179 Nm (NIST SP 811, appendix B.8).
    #[test]
    fn values_in_a_sentence() {
        assert_eq!(us("6.2 m of 10 mm² at 45 °C (36.4 kg)."), "20.3 ft of 10 mm² at 113 °F (80.2 lb).");
        assert_eq!(us("7 to 11 Nm, not the 25 Nm of the bolt"), "5.2 to 8.1 lbf ft, not the 18.4 lbf ft of the bolt");
        assert_eq!(us("between -5 and 45 °C"), "between 23 and 113 °F");
        assert_eq!(us("within 0.177 m; 250 mm"), "within 0.581 ft; 9.84 in");
        assert_eq!(us("2 × 578 mm"), "2 × 22.76 in");
    }

    #[test]
    fn what_may_be_no_value_stays() {
        for text in [
            "Small cartridge 10 x 38 mm",
            "Limiter link, bolted, 61 or 81 mm",
            "24, 38, 62 mm",
            "M8 × 40 mm",
            "100 × 50 mm",
            "L = 6.2 m",
            "20 A, 35 mm² and 12 m²",
            "R3 m",
            "±4 °C",
        ] {
            assert_eq!(us(text), text);
            assert_eq!(in_units(text, UnitSystem::Metric), text);
        }
    }

    proptest! {
        /// Read back, what is said is what was said, to half of its last digit.
        #[test]
        fn nothing_is_lost(value in -400.0f64..4000.0, places in 0usize..4) {
            for unit in [Unit::Metre, Unit::Millimetre, Unit::Kilogram, Unit::Celsius, Unit::NewtonMetre] {
                let said = format!("{value:.places$} {}", unit.symbol());
                let back = parse(&us(&said), unit).map_err(|e| TestCaseError::fail(format!("{said}: {e:?}")))?;
                prop_assert!((back - value).abs() <= 1.1 * 10f64.powi(-(places as i32)), "{} became {}", said, us(&said));
            }
        }
    }
}
