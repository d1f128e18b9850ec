//! What people type, against a public package of units.

use crate::check::{Source, check, independent};
use crate::stored::lines;
use loomwright::quantity::{Unit, parse};

crate::tests![typed_values];

const PINT: Source = independent("pint 0.25.3: values as people type them");

fn unit(name: &str) -> Unit {
    use Unit::*;
    let all = [
        Volt,
        Amp,
        Ohm,
        Milliohm,
        OhmPerKm,
        Watt,
        WattHour,
        AmpHour,
        Metre,
        Millimetre,
        SquareMillimetre,
        Celsius,
        Kelvin,
        Hour,
        Second,
        Share,
        SharePerKelvin,
        Kilogram,
        Newton,
        NewtonMetre,
        Megapascal,
        VoltPerKelvin,
    ];
    all.into_iter().find(|unit| format!("{unit:?}") == name).unwrap_or_else(|| panic!("no unit {name}"))
}

fn typed_values() {
    for row in lines(include_str!("data/units.csv"), ';').skip(1) {
        let expected: f64 = row[2].parse().unwrap();
        let got = parse(row[0], unit(row[1])).unwrap_or_else(|e| panic!("{}: {e:?}", row[0]));
        check(PINT, row[0], expected, got, 1e-8 * expected.abs().max(1e-6));
    }
}
