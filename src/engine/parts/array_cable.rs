//! Which cable and device join the panels to their controller?

use crate::quantity::*;

/// The panels' own cable, given or chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct ArrayCable {
    /// One way.
    pub length: Metres,
    /// Short-circuit current of all strings in full sun.
    pub short: Amps,
    /// Hottest air along it.
    pub air: Celsius,
    /// Its conductor; `None` where no size is enough.
    pub size: Option<String>,
    /// What that carries by the table alone.
    pub plain: Amps,
    /// What it carries in that air, with its own way back beside it.
    pub carries: Amps,
    /// Lost on it at maximum power, hot.
    pub drop: Volts,
    /// That as a share of the array's voltage.
    pub lost: Share,
    /// Rating of its device; `None` where none is made so large.
    pub device: Option<Amps>,
}
