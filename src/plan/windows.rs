//! Times of day and days of the week.

use super::text::shorten;
use std::fmt;

/// A span of the day in minutes after midnight; `to` before `from` runs past midnight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Window {
    /// First minute, 0 to 1439.
    pub from: u16,
    /// First minute after it, 1 to 1440.
    pub to: u16,
}

/// Spans of a day in which something happens; empty means none are given.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Windows(pub Vec<Window>);

const DAY: u16 = 24 * 60;

impl Window {
    /// `07:00-08:30`; the reason in words when it is not one.
    pub fn parse(text: &str) -> Result<Window, String> {
        let (from, to) = text
            .split_once('-')
            .or_else(|| text.split_once('–'))
            .ok_or_else(|| format!("`{}` is no span of time; write it like 07:00-08:30", shorten(text)))?;
        let (from, to) = (minute(from)?, minute(to)?);
        if from == to {
            return Err(format!(
                "`{}` begins and ends at the same time; for the whole day write 00:00-24:00",
                shorten(text)
            ));
        }
        Ok(Window { from: if from == DAY { 0 } else { from }, to: if to == 0 { DAY } else { to } })
    }

    /// Whether a minute of the day lies in it.
    pub fn contains(self, minute: u16) -> bool {
        if self.from < self.to {
            (self.from..self.to).contains(&minute)
        } else {
            minute >= self.from || minute < self.to
        }
    }
}

fn minute(text: &str) -> Result<u16, String> {
    let text = text.trim();
    let bad = || format!("`{}` is no time of day; write it like 07:00, from 00:00 to 24:00", shorten(text));
    let (h, m) = text.split_once(':').unwrap_or((text, "00"));
    let (h, m): (u16, u16) = (h.trim().parse().map_err(|_| bad())?, m.trim().parse().map_err(|_| bad())?);
    if h > 24 || m > 59 || (h == 24 && m > 0) {
        return Err(bad());
    }
    Ok(h * 60 + m)
}

impl fmt::Display for Window {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:02}:{:02}-{:02}:{:02}", self.from / 60, self.from % 60, self.to / 60, self.to % 60)
    }
}

impl Windows {
    /// Spans separated by commas; the first problem in words.
    pub fn parse(text: &str) -> Result<Windows, String> {
        let parts = text.split(',').map(str::trim).filter(|p| !p.is_empty());
        Ok(Windows(parts.map(Window::parse).collect::<Result<_, _>>()?))
    }

    /// Whether a minute of the day lies in any of them.
    pub fn contains(&self, minute: u16) -> bool {
        self.0.iter().any(|w| w.contains(minute))
    }

    /// Minutes of the day covered, counting overlaps once.
    pub fn minutes(&self) -> u16 {
        (0..DAY).filter(|&m| self.contains(m)).count() as u16
    }

    /// Whether no span is given.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl fmt::Display for Windows {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words: Vec<_> = self.0.iter().map(Window::to_string).collect();
        f.write_str(&words.join(", "))
    }
}

/// A set of weekdays, Monday first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Weekdays([bool; 7]);

const NAMES: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

impl Weekdays {
    /// Every day.
    pub fn all() -> Self {
        Weekdays([true; 7])
    }

    /// No day.
    pub fn none() -> Self {
        Weekdays([false; 7])
    }

    /// Whether day `n` is in it, 0 for Monday; taken modulo 7.
    pub fn contains(self, n: usize) -> bool {
        self.0[n % 7]
    }

    /// How many days a week.
    pub fn count(self) -> u32 {
        self.0.iter().filter(|d| **d).count() as u32
    }

    /// `mon, wed`, `mon wed`, `mon-fri`, `every day` or `none`; the problem in words.
    pub fn parse(text: &str) -> Result<Weekdays, String> {
        let mut days = Weekdays::none();
        let text = text.trim().to_lowercase();
        if matches!(text.as_str(), "every day" | "daily" | "all") {
            return Ok(Weekdays::all());
        }
        let text = text.replace('–', "-").replace(" -", "-").replace("- ", "-");
        let apart = |c: char| c == ',' || c.is_whitespace();
        for part in text.split(apart).filter(|p| !matches!(*p, "" | "and" | "none")) {
            let (a, b) = part.split_once('-').unwrap_or((part, part));
            let (a, b) = (day(a)?, day(b)?);
            let mut d = a;
            loop {
                days.0[d] = true;
                if d == b {
                    break;
                }
                d = (d + 1) % 7;
            }
        }
        Ok(days)
    }
}

fn day(text: &str) -> Result<usize, String> {
    const WHOLE: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
    WHOLE
        .iter()
        .position(|whole| text.len() >= 3 && whole.starts_with(text))
        .ok_or_else(|| format!("`{}` is no weekday; write mon, tue, wed, thu, fri, sat or sun", shorten(text)))
}

impl fmt::Display for Weekdays {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.count() == 7 {
            return f.write_str("every day");
        }
        if self.count() == 0 {
            return f.write_str("none");
        }
        let words: Vec<_> = (0..7).filter(|&d| self.0[d]).map(|d| NAMES[d]).collect();
        f.write_str(&words.join(", "))
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
        ] {
            assert_eq!(Weekdays::parse(text).map(|d| d.to_string()).as_deref(), Ok(days), "{text}");
        }
        for text in ["mon wed xyz", "monster", "mo", "mon-xyz", "every other day"] {
            assert!(Weekdays::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn spans_read_write_and_cover() {
        let w = Windows::parse("07:00-08:30, 22-06").unwrap();
        assert_eq!(w.to_string(), "07:00-08:30, 22:00-06:00");
        assert!(w.contains(0) && w.contains(7 * 60) && !w.contains(8 * 60 + 30));
        assert_eq!(w.minutes(), 90 + 480);
        assert_eq!(Windows::parse("00:00-24:00").unwrap().minutes(), 1440);
        for bad in ["7", "25:00-26:00", "07:00-07:00", "a-b", "07:60-08:00"] {
            assert!(Windows::parse(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn weekdays_read_and_write() {
        assert_eq!(Weekdays::parse("fri-mon").unwrap().to_string(), "mon, fri, sat, sun");
        assert_eq!(Weekdays::parse("every day").unwrap(), Weekdays::all());
        assert_eq!(Weekdays::parse("none").unwrap().count(), 0);
        assert!(Weekdays::parse("moonday").is_err());
    }
}
