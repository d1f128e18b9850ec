//! Which days are simulated, and why they may not be.

use crate::quantity::*;

/// Longest simulation: ten years.
pub const LONGEST: u32 = 3650;

/// What to simulate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// How many days, 1 to 3650; the first is the Monday of week A.
    pub days: u32,
    /// Day of the year it begins on, 1 to 365.
    pub first_day: u32,
    /// State of charge at the beginning, 0 to 1.
    pub from: Share,
    /// Share of the capacity that age has left; 1 for a new battery.
    pub health: Share,
}

impl Default for Span {
    /// A fortnight from mid-April (about the year's mean air), new and full.
    fn default() -> Self {
        Span { days: 14, first_day: 105, from: Share::FULL, health: Share::FULL }
    }
}

impl Span {
    /// Whether it is within its ranges.
    pub(crate) fn check(self) -> Result<(), EnduranceError> {
        let inside = |s: Share, least: f64| s.get() >= least && s.get() <= 1.0;
        if self.days == 0 || self.days > LONGEST {
            Err(EnduranceError::Days(self.days))
        } else if self.first_day == 0 || self.first_day > 365 {
            Err(EnduranceError::FirstDay(self.first_day))
        } else if !inside(self.from, 0.0) {
            Err(EnduranceError::Charge(self.from))
        } else if !inside(self.health, 0.1) {
            Err(EnduranceError::Health(self.health))
        } else {
            Ok(())
        }
    }
}

/// Why nothing could be simulated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EnduranceError {
    /// No battery is sized, or its capacity is zero.
    NoBattery,
    /// So many days are not simulated.
    Days(u32),
    /// There is no such day of the year.
    FirstDay(u32),
    /// A battery cannot hold that.
    Charge(Share),
    /// It cannot have aged to that.
    Health(Share),
}

impl EnduranceError {
    /// What is wrong, the accepted range and what to do, without a full stop.
    pub fn explain(&self) -> String {
        match self {
            EnduranceError::NoBattery => {
                "there is no battery to simulate; enter a capacity above 0 Ah, or loads from which it can be sized"
                    .into()
            }
            EnduranceError::Days(n) => {
                format!("{n} days cannot be simulated; accepted are 1 to {LONGEST}, for example 14")
            }
            EnduranceError::FirstDay(n) => {
                format!("{n} is no day of the year; accepted are 1 to 365, for example 105 for mid-April")
            }
            EnduranceError::Charge(s) => {
                format!("a battery cannot begin at {s}; accepted are 0 to 100 %, for example 100 %")
            }
            EnduranceError::Health(s) => {
                format!("a battery cannot have {s} of its capacity left; accepted are 10 to 100 %, for example 80 %")
            }
        }
    }
}
