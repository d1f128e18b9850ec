//! A block of a bank whose blocks are not alike.

use super::field::{Kind, Pick, num};
use super::table::table;
use crate::quantity::{AmpHours, Unit, Years};

table! {
    /// One block of the service battery, where they differ.
    Block in Block {
        /// Its rated capacity.
        capacity: AmpHours => "capacity_ah", "Capacity", num(Unit::AmpHour, 1.0, 5000.0), NotAllowed;
        /// Its chemistry; that of the service battery when left out.
        chemistry: Option<String> => "chemistry", "Chemistry", Kind::Pick(Pick::Chemistry), Chosen;
        /// How old it is.
        age: Years => "age_y", "Age", num(Unit::Year, 0.0, 40.0), Default;
    }
}
