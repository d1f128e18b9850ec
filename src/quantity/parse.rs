//! Reading a number with a unit as people type it: `25mm²`, `20 ft`, `1h30`, `40%`, `14 AWG`.

use super::gauge::{awg_area, awg_number};
use super::unit::Unit;

/// Why a typed value could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ParseError {
    /// Nothing was typed.
    Empty,
    /// No number could be found.
    NotANumber,
    /// The number is infinite, NaN or beyond what a float holds.
    NotFinite,
    /// The letters after the number are no unit of this kind.
    UnknownUnit(String),
    /// It can be read in two ways: these.
    Ambiguous(&'static str),
    /// A conductor without any copper.
    NoCopper,
}

impl ParseError {
    /// The sentence shown to the user, without a full stop.
    pub fn explain(&self, unit: Unit) -> String {
        match self {
            ParseError::Empty => "nothing was entered".into(),
            ParseError::NotANumber => format!("this is not a number; write it like {}", unit.example()),
            ParseError::NotFinite => "this number is too large or not finite".into(),
            ParseError::Ambiguous(ways) => format!("this can be read in two ways; write {ways}"),
            ParseError::NoCopper => {
                "a conductor of 0 mm² has no copper; write it like 2.5 mm², or a gauge like 10 AWG, 1/0 AWG".into()
            }
            ParseError::UnknownUnit(u) => {
                // No unit has so many letters; a page of them would only hide what to do.
                let (letters, more) = match u.char_indices().nth(20) {
                    Some((end, _)) => (&u[..end], "…"),
                    None => (u.as_str(), ""),
                };
                format!("`{letters}{more}` is no unit for this value; write it like {}", unit.example())
            }
        }
    }
}

/// Read `text` as a number in `unit`.
///
/// A bare number is taken to be in `unit` already, except for shares, where a
/// bare number under 1 is the share itself (0.4 is 40 %) and one over 1 is
/// percent. Decimal point or comma. Conductor areas also take `AWG` and `B&S`
/// labels, `00` to `0000` alone being such; hours also `1h30`, lengths also
/// `20 ft 4 in` and `6m20`.
pub fn parse(text: &str, unit: Unit) -> Result<f64, ParseError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(ParseError::Empty);
    }
    let lower = text.to_lowercase().replace('µ', "u").replace('−', "-");
    let value = match unit {
        Unit::SquareMillimetre if is_gauge(&lower) => gauge(&lower)?,
        Unit::Hour | Unit::Second if clock(&lower).is_some() => {
            clock(&lower).unwrap_or(0.0) * if unit == Unit::Second { 3600.0 } else { 1.0 }
        }
        Unit::Metre if two_part(&lower).is_some() => two_part(&lower).unwrap_or(0.0),
        _ => plain(&lower, unit)?,
    };
    match value {
        _ if !value.is_finite() => Err(ParseError::NotFinite),
        _ if unit == Unit::SquareMillimetre && value <= 0.0 => Err(ParseError::NoCopper),
        _ => Ok(value),
    }
}

fn plain(text: &str, unit: Unit) -> Result<f64, ParseError> {
    let end = number_end(text);
    let (digits, rest) = text.split_at(end);
    if thousands(digits.trim()) {
        return Err(ParseError::Ambiguous("1000, or 1.0 with a point"));
    }
    let digits = digits.trim().replace(',', ".");
    if matches!(text, "nan" | "inf" | "-inf" | "+inf" | "infinity" | "-infinity") {
        return Err(ParseError::NotFinite);
    }
    let number: f64 = digits.parse().map_err(|_| ParseError::NotANumber)?;
    let rest = rest.trim();
    match unit {
        _ if !rest.is_empty() => {}
        Unit::Share if number == 1.0 => return Err(ParseError::Ambiguous("1 % or 100 %")),
        Unit::Share if number > 1.0 => return Ok(number / 100.0),
        _ => return Ok(number),
    }
    unit.spellings()
        .iter()
        .find(|spelling| spelling.name == rest)
        .map(|spelling| number * spelling.factor + spelling.offset)
        .ok_or_else(|| ParseError::UnknownUnit(rest.to_string()))
}

