//! How long does nothing charge, in the plan's own fortnight?

use crate::engine::installation::minutes::Minutes;
use crate::engine::installation::times::Times;
use crate::plan::FORTNIGHT;
use crate::quantity::Days;

const DAY: usize = 24 * 60;
const ROUND: usize = FORTNIGHT * DAY;

/// The longest stretch of the fortnight, repeated, without a chance to charge.
/// At least one day, since a drive may fall out; one day too where there is no chance at all, which other findings
/// tell.
pub fn longest_gap(chances: &[Times]) -> Days {
    let of_day = |day: usize| chances.iter().map(|times| times.on(day)).fold(Minutes::NONE, Minutes::or);
    let days: Vec<Minutes> = (0..FORTNIGHT).map(of_day).collect();
    let charges = |minute: usize| days.get(minute / DAY).is_some_and(|day| day.has((minute % DAY) as u16));
    let mut longest = 0;
    let mut gap = 0;
    // Twice round, so that a gap over the end of the fortnight is whole.
    let twice = (0..2 * ROUND).map(|minute| charges(minute % ROUND));
    for charging in twice {
        gap = if charging { 0 } else { gap + 1 };
        longest = longest.max(gap);
    }
    let days = if longest >= ROUND { 1.0 } else { longest as f64 / DAY as f64 };
    Days::new(days.max(1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Weekdays, Windows};

    fn gap(times: &str, days: &str) -> f64 {
        longest_gap(&[Times::new(&Windows::parse(times).unwrap(), Weekdays::parse(days).unwrap())]).get()
    }

    /// Counted by hand on a calendar.
    #[test]
    fn the_longest_stretch_between_two_chances_counts() {
        assert_eq!(gap("07:00-08:00", "every day"), 1.0);
        // From Friday 18:00 to Monday 06:00 are 60 hours.
        assert_eq!(gap("06:00-18:00", "mon-fri"), 2.5);
        // From Saturday 10:00 to the next Saturday 09:00 are 167 hours.
        assert!((gap("09:00-10:00", "sat") - 167.0 / 24.0).abs() < 1e-9);
        // From Monday 10:00 to Wednesday 09:00, week in, week out, are 47 hours.
        assert!((gap("09:00-10:00", "every other day") - 47.0 / 24.0).abs() < 1e-9);
        // From Saturday 10:00 to the Saturday after the next, 09:00, are 335 hours.
        assert!((gap("09:00-10:00", "A: sat") - 335.0 / 24.0).abs() < 1e-9);
        // From Wednesday of week B to Saturday of week A, by the same clock, are 10 days less an hour.
        assert!((gap("09:00-10:00", "A: sat; B: wed") - 239.0 / 24.0).abs() < 1e-9);
        // Plugged in from Wednesday 20:00 until Thursday 06:00: until the next Wednesday evening are 158 hours.
        assert!((gap("20:00-06:00", "wed") - 158.0 / 24.0).abs() < 1e-9);
        assert_eq!(longest_gap(&[]).get(), 1.0);
        assert_eq!(gap("07:00-08:00", "none"), 1.0);
    }
}
