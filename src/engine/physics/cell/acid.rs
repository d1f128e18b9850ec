//! How full is free acid, by its density?
//!
//! Relative density at a temperature is brought to 26.7 °C (80 °F), then read in two tables; makers fill to different
//! densities, so both bound the answer.

use crate::quantity::*;

/// Change of the reading with the acid's temperature: 0.004 for each 10 °F. Source: handbooks of lead-acid batteries,
/// from memory.
const PER_K: f64 = 0.004 / (10.0 * 5.0 / 9.0);
/// What the tables are for: 80 °F.
const TABLE: Celsius = Celsius::new(80.0 * 5.0 / 9.0 - 160.0 / 9.0);
/// What a hydrometer is read to, either way. Common practice, no source.
const READ_TO: f64 = 0.005;

/// Charge by density, for a filling of 1.265. Source: Battery Council International's table, from memory.
const USUAL: [(f64, f64); 5] = [(0.0, 1.120), (0.25, 1.155), (0.5, 1.190), (0.75, 1.225), (1.0, 1.265)];
/// The same for a filling of 1.277. Source: Trojan Battery Company, user's guide, flooded deep-cycle, from memory.
const STRONG: [(f64, f64); 6] = [(0.0, 1.049), (0.2, 1.098), (0.4, 1.148), (0.6, 1.195), (0.8, 1.238), (1.0, 1.277)];

/// Densities that differ by more than this from cell to cell tell of a weak cell. Common practice, no source.
pub const SPREAD: f64 = 0.03;

/// A reading brought to the tables' temperature.
pub fn corrected(reading: f64, acid: Celsius) -> f64 {
    reading + PER_K * (acid - TABLE).get()
}

/// Least, likely and most charge that a corrected density tells.
pub fn charge(density: f64) -> [Share; 3] {
    let both = |at: f64| [read(&USUAL, at), read(&STRONG, at)];
    let (low, mid, high) = (both(density - READ_TO), both(density), both(density + READ_TO));
    [low[0].min(low[1]), (mid[0] + mid[1]) / 2.0, high[0].max(high[1])].map(Share::new)
}

fn read(table: &[(f64, f64)], density: f64) -> f64 {
    let between = table.windows(2).find(|pair| density < pair[1].1);
    match between {
        Some(pair) => {
            let part = (density - pair[0].1) / (pair[1].1 - pair[0].1);
            (pair[0].0 + part * (pair[1].0 - pair[0].0)).max(0.0)
        }
        None => 1.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Handbooks' rule, from memory: 0.004 for each 10 °F: 1.234 read at 120 °F is 1.250 at 80 °F, and 1.266 read at
    /// 40 °F the same.
    #[test]
    fn readings_are_brought_to_eighty_degrees_fahrenheit() {
        assert!((corrected(1.234, Celsius::new(440.0 / 9.0)) - 1.250).abs() < 1e-6);
        assert!((corrected(1.266, Celsius::new(40.0 / 9.0)) - 1.250).abs() < 1e-6);
    }

    /// Each table's own points lie within the bounds.
    #[test]
    fn both_tables_lie_within_the_bounds() {
        for (share, density) in USUAL.iter().chain(&STRONG) {
            let [least, likely, most] = charge(*density).map(Share::get);
            assert!(least <= *share + 1e-9 && *share <= most + 1e-9, "{density}: {least} to {most}");
            assert!((least..=most).contains(&likely));
        }
    }
}
