//! Voltage lost along a cable, against published examples, each put as a network of one branch and solved.

use crate::check::{Source, check, check_at_least, check_at_most, check_share, independent, memory};
use crate::program::{Branch, Network, NetworkLoad, NetworkSource, Point, Solution, Warming, warm_factor};
use loomwright::quantity::*;

crate::tests![
    faa_table_11_7,
    faa_table_11_8,
    faa_example_1_chooses_size_8,
    faa_length_at_temperature,
    faa_example_2_length_at_temperature,
    resistance_of_a_length,
    battery_with_internal_resistance,
    starter_with_corroded_joints,
    warm_line_and_load,
];

const FOOT: f64 = 0.3048;
const COLD: Celsius = Celsius::new(20.0);

/// A source behind a resistance, and one branch of so much copper with a load at its end.
fn one_branch(volts: f64, inside: f64, branch: f64, at: Celsius, load: NetworkLoad) -> Solution {
    let network = Network {
        source: NetworkSource { voltage: Volts::new(volts), internal: Ohms::new(inside) },
        loads: vec![],
        branches: vec![Branch {
            from: Point::Terminals,
            copper: Ohms::new(branch),
            fixed: Ohms::ZERO,
            warming: Warming::Held(at),
            loads: vec![load],
        }],
    };
    network.solve().unwrap()
}

/// A load of so many ohms.
fn ohms(volts: f64, load: f64) -> NetworkLoad {
    NetworkLoad::Resistance { rated: Watts::new(volts * volts / load), nominal: Volts::new(volts) }
}

/// V lost along so many feet of wire at so many Ω/ft, as printed in US tables.
fn drop(amps: f64, ohm_per_foot: f64, feet: f64, at: Celsius) -> f64 {
    let per_km = OhmsPerKm::new(ohm_per_foot / FOOT * 1000.0);
    let ohm = per_km * Metres::new(feet * FOOT);
    let solved = one_branch(28.0, 0.0, ohm.get(), at, NetworkLoad::Current(Amps::new(amps)));
    28.0 - solved.branches[0].voltage.get()
}

/// FAA AC 43.13-1B CHG 1, Table 11-7, p. 11-22: whole wire in ft, A, Ω/ft, V.
/// The row of size 12 prints 3.60 V where its own factors give 3.555, hence 1.5 %.
fn faa_table_11_7() {
    let source = independent("FAA AC 43.13-1B CHG 1, Table 11-7");
    for (feet, ohm, volts, share) in [
        (107.0, 0.00044, 0.942, 0.005),
        (90.0, 0.00028, 0.504, 0.005),
        (88.0, 0.00202, 3.60, 0.015),
        (100.0, 0.00306, 6.12, 0.005),
    ] {
        check_share(source, &format!("V over {feet} ft"), volts, drop(20.0, ohm, feet, COLD), share);
    }
}

/// FAA AC 43.13-1B CHG 1, Table 11-8, p. 11-22: size 10 (0.00126 Ω/ft), 20 A:
/// limit V, longest ft (read from a chart, 3 %), printed check V (0.5 %).
/// The printed check of the second row, .366, is a misprint: its factors give 0.491.
fn faa_table_11_8() {
    let source = independent("FAA AC 43.13-1B CHG 1, Table 11-8");
    for (limit, longest, volts) in [(1.0, 39.0, 0.98), (0.5, 19.5, 0.491), (4.0, 156.0, 3.93), (7.0, 273.0, 6.88)] {
        let got = drop(20.0, 0.00126, longest, COLD);
        check_share(source, &format!("limit at its longest {longest} ft"), limit, got, 0.03);
        check_share(source, &format!("V over {longest} ft"), volts, got, 0.005);
    }
}

/// FAA AC 43.13-1B CHG 1, p. 11-26, example 1: 50 ft, 20 A, at most 1 V: between sizes 8 and 10, choose 8.
fn faa_example_1_chooses_size_8() {
    let source = independent("FAA AC 43.13-1B CHG 1, p. 11-26, example 1");
    check_at_least(source, "size 10 is too small", 1.0, drop(20.0, 0.00126, 50.0, COLD));
    check_at_most(source, "size 8 does", 1.0, drop(20.0, 0.00070, 50.0, COLD));
}

/// FAA AC 43.13-1B CHG 1, par. 11-66 d(4): L2 = 254.5 L1 / (234.5 + T2): warm copper has the
/// resistance of cold copper that is longer by the same factor. 39 ft at 60 °C is 33.70 ft.
fn faa_length_at_temperature() {
    let source = independent("FAA AC 43.13-1B CHG 1, par. 11-66 d(4)");
    let got = drop(20.0, 1.0 / 780.0, 33.70, Celsius::new(60.0));
    check_share(source, "V over 33.70 ft at 60 °C as over 39 ft at 20 °C", 1.0, got, 0.001);
}

