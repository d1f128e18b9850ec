//! When was a row written?
//!
//! Seconds by the clock as it stands in the file, without time zone or summer time: a zone behind the time
//! is passed over, and an hour that the clock is set back shows as a reset.

use crate::log::cell::number;

/// How the clock is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Clock {
    /// A date with the time of day.
    Date(Order),
    /// The time of day alone.
    OfDay,
    /// A number of units of so many seconds since the logger was started.
    Elapsed(f64),
    /// A number of units of so many seconds since 1970.
    Epoch(f64),
    /// Days as spreadsheets count them, 25569 on the first of January 1970.
    Sheet,
}

/// What stands first in a date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// 2026-11-27.
    Year,
    /// 27.11.2026.
    Day,
    /// 11/27/2026.
    Month,
}

/// Seconds of a day.
const DAY: f64 = 86_400.0;
/// The years that a date can name, 1 to 9999, in seconds from 1970: a number beyond them is no time of a log.
const YEARS: std::ops::Range<f64> = -62_135_596_800.0..253_402_300_800.0;

impl Clock {
    /// By which a clock is named; the order of a date is told by its days, or said besides.
    pub const NAMED: [(&'static str, Clock); 8] = [
        ("date", Clock::Date(Order::Year)),
        ("time-of-day", Clock::OfDay),
        ("seconds", Clock::Elapsed(1.0)),
        ("minutes", Clock::Elapsed(60.0)),
        ("hours", Clock::Elapsed(3600.0)),
        ("seconds-since-1970", Clock::Epoch(1.0)),
        ("milliseconds-since-1970", Clock::Epoch(0.001)),
        ("spreadsheet-days", Clock::Sheet),
    ];

    /// The word of its kind.
    pub fn word(self) -> &'static str {
        let like = |other: Clock| match (self, other) {
            (Clock::Date(_), Clock::Date(_)) => true,
            (one, other) => one == other,
        };
        Clock::NAMED.into_iter().find(|(_, clock)| like(*clock)).map_or("seconds", |(word, _)| word)
    }

    /// Those of this kind that read the cells; of dates the likeliest order first.
    pub fn of_kind(self, cells: &[String], comma: bool) -> Vec<Clock> {
        let read = |clock: &Clock| cells.iter().filter(|c| clock.read(c, comma).is_some()).count() > 1;
        match self {
            Clock::Date(_) => {
                let dates = Clock::guess(cells, "", comma).into_iter();
                dates.filter(|clock| matches!(clock, Clock::Date(_))).collect()
            }
            clock => Some(clock).filter(read).into_iter().collect(),
        }
    }

    /// Seconds, since 1970 where it tells the date.
    pub fn read(self, text: &str, comma: bool) -> Option<f64> {
        self.seconds(text, comma).filter(|seconds| YEARS.contains(seconds))
    }

    fn seconds(self, text: &str, comma: bool) -> Option<f64> {
        match self {
            Clock::Date(order) => {
                let parts = Parts::of(text)?;
                let [a, b, c] = [parts.numbers[0], parts.numbers[1], parts.numbers[2]];
                let (year, month, day) = match order {
                    Order::Year => (a, b, c),
                    Order::Day => (c, b, a),
                    Order::Month => (c, a, b),
                };
                let date = days(if year < 100 { year + 2000 } else { year }, month, day)?;
                Some(date as f64 * DAY + parts.of_day(3)?)
            }
            Clock::OfDay => Parts::of(text).filter(|p| (2..=3).contains(&p.count) && text.contains(':'))?.of_day(0),
            Clock::Elapsed(unit) | Clock::Epoch(unit) => number(text, comma).map(|n| n * unit),
            Clock::Sheet => number(text, comma).map(|n| ((n - 25_569.0) * DAY * 1000.0).round() / 1000.0),
        }
    }

    /// Whether it tells the date.
    pub fn dated(self) -> bool {
        !matches!(self, Clock::OfDay | Clock::Elapsed(_))
    }

    /// In words.
    pub fn words(self) -> String {
        match self {
            Clock::Date(Order::Year) => "year, month, day".into(),
            Clock::Date(Order::Day) => "day, month, year".into(),
            Clock::Date(Order::Month) => "month, day, year".into(),
            Clock::OfDay => "time of day without a date".into(),
            Clock::Elapsed(unit) => format!("a number, {unit} s each, from the start"),
            Clock::Epoch(unit) => format!("a number, {unit} s each, since 1970"),
            Clock::Sheet => "days of a spreadsheet".into(),
        }
    }

    /// The ways to read these cells, the likeliest first: those that read nearly all of them, going forward.
    pub fn guess(cells: &[String], name: &str, comma: bool) -> Vec<Clock> {
        let every = [Clock::Date(Order::Year), Clock::Date(Order::Day), Clock::Date(Order::Month), Clock::OfDay];
        let numbers = || cells.iter().filter_map(|c| number(c, comma)).filter(|n| *n < YEARS.end * 1000.0);
        let largest = numbers().fold(0.0, f64::max);
        let counted = match largest {
            n if n > 1e11 => Clock::Epoch(0.001),
            n if n > 1e8 => Clock::Epoch(1.0),
            n if (20_000.0..80_000.0).contains(&n) && numbers().any(|n| n.fract() != 0.0) => Clock::Sheet,
            _ => Clock::Elapsed(unit(name)),
        };
        let reads = |clock: &Clock| {
            let read: Vec<f64> = cells.iter().filter_map(|c| clock.read(c, comma)).collect();
            let forward = read.windows(2).filter(|w| w[1] >= w[0]).count();
            (read.len() * 10 >= cells.len() * 9 && read.len() > 1).then_some(forward)
        };
        let mut fits: Vec<(usize, Clock)> =
            every.into_iter().chain([counted]).filter_map(|c| Some((reads(&c)?, c))).collect();
        fits.sort_by_key(|(forward, _)| std::cmp::Reverse(*forward));
        fits.into_iter().map(|(_, clock)| clock).collect()
    }
}

