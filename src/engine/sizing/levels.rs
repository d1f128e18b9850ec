//! Which voltages do the sources have at their worst?
//!
//! Lowest at the service battery's posts while loads run: the cut-off setting
//! when the plan gives one, else the resting voltage at the reserve less the
//! drop inside the aged, cold battery at the peak current, but not below where
//! harm begins. Lowest at the starter battery while driving: as given, else
//! the catalogue's figure for a variable alternator, else the alternator's own
//! voltage. Highest: the charge voltage, cold compensation included. Left out:
//! sagging of the starter battery at idle with everything on.

use crate::catalogue::{Catalogue, Chemistry};
use crate::engine::battery::BatteryDesign;
use crate::plan::{Alternator, Plan};
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
    /// Of a plan with the battery as sized; `peak` is the current of all that is on together.
    pub fn of(plan: &Plan, catalogue: &Catalogue, battery: &BatteryDesign, peak: Amps) -> Self {
        let chemistry = catalogue.chemistry(&plan.service_battery.chemistry);
        let lowest = plan.cut_off.cut.or_else(|| chemistry.map(|c| at_reserve(plan, c, battery, peak)));
        let feed = plan.vehicle.lowest_voltage.unwrap_or(match plan.vehicle.alternator {
            Alternator::Variable => Volts::new(catalogue.rules.number("variable-alternator-low-v")),
            Alternator::Fixed => plan.vehicle.alternator_voltage,
        });
        let cold = chemistry.map(|c| c.charge.absorption + compensation(plan, c));
        let charging = plan.charger.output_voltage.or(cold).unwrap_or(plan.vehicle.alternator_voltage);
        let sound = |v: Volts| v.max(Volts::new(6.0)).min(Volts::new(20.0));
        Levels { lowest: sound(lowest.unwrap_or(Volts::new(11.0))), feed: sound(feed), charging: sound(charging) }
    }
}

fn at_reserve(plan: &Plan, chemistry: &Chemistry, battery: &BatteryDesign, peak: Amps) -> Volts {
    let reserve = plan.cut_off.reserve.unwrap_or(chemistry.low.reserve);
    let resting = chemistry.resting.curve.at(reserve).unwrap_or(chemistry.nominal);
    let inside = battery.bank.as_ref().map_or(Volts::ZERO, |bank| peak * bank.resistance_worst);
    (resting - inside).max(chemistry.low.damage)
}

/// Added to the charge voltage at the coldest: per kelvin below 25 °C, never above the chemistry's most.
fn compensation(plan: &Plan, chemistry: &Chemistry) -> Volts {
    let below = (plan.surroundings.coldest - Celsius::new(25.0)).get().min(0.0);
    let most = (chemistry.charge.max - chemistry.charge.absorption).max(Volts::ZERO);
    Volts::new(chemistry.charge.v_per_k * below).max(Volts::ZERO).min(most)
}
