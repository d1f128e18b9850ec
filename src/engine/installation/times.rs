//! On which minutes of which day does something happen?
//!
//! A span over midnight belongs to the day on which it begins: what is plugged in from 20:00 to 06:00 on
//! Wednesdays is plugged in until Thursday morning, and not before dawn on Wednesday.

use crate::engine::installation::minutes::Minutes;
use crate::plan::{FORTNIGHT, Months, Weekdays, Windows};

/// The minutes of each day of a fortnight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Times {
    /// Minutes up to midnight of a day on which it begins.
    begun: Minutes,
    /// Minutes after midnight of the day after that.
    carried: Minutes,
    days: Weekdays,
}

impl Default for Times {
    fn default() -> Self {
        Times::daily(Minutes::ALL)
    }
}

impl Times {
    /// Spans on some days.
    pub fn new(windows: &Windows, days: Weekdays) -> Self {
        let over = |w: &&crate::plan::Window| w.from >= w.to;
        let spans = |ends: &dyn Fn(&crate::plan::Window) -> Minutes| {
            windows.0.iter().map(ends).fold(Minutes::NONE, Minutes::or)
        };
        let begun = spans(&|w| Minutes::span(w.from, if over(&w) { 24 * 60 } else { w.to }));
        let carried = spans(&|w| if over(&w) { Minutes::span(0, w.to) } else { Minutes::NONE });
        Times { begun, carried, days }
    }

    /// The same minutes on some days, none over midnight.
    pub fn of(minutes: Minutes, days: Weekdays) -> Self {
        Times { begun: minutes, carried: Minutes::NONE, days }
    }

    /// The same minutes every day.
    pub fn daily(minutes: Minutes) -> Self {
        Times::of(minutes, Weekdays::all())
    }

    /// The minutes of day `n`, 0 for the Monday of week A.
    pub fn on(&self, n: usize) -> Minutes {
        let begun = if self.days.contains(n) { self.begun } else { Minutes::NONE };
        let carried = if self.days.contains(n + FORTNIGHT - 1) { self.carried } else { Minutes::NONE };
        begun.or(carried)
    }

    /// The days on which it begins.
    pub fn days(&self) -> Weekdays {
        self.days
    }

    /// The minutes of any day that differ from the one before them.
    pub fn edges(&self) -> Minutes {
        self.begun.edges().or(self.carried.edges())
    }
}

/// When a load is used, by days and months.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Calendar {
    /// By the days.
    pub times: Times,
    /// By the months.
    pub months: Months,
}

impl Calendar {
    /// Whether one day is like the other, all year.
    pub fn is_daily(&self) -> bool {
        self.times.days.is_daily() && self.months.is_all()
    }

    /// Whether it is used in the colder half of the year, or the warmer; `south` of the equator they are exchanged.
    pub fn in_half(&self, cold: bool, south: bool) -> bool {
        let winter = |month: usize| !(3..9).contains(&month);
        (0..12).any(|month| self.months.contains(month) && winter(month) == (cold != south))
    }

    /// On how many of `length` days in a row it begins at most.
    pub fn most_of(&self, length: usize) -> usize {
        let begins = |start: usize| (start..start + length).filter(|day| self.times.days.contains(*day)).count();
        (0..FORTNIGHT).map(begins).max().unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn times(windows: &str, days: &str) -> Times {
        Times::new(&Windows::parse(windows).unwrap(), Weekdays::parse(days).unwrap())
    }

    #[test]
    fn a_span_over_midnight_belongs_to_the_evening_that_begins_it() {
        let mains = times("20:00-06:00, 12:00-13:00", "wed");
        let at = |day: usize, hour: u16| mains.on(day).has(hour * 60);
        assert!(at(2, 21) && at(2, 12) && at(3, 3));
        assert!(!at(2, 3) && !at(3, 21) && !at(3, 12));
        // The Sunday of week B goes on into the Monday of week A.
        let sunday = times("22:00-02:00", "B: sun");
        assert!(sunday.on(13).has(23 * 60) && sunday.on(0).has(60) && !sunday.on(7).has(60));
    }

    #[test]
    fn calendars_tell_seasons_and_stretches() {
        let of = |days: &str, months: &str| Calendar {
            times: times("08:00-09:00", days),
            months: Months::parse(months).unwrap(),
        };
        assert!(of("sat", "nov-feb").in_half(true, false) && !of("sat", "nov-feb").in_half(false, false));
        assert!(of("sat", "jul").in_half(true, true) && of("sat", "apr").in_half(false, false));
        assert_eq!([1, 3, 7, 14].map(|length| of("sat", "jul").most_of(length)), [1, 1, 1, 2]);
        assert_eq!(of("fri, sat, sun", "jul").most_of(2), 2);
    }
}
