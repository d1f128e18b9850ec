//! Between which currents does the charger lie?

use crate::quantity::Amps;

/// A bound on the charge current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bound {
    /// Short name, also the working's name: `day's draw`, `battery`, `alternator on the road`, …
    pub name: &'static str,
    /// The current.
    pub amps: Amps,
    /// Only a caution if exceeded.
    pub advice: bool,
}