/// FAA AC 43.13-1B CHG 1, p. 11-27, example 2: 15.5 ft of size 14 at 20 °C are 9.48 ft at 181.6 °C.
fn faa_example_2_length_at_temperature() {
    let source = independent("FAA AC 43.13-1B CHG 1, p. 11-27, example 2");
    let cold = 20.0 * 0.00306 * 15.5;
    let got = drop(20.0, 0.00306, 9.48, Celsius::new(181.6));
    check_share(source, "V over 9.48 ft at 181.6 °C as over 15.5 ft at 20 °C", cold, got, 0.002);
}

/// IEC 60228 class 5, 6 mm², 3.30 Ω/km, 20 m there and back: 66.0 mΩ; 50 ft of 14 AWG at 0.00258 Ω/ft:
/// 0.129 Ω (navy training text, reprint); 400 ft at 6.505 Ω per 1000 ft: 2.602 Ω (a wiring handbook's page).
fn resistance_of_a_length() {
    let catalogue = crate::catalogue::shipped();
    let ohm = catalogue.conductor("6 mm²").unwrap().resistance * Metres::new(20.0);
    check(independent("IEC 60228:2004 Table 3, worked length"), "20 m of 6 mm²", 0.0660, ohm.get(), 1e-9);
    let text = independent("navy training text (reprint), resistance of 50 ft of 14 AWG");
    check_share(text, "Ω", 0.129, drop(1.0, 0.00258, 50.0, COLD), 1e-9);
    let page = independent("wiring handbook's page, 400 ft at 6.505 Ω per 1000 ft");
    check_share(page, "Ω", 2.602, drop(1.0, 0.006505, 400.0, COLD), 1e-9);
}

/// Kuphaldt, *Lessons in Electric Circuits*, "Battery construction": 10 V, 0.2 Ω inside, 1 Ω load:
/// 8.333 A; 10 A were the inside ideal; 50 A short-circuited.
fn battery_with_internal_resistance() {
    let source = independent("Lessons in Electric Circuits, Vol. I DC, \"Battery construction\"");
    for (inside, load, amps) in [(0.2, 1.0, 8.333), (0.0, 1.0, 10.0), (0.2, 1e-7, 50.0)] {
        let solved = one_branch(10.0, inside, 0.0, COLD, ohms(10.0, load));
        check_share(source, &format!("{inside} Ω, {load} Ω, A"), amps, solved.current.get(), 1e-4);
    }
}

/// OpenStax *College Physics*, starter motor: 12.0 V, 0.0100 Ω inside, 0.0500 Ω: 200 A, 10.0 V,
/// 2.00 kW; with 0.0900 Ω of corroded joints 80 A, 4.00 V, 320 W.
fn starter_with_corroded_joints() {
    let source = independent("OpenStax College Physics, starter motor problem");
    for (joints, amps, volts, watts) in [(0.0, 200.0, 10.0, 2000.0), (0.09, 80.0, 4.0, 320.0)] {
        let solved = one_branch(12.0, 0.01, joints, COLD, ohms(12.0, 0.05));
        let starter = solved.branches[0];
        check_share(source, "current, A", amps, starter.current.get(), 1e-6);
        check_share(source, "voltage, V", volts, starter.voltage.get(), 1e-6);
        check_share(source, "power, W", watts, starter.voltage.get() * starter.current.get(), 1e-6);
    }
}

/// 15 Ω of copper a wire at 20 °C, two wires, 250 Ω load, 14 V, 35 °C: 12.42 V at the load. From memory
/// (Kuphaldt vol. I, 0.4 % on the coefficient), so the factor is held to IEC 60228 as well, which was
/// read: 0.893 to 20 °C at 50 °C, exact law 0.8946.
fn warm_line_and_load() {
    let factor = 1.0 / warm_factor(Celsius::new(50.0));
    let annex: Source = independent("IEC 60228 annex, temperature correction factors k_t (R20 = Rt × k_t)");
    check_share(annex, "50 °C to 20 °C", 0.893, factor, 0.005);
    let at_load = one_branch(14.0, 0.0, 30.0, Celsius::new(35.0), ohms(14.0, 250.0)).branches[0].voltage;
    check_share(memory("Kuphaldt vol. I, two wires of 15 Ω at 35 °C"), "V at the load", 12.42, at_load.get(), 0.002);
}
