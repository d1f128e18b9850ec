//! What is used on this day?

use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::times::Calendar;
use crate::plan::Months;

/// Half of the year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Season {
    Cold,
    Warm,
}

/// One of the days.
pub(crate) struct OfDay {
    /// Which of the fortnight, 0 for the Monday of week A; it may go on counting.
    pub number: usize,
    /// Day of the year, 1 to 365.
    pub of_year: u32,
    /// Minutes with the engine running.
    pub drives: Minutes,
    /// Which half of the year's loads there are; those of its month when `None`.
    pub season: Option<Season>,
    /// South of the equator.
    pub south: bool,
}

impl OfDay {
    /// The minutes in which something is used that may be used in those `allowed`.
    pub fn used(&self, calendar: &Calendar, allowed: Minutes, only_driving: bool) -> Minutes {
        let season = match self.season {
            None => calendar.months.contains(Months::of_day(self.of_year)),
            Some(season) => calendar.in_half(season == Season::Cold, self.south),
        };
        match season {
            true if only_driving => allowed.and(calendar.times.on(self.number)).and(self.drives),
            true => allowed.and(calendar.times.on(self.number)),
            false => Minutes::NONE,
        }
    }
}
