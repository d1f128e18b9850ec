//! What hangs on the carrier or close beside it: its own weather and heat, by its label.

use super::choice::{Choice, IpCode, MountedDevice};
use super::field::{AIR, Kind, Pick, count, mm, num};
use super::table::table;
use crate::quantity::{Celsius, Kilograms, Millimetres, Unit};

/// A charger or cut-off has no room for more bolts than this.
pub const MOST_BOLTS: f64 = 12.0;

table! {
    /// A device on the hold-down, or on the deck close beside it.
    Mounted in Mounted {
        /// Which device it is.
        device: MountedDevice => "device", "Device", Kind::Choice(MountedDevice::words), Default;
        /// Whether the hold-down bears it; else the deck beside it.
        on_hold_down: bool = true => "on_hold_down", "On the hold-down", Kind::Flag, Default;
        /// Its mass, from its label or a scale.
        mass: Option<Kilograms> => "mass_kg", "Mass", num(Unit::Kilogram, 0.05, 100.0), Chosen;
        /// Its degree of protection, from its label, or that of the closed box around it.
        protection: Option<IpCode> => "protection", "IP code", Kind::Choice(IpCode::words), Chosen;
        /// Hottest air in which it gives or carries all that it is rated for; a usual figure when left out.
        full_to: Option<Celsius> => "full_to_c", "All of it up to", AIR, Chosen;
        /// Hottest air in which it works at all; a usual figure when left out.
        hottest: Option<Celsius> => "hottest_c", "Works up to", AIR, Chosen;
        /// Free way between it and the battery.
        gap: Option<Millimetres> => "gap_mm", "From the battery", mm(0.0, 3000.0), Chosen;
        /// Bolts that hold it.
        bolts: u32 = 4 => "bolts", "Bolts", count(2.0, MOST_BOLTS), Default;
        /// Size of those bolts, of the hold-down's class; the smallest when left out.
        bolt: Option<String> => "bolt", "Bolt size", Kind::Pick(Pick::Stud), Chosen;
    }
}
