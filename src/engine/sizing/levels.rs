//! Which voltages do the sources have at their worst?
//!
//! Lowest at the service battery's posts while loads run: the cut-off setting
//! when the plan gives one, else the resting voltage at the reserve less the
//! drop inside the aged, cold battery at the peak current, but not below where
//! harm begins. Lowest at the starter battery while driving and highest while
//! charging: as the charger's part has them. Left out: sagging of the starter
//! battery at idle with everything on.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::battery::BatteryDesign;
use crate::engine::charger::{ChargerDesign, lowest_driving_voltage};
use crate::engine::topology::Side;
use crate::plan::Plan;
use crate::quantity::*;

/// Voltage that shares of drop refer to.
pub const NOMINAL: Volts = Volts::new(12.0);

/// The sources at their worst.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Levels {
    /// Lowest steady voltage at the service battery's posts.
    pub lowest: Volts,
    /// Lowest steady voltage at the starter battery's posts while driving.
    pub feed: Volts,
    /// Highest voltage at a charging source.
    pub charging: Volts,
}

impl Levels {
    /// Of a plan with battery and charger as sized; `peak` is the current of all that is on together.
    pub fn of(
        plan: &Plan,
        catalogue: &Catalogue,
        battery: &BatteryDesign,
        charger: &ChargerDesign,
        peak: Amps,
    ) -> Self {
        let chemistry = catalogue.chemistry(&plan.service_battery.chemistry);
        let lowest = plan.cut_off.cut.or_else(|| chemistry.map(|c| at_reserve(plan, c, battery, peak)));
        let charging = charger.output_highest.max(plan.charger.output_voltage.unwrap_or(Volts::ZERO));
        let charging = if charging > Volts::ZERO { charging } else { plan.vehicle.alternator_voltage };
        let sound = |v: Volts| v.max(Volts::new(6.0)).min(Volts::new(20.0));
        Levels {
            lowest: sound(lowest.unwrap_or(Volts::new(11.0))),
            feed: sound(lowest_driving_voltage(plan, catalogue)),
            charging: sound(charging),
        }
    }
}

impl Levels {
    /// Where the lowest voltage of a side comes from, in words.
    pub fn source(&self, side: Side) -> &'static str {
        match side {
            Side::Service => "the cut-off setting, or the battery at its reserve, aged and cold, at the peak current",
            Side::Feed => "lowest steady voltage at the starter battery while driving",
        }
    }
}

fn at_reserve(plan: &Plan, chemistry: &Chemistry, battery: &BatteryDesign, peak: Amps) -> Volts {
    let reserve = plan.cut_off.reserve.unwrap_or(chemistry.low.reserve);
    let resting = chemistry.resting.curve.at(reserve).unwrap_or(chemistry.nominal);
    let inside = battery.bank.as_ref().map_or(Volts::ZERO, |bank| peak * bank.resistance_worst);
    (resting - inside).max(chemistry.low.damage)
}
