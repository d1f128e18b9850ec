//! What sizes and devices are chosen for.

use crate::engine::installation::Installation;
use crate::engine::simulate::battery::BatteryDesign;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::circuit::demand::Demand;
use crate::engine::simulate::circuit::levels::Levels;

/// What sizing rests on.
#[derive(Clone, Copy, Debug)]
pub struct Basis<'a, 'b> {
    /// The plan.
    pub site: &'a Installation,
    /// The battery as sized, for fault currents.
    pub battery: &'b BatteryDesign,
    /// The charger as sized, for fault currents.
    pub charger: &'b ChargerDesign,
    /// Currents and limits.
    pub demand: &'b Demand,
    /// Voltages of the sources.
    pub levels: Levels,
}
