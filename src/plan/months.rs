//! Months of the year.

use super::text::shorten;
use std::fmt;

/// A set of months, January first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Months(u16);

const NAMES: [&str; 12] = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
/// Days of the year before each month.
const BEFORE: [u32; 12] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];

impl Default for Months {
    fn default() -> Self {
        Months::all()
    }
}

impl Months {
    /// The whole year.
    pub const fn all() -> Self {
        Months(0xfff)
    }

    /// Whether month `n` is in it, 0 for January.
    pub fn contains(self, n: usize) -> bool {
        n < 12 && self.0 >> n & 1 == 1
    }

    /// Whether it is the whole year.
    pub fn is_all(self) -> bool {
        self == Months::all()
    }

    /// Whether there is no month in it.
    pub fn is_none(self) -> bool {
        self.0 == 0
    }

    /// The month of a day of the year (1 to 365), 0 for January.
    pub fn of_day(day: u32) -> usize {
        BEFORE.iter().rposition(|before| day > *before).unwrap_or(0)
    }

    /// `nov-mar`, `jun jul`, `all year` or `none`; the problem in words.
    pub fn parse(text: &str) -> Result<Months, String> {
        let text = text.trim().to_lowercase();
        if matches!(text.as_str(), "all year" | "all" | "every month") {
            return Ok(Months::all());
        }
        let text = text.replace('–', "-").replace(" -", "-").replace("- ", "-");
        let apart = |c: char| c == ',' || c.is_whitespace();
        let mut months = 0;
        for part in text.split(apart).filter(|p| !matches!(*p, "" | "and" | "none")) {
            let (a, b) = part.split_once('-').unwrap_or((part, part));
            let (a, b) = (month(a)?, month(b)?);
            let last = if b < a { b + 12 } else { b };
            months = (a..=last).fold(months, |months, m| months | 1 << (m % 12));
        }
        Ok(Months(months))
    }
}

fn month(text: &str) -> Result<usize, String> {
    const WHOLE: [&str; 12] = [
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    ];
    let found = WHOLE.iter().position(|whole| text.len() >= 3 && whole.starts_with(text));
    found.ok_or_else(|| format!("`{}` is no month; write jan to dec, nov-mar, or all year", shorten(text)))
}

impl fmt::Display for Months {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_all() {
            return f.write_str("all year");
        }
        if self.is_none() {
            return f.write_str("none");
        }
        let words: Vec<_> = (0..12).filter(|&m| self.contains(m)).map(|m| NAMES[m]).collect();
        f.write_str(&words.join(", "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_read_write_and_hold_their_days() {
        for (text, months) in [
            ("nov-mar", "jan, feb, mar, nov, dec"),
            ("June and jul", "jun, jul"),
            ("all year", "all year"),
            ("jan-dec", "all year"),
            ("none", "none"),
        ] {
            let read = Months::parse(text);
            assert_eq!(read.clone().map(|m| m.to_string()).as_deref(), Ok(months), "{text}");
            assert_eq!(read, Months::parse(months), "{text}");
        }
        for text in ["ja", "janus", "13", "winter", "jan-xyz"] {
            assert!(Months::parse(text).is_err(), "{text}");
        }
        // Days of a common year by the calendar.
        for (day, month) in [(1, 0), (31, 0), (32, 1), (59, 1), (60, 2), (200, 6), (365, 11)] {
            assert_eq!(Months::of_day(day), month, "day {day}");
        }
    }
}
