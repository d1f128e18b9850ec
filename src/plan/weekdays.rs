//! Days of the week; of two weeks in turn, A and B, where they differ.

use super::text::shorten;
use std::fmt;

/// A set of the days of a fortnight, Monday of week A first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weekdays(u16);

/// Days until a set repeats at the latest.
pub const FORTNIGHT: usize = 14;

const WEEK: u16 = 0b111_1111;
/// Every second day of the fortnight, its first Monday among them.
const IN_TURN: u16 = 0b01_0101_0101_0101;
const NAMES: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

impl Weekdays {
    /// Every day.
    pub const fn all() -> Self {
        Weekdays(WEEK | WEEK << 7)
    }

    /// No day.
    pub const fn none() -> Self {
        Weekdays(0)
    }

    /// Whether day `n` is in it, 0 for the Monday of week A; taken modulo 14.
    pub fn contains(self, n: usize) -> bool {
        self.0 >> (n % FORTNIGHT) & 1 == 1
    }

    /// Whether it is every day.
    pub fn is_daily(self) -> bool {
        self == Weekdays::all()
    }

    /// Whether there is no day in it.
    pub fn is_none(self) -> bool {
        self.0 == 0
    }

    /// How many days a week, on average over both.
    pub fn a_week(self) -> f64 {
        f64::from(self.0.count_ones()) / 2.0
    }

    /// Whether a day is in both sets.
    pub fn meets(self, other: Weekdays) -> bool {
        self.0 & other.0 != 0
    }

    /// Whether both weeks have the same days.
    pub fn weeks_alike(self) -> bool {
        self.0 & WEEK == self.0 >> 7
    }

    /// `mon, wed`, `mon wed`, `mon-fri`, `every day`, `every other day`, `A: sat; B: wed, sat` or `none`; the problem
    /// in words.
    pub fn parse(text: &str) -> Result<Weekdays, String> {
        let text = text.trim().to_lowercase();
        match text.as_str() {
            "every day" | "daily" | "all" => return Ok(Weekdays::all()),
            "every other day" | "every second day" => return Ok(Weekdays(IN_TURN)),
            _ => {}
        }
        let text = text.replace('–', "-").replace(" -", "-").replace("- ", "-").replace(':', " ");
        let apart = |c: char| c == ',' || c == ';' || c.is_whitespace();
        let parts = text.split(apart).filter(|p| !matches!(*p, "" | "and" | "week"));
        let mut days = 0;
        let mut weeks = [true, true];
        let mut named = None;
        for part in parts {
            match part {
                "a" | "b" => {
                    weeks = [part == "a", part == "b"];
                    named = Some(part);
                    continue;
                }
                "none" => {}
                _ => {
                    let these = days_of(part)?;
                    days |= if weeks[0] { these } else { 0 } | if weeks[1] { these << 7 } else { 0 };
                }
            }
            named = None;
        }
        match named {
            Some(week) => Err(format!("week {} wants its days, such as A: sat; B: wed, sat", week.to_uppercase())),
            None => Ok(Weekdays(days)),
        }
    }

    fn of_week(self, second: bool) -> Vec<&'static str> {
        (0..7).filter(|d| self.contains(d + if second { 7 } else { 0 })).map(|d| NAMES[d]).collect()
    }
}

/// The days of `mon` or `fri-mon`.
fn days_of(part: &str) -> Result<u16, String> {
    let (a, b) = part.split_once('-').unwrap_or((part, part));
    let (a, b) = (day(a)?, day(b)?);
    let last = if b < a { b + 7 } else { b };
    Ok((a..=last).fold(0, |days, d| days | 1 << (d % 7)))
}

fn day(text: &str) -> Result<usize, String> {
    const WHOLE: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
    let found = WHOLE.iter().position(|whole| text.len() >= 3 && whole.starts_with(text));
    found.ok_or_else(|| {
        let choices =
            "write mon, tue, wed, thu, fri, sat or sun, every other day, or A: sat; B: wed where weeks differ";
        format!("`{}` is no weekday; {choices}", shorten(text))
    })
}

impl fmt::Display for Weekdays {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (first, second) = (self.of_week(false).join(", "), self.of_week(true).join(", "));
        match (first.as_str(), second.as_str()) {
            _ if self.is_daily() => f.write_str("every day"),
            _ if self.0 == IN_TURN => f.write_str("every other day"),
            ("", "") => f.write_str("none"),
            _ if self.weeks_alike() => f.write_str(&first),
            (_, "") => write!(f, "A: {first}"),
            ("", _) => write!(f, "B: {second}"),
            _ => write!(f, "A: {first}; B: {second}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weekdays_are_read_whole_or_refused() {
        for (text, days) in [
            ("mon wed fri", "mon, wed, fri"),
            ("Monday, Thurs and Sun", "mon, thu, sun"),
            ("fri - sun", "fri, sat, sun"),
            ("sat–mon", "mon, sat, sun"),
            ("none", "none"),
            ("every other day", "every other day"),
            ("Week A: mon-wed, week B: sat", "A: mon, tue, wed; B: sat"),
            ("a sat", "A: sat"),
            ("A: none; B: sun", "B: sun"),
            ("mon, B: tue", "A: mon; B: mon, tue"),
            ("A: mon, wed, fri, sun; B: tue, thu, sat", "every other day"),
        ] {
            let read = Weekdays::parse(text);
            assert_eq!(read.clone().map(|d| d.to_string()).as_deref(), Ok(days), "{text}");
            assert_eq!(read, Weekdays::parse(days), "{text}");
        }
        for text in ["mon wed xyz", "monster", "mo", "mon-xyz", "every other week", "A", "A: mon, B:", "C: mon"] {
            assert!(Weekdays::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn weekdays_read_write_and_count() {
        assert_eq!(Weekdays::parse("fri-mon").unwrap().to_string(), "mon, fri, sat, sun");
        assert_eq!(Weekdays::parse("every day").unwrap(), Weekdays::all());
        assert!(Weekdays::parse("none").unwrap().is_none());
        assert!(Weekdays::parse("moonday").is_err());
        let in_turn = Weekdays::parse("every other day").unwrap();
        assert_eq!(in_turn.a_week(), 3.5);
        assert!((0..28).all(|day| in_turn.contains(day) == (day % 2 == 0)));
        let second = Weekdays::parse("B: wed").unwrap();
        assert!(second.contains(9) && !second.contains(2) && !second.weeks_alike());
    }
}
