//! What was measured on the finished wiring, and with which meter.

use super::field::{AIR, Kind, num};
use super::table::table;
use crate::quantity::*;

table! {
    /// The meters used; the catalogue's usual errors when absent.
    Meter in Meter {
        /// Smallest step the voltmeter shows at 12 V.
        step: Option<Volts> => "step_v", "Last digit", num(Unit::Volt, 0.0001, 0.1), Chosen;
        /// Error in last digits, from the meter's sheet.
        digits: Option<f64> => "digits", "Digits of error", num(Unit::Number, 0.0, 20.0), Chosen;
        /// Error as a share of the reading, from the meter's sheet.
        error: Option<Share> => "error", "Voltmeter error", num(Unit::Share, 0.0, 0.1), Chosen;
        /// Error of the clamp meter as a share of the reading.
        clamp_error: Option<Share> => "clamp_error", "Clamp meter error", num(Unit::Share, 0.0, 0.2), Chosen;
        /// Air around the cables during the test; the mean air when left out.
        air: Option<Celsius> => "air_c", "Air during the test", AIR, Chosen;
    }
}

table! {
    /// One voltage, read at one point with one load on.
    Reading in Reading {
        /// The point where the voltage was read, plus to minus.
        at: String => "at", "At", Kind::Point, NotAllowed;
        /// What was on: a load, a point with a test load, charger, or charging; everything else off.
        with: String => "with", "With", Kind::Text { longest: 60, required: false }, Default;
        /// What the meter showed there.
        voltage: Option<Volts> => "voltage_v", "Voltage", num(Unit::Volt, -20.0, 20.0), Chosen;
        /// What the meter showed at the battery's posts at the same moment.
        posts: Option<Volts> => "posts_v", "Posts", num(Unit::Volt, -20.0, 20.0), Chosen;
        /// What the clamp meter showed at the same moment; from the load when left out.
        current: Option<Amps> => "current_a", "Current", num(Unit::Amp, 0.0, 1000.0), Chosen;
    }
}
