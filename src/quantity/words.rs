//! Which values in running text are lengths, masses, temperatures or torques, and how are they said in other units?
//!
//! Text is made in metric units, once; who thinks in feet reads it through this. A value is a
//! number with its unit behind it. What may be no value, such as the second number of a trade size
//! (`10 x 38 mm`), formulas, and what the user named so (`lamp 2 m`) stay as they are: metric is never wrong. What a
//! sentence calls a limit is rounded to its safe side.

use super::show::{Figure, UnitSystem};
use super::unit::Unit;
use std::borrow::Cow;
use std::sync::Arc;

/// Words of the user that read like a value and are none: names of loads, runs and points.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Names(Arc<[String]>);

impl Names {
    /// Those of these words that could be taken for a value; the longest first.
    pub fn of<'a>(words: impl IntoIterator<Item = &'a str>) -> Names {
        let like_a_value = |word: &&str| matches!(in_units(word, UnitSystem::Us), Cow::Owned(_));
        let mut all: Vec<String> = words.into_iter().filter(like_a_value).map(str::to_string).collect();
        all.sort_by_key(|name| std::cmp::Reverse(name.len()));
        all.dedup();
        Names(all.into())
    }

    /// Where the first of them stands as a whole.
    fn first_in(&self, text: &str) -> Option<(usize, usize)> {
        let word = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
        let whole = |at: usize, name: &str| {
            !word(text[..at].chars().next_back()) && !word(text[at + name.len()..].chars().next())
        };
        let found = self.0.iter().filter_map(|name| {
            let at = text.match_indices(name.as_str()).map(|(at, _)| at).find(|at| whole(*at, name))?;
            Some((at, at + name.len()))
        });
        found.min_by_key(|(begin, end)| (*begin, std::cmp::Reverse(*end)))
    }
}

/// The text with its values in a system of units, but for these names.
pub fn in_units_but<'a>(text: &'a str, system: UnitSystem, names: &Names) -> Cow<'a, str> {
    if !is_told(text, system) {
        return Cow::Borrowed(text);
    }
    let Some((begin, end)) = names.first_in(text) else { return in_units(text, system) };
    let (before, behind) = (in_units(&text[..begin], system), in_units_but(&text[end..], system, names));
    Cow::Owned(format!("{before}{}{behind}", &text[begin..end]))
}

/// Whether anything may have to be said otherwise.
fn is_told(text: &str, system: UnitSystem) -> bool {
    system != UnitSystem::Metric && !text.contains(" = ") && !text.contains(" * ")
}

/// The text with its values in a system of units.
pub fn in_units(text: &str, system: UnitSystem) -> Cow<'_, str> {
    if !is_told(text, system) {
        return Cow::Borrowed(text);
    }
    let mut words: Vec<Cow<'_, str>> = text.split(' ').map(Cow::Borrowed).collect();
    let mut changed = false;
    for n in 1..words.len() {
        let Some((unit, behind)) = unit(&words[n]) else { continue };
        let Some(numbers) = numbers_of(&words[..n]) else { continue };
        // A difference of temperatures is no temperature.
        if unit == Unit::Celsius && words[n - 1].contains('+') {
            continue;
        }
        let limit = Limit::of(&words[..numbers[0]], &words[n + 1..]);
        for at in numbers {
            if let Some(said) = converted(&words[at], unit, system, limit) {
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
    let bare = word.trim_start_matches('(').trim_start_matches('+');
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

/// Whether a value is a limit, by the words around it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Limit {
    None,
    Most,
    Least,
}

impl Limit {
    fn of(before: &[Cow<'_, str>], behind: &[Cow<'_, str>]) -> Limit {
        const MOST: [&str; 8] = [
            "at most",
            "within",
            "no more than",
            "not more than",
            "up to",
            "never above",
            "no longer than",
            "stay below",
        ];
        const LEAST: [&str; 6] =
            ["at least", "no less than", "not less than", "never below", "not below", "no shorter than"];
        const OR_LESS: [&str; 4] = ["or less", "at most", "at the most", "at this size"];
        const OR_MORE: [&str; 5] = ["or more", "or better", "at least", "at the least", "away"];
        let said = |words: &[Cow<'_, str>]| words.join(" ").to_lowercase();
        let (before, behind) = (said(&before[before.len().saturating_sub(3)..]), said(&behind[..behind.len().min(3)]));
        let ends = |all: &[&str]| all.iter().any(|words| before.ends_with(words));
        let goes_on = |all: &[&str]| all.iter().any(|words| behind.starts_with(words));
        if ends(&MOST) || goes_on(&OR_LESS) {
            Limit::Most
        } else if ends(&LEAST) || goes_on(&OR_MORE) {
            Limit::Least
        } else {
            Limit::None
        }
    }

    /// To so many places, never past the limit; what is a hair off a step is that step.
    fn rounded(self, value: f64, places: usize) -> f64 {
        let scale = 10f64.powi(places as i32);
        let hair = 1e-9 * (value * scale).abs().max(1.0);
        match self {
            Limit::None => value,
            Limit::Most => (value * scale + hair).floor() / scale,
            Limit::Least => (value * scale - hair).ceil() / scale,
        }
    }
}

/// As finely as it was said.
fn converted(word: &str, unit: Unit, system: UnitSystem, limit: Limit) -> Option<String> {
    let (bare, value) = number(word)?;
    let places = bare.split_once('.').map_or(0, |(_, digits)| digits.len()) as i32;
    let step = Figure::new(10f64.powi(-places), unit).in_system(system) - Figure::new(0.0, unit).in_system(system);
    let places = (-step.abs().log10()).ceil().clamp(0.0, 6.0) as usize;
    let text = format!("{:.places$}", limit.rounded(Figure::new(value, unit).in_system(system), places));
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
        assert_eq!(us("0.177 m; 250 mm"), "0.581 ft; 9.84 in");
        assert_eq!(us("2 × 578 mm"), "2 × 22.76 in");
        assert_eq!(us("+0.279 kg copper"), "+0.615 lb copper");
    }

    /// 0.177 m are 0.58071 ft, 0.178 m 0.58399 ft; 300 mm are 11.811 in; 25 kg 55.116 lb; the factors as above.
    #[test]
    fn a_limit_keeps_to_its_safe_side() {
        assert_eq!(us("within 0.177 m of the post"), "within 0.58 ft of the post");
        assert_eq!(us("within 0.178 m; 0.178 m"), "within 0.583 ft; 0.584 ft");
        assert_eq!(us("exhaust 300 mm away"), "exhaust 11.82 in away");
        assert_eq!(us("25.0 kg at most, at least 25.0 kg"), "55.1 lb at most, at least 55.2 lb");
        assert_eq!(us("25 kg at most, at least 25 kg"), "55 lb at most, at least 56 lb");
        assert_eq!(us("not below 0 °C, never above 45 °C"), "not below 32 °F, never above 113 °F");
    }

    #[test]
    fn a_name_of_the_user_stays() {
        let names = Names::of(["lamp 2 m", "pump", "2 m"]);
        let us = |text| in_units_but(text, UnitSystem::Us, &names).into_owned();
        assert_eq!(us("lamp 2 m: 2.5 m of it, lamp 2 m"), "lamp 2 m: 8.2 ft of it, lamp 2 m");
        assert_eq!(us("12 m, 2 m"), "39 ft, 2 m");
        assert_eq!(in_units_but("12 m", UnitSystem::Us, &Names::default()), "39 ft");
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
            "+4 °C",
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
