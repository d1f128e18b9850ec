//! What is given about the charger: its voltages, its current, what it draws while off.

use crate::catalogue::{Chemistry, cite};
use crate::engine::installation::Installation;
use crate::engine::installation::sources;
use crate::engine::installation::working::Notes;
use crate::engine::physics::cell::formula::compensated;
use crate::engine::physics::cell::store::TABLE_AIR;
use crate::engine::physics::reckon::Reckoned;
use crate::plan::ChargerKind;
use crate::quantity::*;
use crate::reckon;

/// Charge voltage that does not depend on the air: a relay's is the alternator's, a charger's the plan's.
pub fn fixed_voltage(site: &Installation) -> Option<Volts> {
    match site.charger.kind {
        ChargerKind::Relay => Some(site.vehicle.alternator_voltage),
        ChargerKind::DcDc | ChargerKind::None => site.charger.output_voltage,
    }
}

/// Charge voltage at 25 °C: a relay's, the plan's or the chemistry's.
pub fn charge_voltage(site: &Installation, chemistry: &Chemistry) -> Volts {
    fixed_voltage(site).unwrap_or(chemistry.charge.absorption)
}

/// Charge voltage at an air temperature, never above the chemistry's highest unless plan or relay say so.
pub fn charge_voltage_at(site: &Installation, chemistry: &Chemistry, air: Celsius) -> Volts {
    match fixed_voltage(site) {
        Some(given) => given,
        None => compensated(chemistry.charge.absorption, chemistry.charge.v_per_k, air).min(chemistry.charge.max),
    }
}

/// Where the charge voltage at some air comes from.
pub fn charge_voltage_source(site: &Installation, chemistry: &Chemistry, air: Celsius) -> String {
    let from = &chemistry.charge.from;
    let by_air = (air != TABLE_AIR).then_some(&from.v_per_k);
    match fixed_voltage(site) {
        Some(_) => "entered by you".into(),
        None => cite(std::iter::once(&from.absorption).chain(by_air)),
    }
}

/// Lowest voltage at the charger's own input: the plan's or the catalogue's.
pub fn lowest_input(site: &Installation) -> Volts {
    site.charger.lowest_input.unwrap_or(site.catalogue.rules.charger_input_low.value).max(Volts::new(1.0))
}

/// Highest charge current that the plan's given devices can push into the battery together.
pub fn plan_charge_current(site: &Installation, chemistry: &Chemistry) -> Amps {
    let charger = match site.charger.kind {
        ChargerKind::None => Amps::ZERO,
        _ => site.charger.current.unwrap_or(Amps::ZERO),
    };
    charger.max(site.mains.current) + sources::solar_current(site, chemistry, &mut Notes::unkept())
}

/// Standing draws of charger and cut-off together.
pub fn standing_current(site: &Installation) -> Reckoned<Amps, 2> {
    let charger = if site.charger.kind == ChargerKind::None { Amps::ZERO } else { site.charger.standing_draw };
    reckon!(Amps: a + b, a: "charger, while off" = charger, b: "cut-off" = site.cut_off.standing_draw)
}
