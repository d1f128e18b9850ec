//! Charger and alternator against handbooks.

use crate::check::{Source, by_hand, check, independent};
use crate::program::{compensated, input_current, input_with_feed};
use loomwright::quantity::*;

crate::tests![charge_voltage_follows_temperature, input_current_of_a_converter, input_current_behind_a_feed];

const FLOAT: Source = independent("Wikipedia, \"Float voltage\" (mirror), worked figures");
const REGULATION: Source = independent("Emadi (ed.), DOI 10.1201/9781315215570-13, abstract");

fn charge_voltage_follows_temperature() {
    let at_30 = |per_cell: f64| compensated(Volts::new(13.4), 6.0 * per_cell, Celsius::new(30.0)).get();
    check(FLOAT, "13.4 V at 30 °C, -5 mV per cell", 13.25, at_30(-0.005), 1e-9);
    check(FLOAT, "13.4 V at 30 °C, -3.9 mV per cell", 13.283, at_30(-0.0039), 1e-6);
    // 13.5 V in summer and 14.5 V in winter: 1 V, which -5 mV x 6 cells makes over 33 K.
    let summer = compensated(Volts::new(14.5), -0.03, Celsius::new(25.0 + 33.3)).get();
    check(REGULATION, "14.5 V less 33 K, V", 13.5, summer, 0.01);
}

/// V I / (e U), to two places: 14.4 V, 25 A, 0.90, 12.2 V and two more.
fn input_current_of_a_converter() {
    let balance = by_hand("power balance V I / (e U)");
    for (v_out, i_out, v_in, efficiency, expected) in
        [(14.4, 25.0, 12.2, 0.90, 32.79), (14.4, 40.0, 13.5, 0.92, 46.38), (14.2, 50.0, 11.5, 0.90, 68.60)]
    {
        let got = input_current(Volts::new(v_out), Amps::new(i_out), Share::new(efficiency), Volts::new(v_in));
        check(balance, &format!("{i_out} A out of {v_in} V"), expected, got.value.get(), 0.005);
    }
}

/// 400 W behind 20 mΩ from 12.2 V: 0.02 I² - 12.2 I + 400 = 0, so I = (12.2 - √(148.84 - 32)) / 0.04 = 34.77 A,
/// at 11.505 V. At V²/4R = 1,860.5 W nothing more passes.
fn input_current_behind_a_feed() {
    let quadratic = by_hand("I (V - I R) = P solved for I");
    let (source, feed) = (Volts::new(12.2), Ohms::from_milli(20.0));
    let current = input_with_feed(source, feed, Watts::new(400.0)).unwrap().value;
    check(quadratic, "A", 34.77, current.get(), 0.005);
    check(quadratic, "V", 11.505, (source - current * feed).get(), 0.0005);
    assert!(input_with_feed(source, feed, Watts::new(1860.0)).is_some());
    assert!(input_with_feed(source, feed, Watts::new(1861.0)).is_none());
}
