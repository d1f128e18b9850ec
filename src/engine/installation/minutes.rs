//! A set of minutes of the day, for asking what overlaps what.

use crate::plan::{Vehicle, When, Windows};

const DAY: u16 = 24 * 60;
const WORDS: usize = 23;

/// Some of the 1,440 minutes of a day, one bit each.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Minutes([u64; WORDS]);

impl Minutes {
    /// No minute.
    pub const NONE: Minutes = Minutes([0; WORDS]);
    /// Every minute.
    pub const ALL: Minutes = Minutes::span(0, DAY);
    /// 06:00 to 18:00.
    pub const DAY: Minutes = Minutes::span(6 * 60, 18 * 60);
    /// 18:00 to 06:00.
    pub const NIGHT: Minutes = Minutes::span(18 * 60, DAY).or(Minutes::span(0, 6 * 60));

    /// The minutes from `from` up to and without `to`.
    pub const fn span(from: u16, to: u16) -> Minutes {
        let to = if to > DAY { DAY } else { to };
        let mut words = [0u64; WORDS];
        let mut minute = from;
        while minute < to {
            words[(minute / 64) as usize] |= 1 << (minute % 64);
            minute += 1;
        }
        Minutes(words)
    }

    /// The minutes of the given spans; a span may run past midnight.
    pub fn of(windows: &Windows) -> Minutes {
        windows.0.iter().fold(Minutes::NONE, |all, w| {
            let these = if w.from < w.to {
                Minutes::span(w.from, w.to)
            } else {
                Minutes::span(w.from, DAY).or(Minutes::span(0, w.to))
            };
            all.or(these)
        })
    }

    /// When a load may run, by its times and the kind of time it is bound to.
    pub fn allowed(windows: &Windows, when: When, driving: Minutes) -> Minutes {
        let times = if windows.is_empty() { Minutes::ALL } else { Minutes::of(windows) };
        times.and(match when {
            When::Always => Minutes::ALL,
            When::Driving => driving,
            When::Parked => driving.rest(),
            When::Day => Minutes::DAY,
            When::Night => Minutes::NIGHT,
        })
    }

    /// In both.
    pub fn and(self, other: Minutes) -> Minutes {
        Minutes(std::array::from_fn(|i| self.0[i] & other.0[i]))
    }

    /// In either.
    pub const fn or(self, other: Minutes) -> Minutes {
        let mut words = self.0;
        let mut i = 0;
        while i < WORDS {
            words[i] |= other.0[i];
            i += 1;
        }
        Minutes(words)
    }

    /// The rest of the day.
    pub fn rest(self) -> Minutes {
        Minutes(std::array::from_fn(|i| !self.0[i])).and(Minutes::ALL)
    }

    /// The minutes that differ from the one before them, within the day.
    pub fn edges(self) -> Minutes {
        let before = |i: usize| if i == 0 { self.0[0] & 1 } else { self.0[i - 1] >> 63 };
        Minutes(std::array::from_fn(|i| self.0[i] ^ (self.0[i] << 1 | before(i)))).and(Minutes::ALL)
    }

    /// How many.
    pub fn count(&self) -> u32 {
        self.0.iter().map(|w| w.count_ones()).sum()
    }

    /// Whether a minute of the day is among them.
    pub fn has(&self, minute: u16) -> bool {
        self.0.get(usize::from(minute / 64)).is_some_and(|w| w >> (minute % 64) & 1 == 1)
    }

    /// The first of them after a minute of the day.
    pub fn after(&self, minute: u16) -> Option<u16> {
        let (word, bit) = (usize::from(minute / 64), minute % 64);
        let later = |(i, bits): (usize, &u64)| {
            let bits = if i == word { bits & !(u64::MAX >> (63 - bit)) } else { *bits };
            (bits != 0).then(|| 64 * i as u16 + bits.trailing_zeros() as u16)
        };
        self.0.iter().enumerate().skip(word).find_map(later)
    }

    /// The share of these minutes that is also in `other`; zero when there are none.
    pub fn share_in(&self, other: &Minutes) -> f64 {
        let all = self.count();
        let both: u32 = self.0.iter().zip(&other.0).map(|(a, b)| (a & b).count_ones()).sum();
        if all == 0 { 0.0 } else { f64::from(both) / f64::from(all) }
    }
}

/// Minutes with the engine running; none when no day of the week is a driving day.
pub fn driving_minutes(vehicle: &Vehicle) -> Minutes {
    if vehicle.driving_days.is_none() { Minutes::NONE } else { Minutes::of(&vehicle.driving) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sets_agree_with_the_windows_they_come_from() {
        let windows = Windows::parse("07:00-08:30, 22:00-06:00, 08:00-09:00").unwrap();
        let set = Minutes::of(&windows);
        assert_eq!(set.count(), u32::from(windows.minutes()));
        for minute in 0..DAY {
            assert_eq!(set.has(minute), windows.contains(minute), "minute {minute}");
        }
        assert_eq!(set.or(set.rest()), Minutes::ALL);
        assert_eq!(set.and(set.rest()), Minutes::NONE);
        assert_eq!(Minutes::DAY.share_in(&set), 2.0 / 12.0);
        let edges: Vec<u16> = (0..DAY).filter(|&m| set.edges().has(m)).collect();
        assert_eq!(edges, [6 * 60, 7 * 60, 9 * 60, 22 * 60]);
        for minute in 0..DAY {
            let after = edges.iter().copied().find(|edge| *edge > minute);
            assert_eq!(set.edges().after(minute), after, "minute {minute}");
        }
        assert_eq!(Minutes::ALL.edges(), Minutes::NONE);
    }
}
