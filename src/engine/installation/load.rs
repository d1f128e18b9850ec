//! What is given about the loads.

use crate::quantity::Volts;

/// Voltage at which plans give currents and resistive powers, and to which shares of drop refer: 12 V.
pub const NOMINAL: Volts = Volts::new(12.0);
