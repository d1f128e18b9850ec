//! How is a number written in JSON?

use serde_json::Value;

/// Significant digits written.
const DIGITS: usize = 6;

/// To six significant digits; JSON has no NaN and no infinity.
pub fn rounded(value: f64) -> Value {
    let short: f64 = format!("{value:.*e}", DIGITS - 1).parse().unwrap_or(f64::NAN);
    if short == 0.0 {
        return Value::from(0);
    }
    if short.fract() == 0.0 && short.abs() < 1e15 {
        return Value::from(short as i64);
    }
    serde_json::Number::from_f64(short).map_or(Value::Null, Value::Number)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_finite_and_never_minus_zero() {
        let text = |v: f64| rounded(v).to_string();
        assert_eq!(text(12.1 + 0.2), "12.3");
        assert_eq!(text(0.000_123_456_78), "0.000123457");
        assert_eq!(text(1234567.0), "1234570");
        assert_eq!(text(-0.0), "0");
        assert_eq!(text(f64::NAN), "null");
        assert_eq!(text(f64::INFINITY), "null");
    }
}
