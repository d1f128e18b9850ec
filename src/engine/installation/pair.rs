//! A vehicle of 24 V: two blocks in series start the engine, and its alternator charges both.
//!
//! The pair is a battery like any other with twice the voltages and twice the resistance of one block. A voltage of that
//! side that is given for one of the two, or left at what is usual in 12 V vehicles, is doubled.

use crate::catalogue::{Catalogue, Chemistry, Curve};
use crate::plan::{Outfit, System};
use crate::quantity::*;

/// What the row of a pair is called.
const PAIR: &str = ", two in series";
/// A voltage under this is that of one of the two.
const ONE: Volts = Volts::new(16.0);

/// Whether a row is that of a pair, which is no battery to choose.
pub(crate) fn is_pair(chemistry: &Chemistry) -> bool {
    chemistry.key.ends_with(PAIR)
}

/// Voltage that the vehicle's own loads are made for.
pub(crate) fn nominal(system: System) -> Volts {
    match system {
        System::V12 => Volts::new(12.0),
        System::V24 => Volts::new(24.0),
    }
}

/// The starter side of a vehicle of 24 V; nothing in one of 12 V.
pub(crate) fn of_24_volts(outfit: &mut Outfit, catalogue: &mut Catalogue) {
    if outfit.vehicle.system != System::V24 {
        return;
    }
    if let Some(block) = catalogue.chemistry(&outfit.starter_battery.chemistry) {
        let pair = in_series(block);
        outfit.starter_battery.chemistry.clone_from(&pair.key);
        catalogue.chemistries.push(pair);
    }
    let both = |volts: &mut Volts| *volts = if *volts < ONE { *volts * 2.0 } else { *volts };
    both(&mut outfit.vehicle.alternator_voltage);
    outfit.vehicle.lowest_voltage.iter_mut().for_each(both);
    outfit.charger.lowest_input.iter_mut().for_each(both);
    both(&mut outfit.charger.engages_at);
    both(&mut outfit.charger.releases_at);
    let rules = &mut catalogue.rules;
    both(&mut rules.charger_input_low.value);
    both(&mut rules.variable_alternator_low.value);
}

fn in_series(block: &Chemistry) -> Chemistry {
    let mut pair = block.clone();
    let both = |volts: &mut Volts| *volts = *volts * 2.0;
    let curve = |curve: &Curve<Share, Volts>| Curve::new(curve.points().iter().map(|(s, v)| (*s, *v * 2.0)).collect());
    pair.key.push_str(PAIR);
    pair.name.push_str(PAIR);
    pair.cells *= 2;
    both(&mut pair.nominal);
    pair.resting.curve = curve(&pair.resting.curve);
    pair.resting.other = pair.resting.other.as_ref().map(curve);
    pair.resting.v_per_k *= 2.0;
    both(&mut pair.resting.hysteresis);
    let r = &mut pair.resistance;
    for mohm in [&mut r.working_mohm, &mut r.fault_mohm, &mut r.likely_mohm, &mut r.starter_mohm] {
        *mohm *= 2.0;
    }
    let charge = &mut pair.charge;
    [&mut charge.absorption, &mut charge.float, &mut charge.max].into_iter().for_each(both);
    charge.gassing.iter_mut().for_each(both);
    charge.v_per_k *= 2.0;
    both(&mut pair.low.damage);
    pair.low.own_protection.iter_mut().for_each(both);
    pair.blocks.mass_100ah = pair.blocks.mass_100ah * 2.0;
    pair
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::physics::cell::store::{Age, Store, TABLE_AIR};

    /// Kirchhoff and Ohm by hand: two blocks in series have twice the voltage and twice the resistance of one, so that
    /// the same short circuit flows.
    #[test]
    fn two_in_series_have_twice_the_voltage_and_the_same_short_circuit() {
        let catalogue = Catalogue::embedded().unwrap();
        for key in ["flooded", "agm", "gel"] {
            let block = catalogue.chemistry(key).unwrap();
            let pair = in_series(block);
            let (one, two) =
                (Store::new(block, AmpHours::new(100.0), None), Store::new(&pair, AmpHours::new(100.0), None));
            for charge in [0.0, 0.3, 0.65, 1.0].map(Share::new) {
                let cold = Celsius::new(-10.0);
                assert!((two.resting(charge, cold) - one.resting(charge, cold) * 2.0).get().abs() < 1e-9, "{key}");
                let shorted = |s: &Store<'_>| s.resting(charge, cold) / s.resistance(charge, TABLE_AIR, Age::New);
                assert!((shorted(&two) - shorted(&one)).get().abs() < 1e-6, "{key}");
            }
        }
    }
}
