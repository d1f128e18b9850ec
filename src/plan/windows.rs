//! Times of day.

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

#[cfg(test)]
mod tests {
    use super::*;

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
}
