//! The input current, with the drop of the cable that feeds it.

use crate::engine::installation::Installation;
use crate::engine::installation::alternator::lowest_driving_voltage;
use crate::engine::installation::subject::Subject;
use crate::engine::installation::working::Notes;
use crate::engine::physics::reckon::Reckoned;
use crate::engine::simulate::charger::relay;
use crate::engine::simulate::charger::result::ChargerDesign;
use crate::engine::simulate::charger::rush::Rush;
use crate::plan::ChargerKind;
use crate::quantity::*;
use crate::reckon;

/// Input current of a converter: I = V_out I_out / (e V_in).
pub fn input_current(output: Volts, current: Amps, efficiency: Share, input: Volts) -> Reckoned<Amps, 4> {
    reckon!(Amps: V * I / (e * U),
        V: "highest charge voltage" = output,
        I: "output current" = current,
        e: "efficiency" = efficiency.max(Share::new(0.01)),
        U: "lowest voltage at its own input terminals" = input.max(Volts::new(0.01)))
}

/// Input current of a constant-power device behind a resistance, from I (V - I R) = P. `None` when the
/// cable cannot feed it at all.
pub fn input_with_feed(source: Volts, resistance: Ohms, power: Watts) -> Option<Reckoned<Amps, 3>> {
    // The form with the root in the denominator does not lose digits when R is small.
    let input = reckon!(Amps: 2.0 * P / (V + sqrt(V * V - 4.0 * R * P)),
        P: "input power: highest charge voltage x current / efficiency" = power.max(Watts::ZERO),
        V: "lowest voltage at the starter battery while driving" = source,
        R: "resistance of the feed, out and back" = resistance.max(Ohms::ZERO));
    let (v, r, p) = (source.get(), resistance.get().max(0.0), power.get().max(0.0));
    (v > 0.0 && v * v - 4.0 * r * p >= 0.0).then_some(input)
}

/// What a charger takes at its input for the current it gives.
pub(crate) fn input_power(site: &Installation, design: &ChargerDesign, current: Amps) -> Watts {
    design.output_highest * current / site.charger.efficiency.get().max(0.01)
}

/// Solve the worst-case input current with the feed's resistance, the starter
/// battery at its lowest, and compare a plain relay. Where the cable cannot feed
/// it, the numbers stay those of sizing.
pub fn charger_feed(design: &mut ChargerDesign, site: &Installation, feed: Ohms, notes: &mut Notes) {
    design.feed = feed;
    relay::compare(design, site, feed, notes);
    let Some((current, chemistry)) = design.current.zip(site.chemistry()) else { return };
    let source = lowest_driving_voltage(site);
    if site.charger.kind == ChargerKind::Relay {
        let first = Rush::once_fed(site, chemistry, design.capacity).first_current(feed, notes);
        design.input = first.max(site.charger.current.unwrap_or(Amps::ZERO));
    } else if let Some(input) = input_with_feed(source, feed, input_power(site, design, current)) {
        design.input = notes.reckon(&Subject::Charger, "input current", input, |r| {
            r.working("worst-case input current").source("power balance I (V - I R) = P solved for I")
        });
    } else {
        return;
    }
    let behind = reckon!(Volts: V - I * R,
        V: "lowest voltage at the starter battery while driving" = source,
        I: "worst-case input current" = design.input,
        R: "resistance of the feed, out and back" = feed);
    design.input_voltage = notes.reckon(&Subject::Charger, "input voltage", behind, |r| {
        r.working("voltage at its input then").from("I", Subject::Charger, "input current").source("Ohm's law")
    });
}
