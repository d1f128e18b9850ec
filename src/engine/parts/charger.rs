//! Between which currents does the charger lie?

use crate::quantity::Amps;

/// What bounds the charge current.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoundBy {
    /// What a day takes out is to be put back in the time driven.
    DaysDraw,
    /// Less than that is of little use to the battery.
    LeastUseful,
    /// What the battery takes.
    Battery,
    /// What the hot alternator feeds at road speed.
    OnTheRoad,
    /// What it feeds over a drive that idles for a while.
    OverTheDrive,
    /// What it feeds at idle.
    AtIdle,
}

/// A bound on the charge current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bound {
    /// What bounds it.
    pub by: BoundBy,
    /// The current.
    pub amps: Amps,
}

impl Bound {
    /// Short name, also the working's name.
    pub fn name(&self) -> &'static str {
        match self.by {
            BoundBy::DaysDraw => "day's draw",
            BoundBy::LeastUseful => "least useful",
            BoundBy::Battery => "battery",
            BoundBy::OnTheRoad => "alternator on the road",
            BoundBy::OverTheDrive => "alternator over the drive",
            BoundBy::AtIdle => "alternator at idle",
        }
    }
}

impl BoundBy {
    /// What it says of the current, in words.
    pub fn words(self) -> &'static str {
        match self {
            BoundBy::DaysDraw => "at least, to put back the day's draw in the time driven",
            BoundBy::LeastUseful => "at least, to be of use to the battery",
            BoundBy::Battery => "at most, for the battery",
            BoundBy::OnTheRoad => "at most, for the alternator on the road",
            BoundBy::OverTheDrive => "at most, for the alternator over a drive",
            BoundBy::AtIdle => "better at most, for the alternator at idle",
        }
    }

    /// Its symbol in a working.
    pub fn symbol(self) -> &'static str {
        match self {
            BoundBy::DaysDraw => "D",
            BoundBy::LeastUseful => "L",
            BoundBy::Battery => "B",
            BoundBy::OnTheRoad => "R",
            BoundBy::OverTheDrive => "A",
            BoundBy::AtIdle => "E",
        }
    }
}

impl Bound {
    /// Only a caution if passed: it slows things down, or drains the starter battery for a while.
    pub fn advice(&self) -> bool {
        matches!(self.by, BoundBy::LeastUseful | BoundBy::AtIdle)
    }
}
