//! What the service battery was found to hold, and when: it ages, and the plan remembers.

use super::field::{count, num};
use super::table::table;
use crate::quantity::{AmpHours, Milliohms, Unit};

table! {
    /// The service battery as it was found once. The first line may be the month in which it was fitted, new.
    Measured in Measured {
        /// Year in which it was measured.
        year: u32 = 2026 => "year", "Year", count(2000.0, 2199.0), NotAllowed;
        /// Month of that year, 1 to 12.
        month: u32 = 1 => "month", "Month", count(1.0, 12.0), NotAllowed;
        /// What the bank held; leave out in the month in which it was new.
        capacity: Option<AmpHours> => "capacity_ah", "Capacity", num(Unit::AmpHour, 0.1, 5000.0), Chosen;
        /// The least that it may have held by that measurement.
        least: Option<AmpHours> => "least_ah", "Holds at least", num(Unit::AmpHour, 0.1, 5000.0), Chosen;
        /// The most that it may have held.
        most: Option<AmpHours> => "most_ah", "Holds at most", num(Unit::AmpHour, 0.1, 5000.0), Chosen;
        /// Its internal resistance then.
        resistance_mohm: Option<Milliohms> => "resistance_mohm", "Internal resistance", num(Unit::Milliohm, 0.1, 500.0), Chosen;
    }
}