/// Byte index where the leading number ends.
fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut end = 0;
    while end < bytes.len() {
        let b = bytes[end];
        let exponent = b == b'e'
            && end > 0
            && bytes.get(end + 1).is_some_and(|n| {
                n.is_ascii_digit() || ((*n == b'-' || *n == b'+') && bytes.get(end + 2).is_some_and(u8::is_ascii_digit))
            });
        let sign = (b == b'-' || b == b'+') && (end == 0 || bytes[end - 1] == b'e');
        if b.is_ascii_digit() || b == b'.' || b == b',' || sign || exponent {
            end += 1;
        } else {
            break;
        }
    }
    end
}

/// `1,000`: a thousand to some, one to others.
fn thousands(digits: &str) -> bool {
    let Some((whole, rest)) = digits.split_once(',') else { return false };
    let leading =
        (1..=3).contains(&whole.len()) && !whole.starts_with('0') && whole.bytes().all(|b| b.is_ascii_digit());
    leading && rest.split(',').all(|part| part.len() == 3 && part.bytes().all(|b| b.is_ascii_digit()))
}

/// `20 ft 4 in`, `20'4"` or `6m20` as metres.
fn two_part(text: &str) -> Option<f64> {
    if let Some((metres, centimetres)) = text.split_once('m') {
        let two = centimetres.len() == 2 && centimetres.bytes().all(|b| b.is_ascii_digit());
        let whole = !metres.is_empty() && metres.bytes().all(|b| b.is_ascii_digit());
        return (two && whole).then(|| Some(metres.parse::<f64>().ok()? + centimetres.parse::<f64>().ok()? / 100.0))?;
    }
    let (feet, inches) = text.split_once("ft").or_else(|| text.split_once('\''))?;
    let inches = inches.trim().trim_end_matches("in").trim_end_matches('"').trim();
    let (feet, inches): (f64, f64) = (feet.trim().parse().ok()?, inches.parse().ok()?);
    (feet >= 0.0 && (0.0..12.0).contains(&inches)).then_some(feet * 0.3048 + inches * 0.0254)
}

fn is_gauge(text: &str) -> bool {
    // Several noughts alone are the old way to write 2/0 to 4/0; nobody means no copper by them.
    let noughts = text.len() > 1 && text.bytes().all(|b| b == b'0');
    text.contains("awg") || text.contains("b&s") || text.contains("/0") || noughts
}

fn gauge(text: &str) -> Result<f64, ParseError> {
    let label = text.replace("awg", "").replace("b&s", "").replace("ga", "");
    awg_number(label.trim()).map(|n| awg_area(n).get()).ok_or(ParseError::NotANumber)
}

