//! American Wire Gauge sizes: their copper, and how they are read.

use super::types::SquareMillimetres;

/// Cross-section of an American Wire Gauge (= Brown & Sharpe) size.
///
/// `n` is the gauge number; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3.
/// d = 0.005 in × 92^((36 - n)/39). Source: ASTM B258 (formula from memory,
/// confirmed against printed wire tables in `tests/reference`).
pub fn awg_area(n: i32) -> SquareMillimetres {
    let diameter_mm = 0.005 * 25.4 * 92f64.powf(f64::from(36 - n) / 39.0);
    SquareMillimetres::new(std::f64::consts::FRAC_PI_4 * diameter_mm * diameter_mm)
}

/// The gauge number in a label such as `10`, `2/0`, `4/0`, `0000`, or `None`.
///
/// Range 4/0 (-3) to 40.
pub fn awg_number(label: &str) -> Option<i32> {
    let label = label.trim();
    if let Some(zeros) = label.strip_suffix("/0") {
        let k: i32 = zeros.trim().parse().ok()?;
        return (1..=4).contains(&k).then_some(1 - k);
    }
    if label.len() > 1 && label.len() <= 4 && label.bytes().all(|b| b == b'0') {
        return i32::try_from(label.len()).ok().map(|k| 1 - k);
    }
    let n: i32 = label.parse().ok()?;
    (0..=40).contains(&n).then_some(n)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gauge_labels_are_read() {
        for (label, n) in [("4/0", -3), ("2/0", -1), ("1/0", 0), ("1", 1), ("10", 10), ("40", 40)] {
            assert_eq!(awg_number(label), Some(n), "{label}");
        }
        assert_eq!(awg_number("0000"), Some(-3));
        assert_eq!(awg_number("0"), Some(0));
        for bad in ["", "5/0", "-1", "x", "41", "1/1"] {
            assert_eq!(awg_number(bad), None, "{bad}");
        }
    }
}
