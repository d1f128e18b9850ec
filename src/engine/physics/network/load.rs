//! What current does a load draw at the voltage it gets?
//!
//! The three idealised kinds of the trade. Left out: loads between kinds, and
//! the low-voltage switch-off of electronics.

use crate::quantity::{Amps, Volts, Watts};

/// One load, by what it holds constant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Load {
    /// Electronics, inverters, brushless fridges: the lower the voltage, the
    /// higher the current, I = P / V. 0 W or more.
    Power(Watts),
    /// Linear LED drivers and chargers of fixed current, I = const. Negative feeds current in.
    Current(Amps),
    /// Filament lamps and heaters, by their rated power at a nominal voltage:
    /// I = V × rated / nominal². Rated 0 W or more, nominal above 0 V.
    Resistance {
        /// Power at the nominal voltage.
        rated: Watts,
        /// The voltage for which the power is rated.
        nominal: Volts,
    },
}

impl Load {
    /// Current drawn at `voltage` (above 0 V); negative when fed in.
    pub fn current(self, voltage: Volts) -> Amps {
        match self {
            Load::Power(power) => power / voltage,
            Load::Current(current) => current,
            Load::Resistance { rated, nominal } => rated / nominal * (voltage / nominal),
        }
    }
}
