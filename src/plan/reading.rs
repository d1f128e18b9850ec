//! What was measured on the finished wiring, and with which meter.

use crate::quantity::*;

/// The meters used; the catalogue's usual errors when absent.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Meter {
    /// Last digit at 12 V.
    pub step: Option<Volts>,
    /// Error in last digits.
    pub digits: Option<f64>,
    /// Error as a share of the reading.
    pub error: Option<Share>,
    /// Error of the clamp meter as a share of the reading.
    pub clamp_error: Option<Share>,
    /// Air around the cables during the test; the mean of the surroundings when absent.
    pub air: Option<Celsius>,
}

/// One voltage, read at one point with one load on.
#[derive(Clone, Debug, Default, PartialEq)]
#[allow(missing_docs)]
pub struct Reading {
    /// Point at which the voltage was read, plus to minus.
    pub at: String,
    /// What was on: a load's name, a point with a test load, `charger` or `charging`; nothing when empty.
    pub with: String,
    /// Voltage there; not yet read when absent.
    pub voltage: Option<Volts>,
    /// Voltage at the battery's posts at the same moment.
    pub posts: Option<Volts>,
    /// Current measured at the same moment.
    pub current: Option<Amps>,
}