/// The unit that the head of a column names, in seconds.
fn unit(name: &str) -> f64 {
    let words: Vec<&str> = name.split(|c: char| !c.is_alphanumeric()).collect();
    let has = |any: &[&str]| words.iter().any(|w| any.contains(w));
    if has(&["ms", "millis", "milliseconds"]) {
        0.001
    } else if has(&["min", "minutes"]) {
        60.0
    } else if has(&["h", "hours"]) {
        3600.0
    } else {
        1.0
    }
}

/// The numbers of a date or a time.
struct Parts {
    numbers: [i64; 6],
    count: usize,
    fraction: f64,
    /// Half a day to add for an afternoon; hours run from 12 to 11 where it is said.
    afternoon: Option<bool>,
}

impl Parts {
    fn of(text: &str) -> Option<Parts> {
        let mut parts = Parts { numbers: [0; 6], count: 0, fraction: 0.0, afternoon: None };
        let bytes = text.trim().as_bytes();
        let mut at = 0;
        while at < bytes.len() {
            let start = at;
            while at < bytes.len() && bytes[at].is_ascii_digit() {
                at += 1;
            }
            if at == start || at - start > 4 || parts.count == 6 {
                return None;
            }
            let digits = &bytes[start..at];
            parts.numbers[parts.count] = digits.iter().fold(0, |n, d| n * 10 + i64::from(d - b'0'));
            parts.count += 1;
            let Some(next) = bytes.get(at) else { break };
            let timed = bytes[..start].contains(&b':');
            match next {
                b'.' | b',' if timed => {
                    let rest = &bytes[at + 1..];
                    let digits = rest.iter().take_while(|b| b.is_ascii_digit());
                    let (sum, scale) = digits.fold((0.0, 1.0), |(n, s), d| (n * 10.0 + f64::from(d - b'0'), s * 10.0));
                    parts.fraction = sum / scale;
                    return parts.ended(&text.trim()[at + 1..]);
                }
                b'+' | b'Z' | b'z' | b'a' | b'A' | b'p' | b'P' => return parts.ended(&text.trim()[at..]),
                b'-' if timed => return Some(parts),
                b' ' if timed => return parts.ended(&text.trim()[at..]),
                b'-' | b'/' | b'.' | b':' | b' ' | b'T' | b'_' => at += 1,
                _ => return None,
            }
            while bytes.get(at) == Some(&b' ') {
                at += 1;
            }
        }
        Some(parts)
    }

    /// With what stands behind the time: am, pm, or a zone.
    fn ended(mut self, tail: &str) -> Option<Parts> {
        let tail = tail.trim_start_matches(|c: char| c.is_ascii_digit()).trim().to_ascii_lowercase();
        self.afternoon = match tail.as_bytes().first() {
            Some(b'a') => Some(false),
            Some(b'p') => Some(true),
            None | Some(b'+' | b'-' | b'z' | b'u') => None,
            Some(_) => return None,
        };
        Some(self)
    }

    /// Seconds of the day; the hour is the number `from`.
    fn of_day(&self, from: usize) -> Option<f64> {
        if self.count < from || self.count == from + 1 {
            return None;
        }
        let part = |n: usize| self.numbers.get(from + n).copied().unwrap_or(0);
        let (hour, minute, second) = (part(0), part(1), part(2));
        let hour = match self.afternoon {
            Some(later) => hour % 12 + if later { 12 } else { 0 },
            None => hour,
        };
        let sound = (0..=24).contains(&hour) && (0..60).contains(&minute) && (0..=60).contains(&second);
        sound.then(|| (hour * 3600 + minute * 60 + second) as f64 + self.fraction)
    }
}

/// Days since the first of January 1970 of a date that there is. From the usual count of days from the first of
/// March, in which a leap day comes last (from memory).
pub fn days(year: i64, month: i64, day: i64) -> Option<i64> {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let longest = match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        _ => return None,
    };
    if !(1..=longest).contains(&day) || !(1900..2200).contains(&year) {
        return None;
    }
    let (year, month) = if month > 2 { (year, month - 3) } else { (year - 1, month + 9) };
    Some(365 * year + year / 4 - year / 100 + year / 400 + (153 * month + 2) / 5 + day - 719_469)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Four digits write the years 0001 to 9999 (ISO 8601-1:2019, 5.2.2, from memory).
    #[test]
    fn what_no_date_can_name_is_no_time() {
        for (clock, text) in [
            (Clock::Epoch(0.001), "1e308"),
            (Clock::Epoch(1.0), "253402300800"),
            (Clock::Epoch(1.0), "-1e300"),
            (Clock::Elapsed(3600.0), "1e9"),
            (Clock::Sheet, "1e12"),
        ] {
            assert_eq!(clock.read(text, false), None, "{clock:?} {text}");
        }
        // The last second of the year 9999, by the datetime module of Python 3.11.
        assert_eq!(Clock::Epoch(1.0).read("253402300799", false), Some(253_402_300_799.0));
        // One such number does not make milliseconds of the rest.
        let cells = ["0", "10", "20", "30", "40", "50", "60", "70", "80", "90", "1e308"].map(String::from);
        assert_eq!(Clock::guess(&cells, "s", false), [Clock::Elapsed(1.0)]);
    }
}