/// `1h30`, `1 h 30 min`, `1:30` as hours.
fn clock(text: &str) -> Option<f64> {
    let (hours, minutes) = text.split_once('h').or_else(|| text.split_once(':'))?;
    let minutes = minutes.trim().trim_end_matches("min").trim_end_matches('m').trim();
    let whole = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    if !whole(minutes) || !whole(hours.trim()) {
        return None;
    }
    let (hours, minutes): (f64, f64) = (hours.trim().parse().ok()?, minutes.parse().ok()?);
    (minutes < 60.0 && hours >= 0.0).then_some(hours + minutes / 60.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, unit: Unit, expected: f64) {
        let got = parse(text, unit).unwrap_or_else(|e| panic!("{text}: {e:?}"));
        assert!((got - expected).abs() <= 1e-9 * expected.abs().max(1.0), "{text}: {got}, expected {expected}");
    }

    #[test]
    fn units_as_people_write_them() {
        check("25mm²", Unit::SquareMillimetre, 25.0);
        check("25 mm2", Unit::SquareMillimetre, 25.0);
        check("6.2m", Unit::Metre, 6.2);
        check("20 ft", Unit::Metre, 6.096);
        check("45W", Unit::Watt, 45.0);
        check("3.5A", Unit::Amp, 3.5);
        check("3,5 A", Unit::Amp, 3.5);
        check("1h30", Unit::Hour, 1.5);
        check("1:30", Unit::Hour, 1.5);
        check("1 h 30 min", Unit::Hour, 1.5);
        check("90 min", Unit::Hour, 1.5);
        check("40%", Unit::Share, 0.4);
        check("0.4", Unit::Share, 0.4);
        check("40", Unit::Share, 0.4);
        check("1 %", Unit::Share, 0.01);
        check("20ft 4in", Unit::Metre, 20.0 * 0.3048 + 4.0 * 0.0254);
        check("20'4\"", Unit::Metre, 20.0 * 0.3048 + 4.0 * 0.0254);
        check("20'", Unit::Metre, 6.096);
        check("6m20", Unit::Metre, 6.2);
        check("30m", Unit::Hour, 0.5);
        check("0,125", Unit::Metre, 0.125);
        check("1000", Unit::Watt, 1000.0);
        check("500 ms", Unit::Second, 0.5);
        check("23 °F", Unit::Celsius, -5.0);
        check("-5", Unit::Celsius, -5.0);
        check("1.2 kW", Unit::Watt, 1200.0);
        check("1e3", Unit::Watt, 1000.0);
        check("1.5 mΩ", Unit::Milliohm, 1.5);
        // ASTM B258: 14 AWG is 2.0809 mm², 4/0 is 107.2193 mm² (wire tables).
        assert!((parse("14 AWG", Unit::SquareMillimetre).unwrap() - 2.0809).abs() < 1e-4);
        assert!((parse("4/0 awg", Unit::SquareMillimetre).unwrap() - 107.2193).abs() < 1e-3);
        // 0, 00, 000 and 0000 are 1/0 to 4/0: 53.475, 67.431, 85.029, 107.219 mm² (wire tables).
        for (text, area) in [
            ("0 AWG", 53.475),
            ("00 AWG", 67.431),
            ("00awg", 67.431),
            ("000 AWG", 85.029),
            ("0000 AWG", 107.219),
            ("00", 67.431),
            ("000", 85.029),
            ("0000", 107.219),
        ] {
            let got = parse(text, Unit::SquareMillimetre).unwrap();
            assert!((got - area).abs() < 1e-3, "{text}: {got}");
        }
        assert!((parse("8 B&S", Unit::SquareMillimetre).unwrap() - 8.3656).abs() < 1e-4);
    }

    #[test]
    fn bad_input_says_why() {
        assert_eq!(parse("", Unit::Amp), Err(ParseError::Empty));
        assert_eq!(parse("abc", Unit::Amp), Err(ParseError::NotANumber));
        for text in ["0", "0 mm2", "0,0", "-4 mm²"] {
            assert_eq!(parse(text, Unit::SquareMillimetre), Err(ParseError::NoCopper), "{text}");
        }
        assert_eq!(parse("5 V", Unit::Amp), Err(ParseError::UnknownUnit("v".into())));
        assert_eq!(parse("1.5 h0", Unit::Hour), Err(ParseError::UnknownUnit("h0".into())));
        for (text, unit) in [("1", Unit::Share), ("1,000", Unit::Watt), ("12,500 W", Unit::Watt)] {
            assert!(matches!(parse(text, unit), Err(ParseError::Ambiguous(_))), "{text}");
        }
        for text in ["nan", "inf", "1e999", "-inf"] {
            assert_eq!(parse(text, Unit::Amp), Err(ParseError::NotFinite), "{text}");
        }
    }
}
