//! Voltage drop along a path, against published examples.
//!
//! Rows marked `memory` were not read in the publication: they are reported on
//! but a failure of theirs alone fails no test; each stands beside rows that
//! were read.

use crate::abyc;
use loomwright::engine::physics::copper;
use loomwright::engine::physics::network::load::Load;
use loomwright::engine::physics::network::path::{area_for_drop, drop_along, length_for_drop};
use loomwright::engine::physics::network::warming::Warming;
use loomwright::engine::physics::network::{Branch, Network, Point, Source};
use loomwright::quantity::*;

const FOOT: f64 = 0.3048;

/// Ω/ft as printed in US tables.
fn per_foot(ohm: f64) -> OhmsPerKm {
    OhmsPerKm::new(ohm / FOOT * 1000.0)
}

fn feet(length: f64) -> Metres {
    Metres::new(length * FOOT)
}

#[track_caller]
fn check(source: &str, what: &str, got: f64, expected: f64, share: f64) {
    let off = (got / expected - 1.0).abs();
    assert!(off <= share, "{source}: {what}: got {got}, expected {expected} within {} %", share * 100.0);
}

/// FAA AC 43.13-1B CHG 1, Table 11-7, p. 11-22: whole wire in ft, A, Ω/ft, V.
/// The row of size 12 prints 3.60 V where its own factors give 3.555, hence 1.5 %.
#[test]
fn faa_table_11_7() {
    let rows = [
        (107.0, 20.0, 0.00044, 0.942, 0.005),
        (90.0, 20.0, 0.00028, 0.504, 0.005),
        (88.0, 20.0, 0.00202, 3.60, 0.015),
        (100.0, 20.0, 0.00306, 6.12, 0.005),
    ];
    for (length, amps, ohm, volts, tolerance) in rows {
        let got = drop_along(Amps::new(amps), [per_foot(ohm) * feet(length)]);
        check("FAA AC 43.13-1B Table 11-7", &format!("{length} ft"), got.get(), volts, tolerance);
    }
}

/// FAA AC 43.13-1B CHG 1, Table 11-8, p. 11-22: size 10 (0.00126 Ω/ft), 20 A:
/// limit V, longest ft (read from a chart, 3 %), printed check V (0.5 %).
/// The printed check of the second row, .366, is a misprint: its factors give 0.491.
#[test]
fn faa_table_11_8() {
    let size_10 = per_foot(0.00126);
    for (limit, longest, volts) in [(1.0, 39.0, 0.98), (0.5, 19.5, 0.491), (4.0, 156.0, 3.93), (7.0, 273.0, 6.88)] {
        let got = length_for_drop(Volts::new(limit), Amps::new(20.0), size_10).unwrap();
        check("FAA AC 43.13-1B Table 11-8", &format!("longest for {limit} V"), got.get() / FOOT, longest, 0.03);
        let drop = drop_along(Amps::new(20.0), [size_10 * feet(longest)]);
        check("FAA AC 43.13-1B Table 11-8", &format!("drop over {longest} ft"), drop.get(), volts, 0.005);
    }
}

/// FAA AC 43.13-1B CHG 1, p. 11-26, example 1: 50 ft, 20 A, at most 1 V: between sizes 8 and 10, choose 8.
#[test]
fn faa_example_1_chooses_size_8() {
    let fits = |ohm: f64| length_for_drop(Volts::new(1.0), Amps::new(20.0), per_foot(ohm)).unwrap() >= feet(50.0);
    assert!(!fits(0.00126), "size 10 must be too small");
    assert!(fits(0.00070), "size 8 must do");
}

/// FAA AC 43.13-1B CHG 1, par. 11-66 d(4): L2 = 254.5 L1 / (234.5 + T2): warm copper
/// has the resistance of cold copper that is longer by the same factor. 39 ft at 60 °C is 33.70 ft.
#[test]
fn faa_length_at_temperature() {
    let cold = length_for_drop(Volts::new(1.0), Amps::new(20.0), per_foot(1.0 / 780.0)).unwrap();
    let warm_per_foot = per_foot(copper::warm_factor(Celsius::new(60.0)) / 780.0);
    let warm = length_for_drop(Volts::new(1.0), Amps::new(20.0), warm_per_foot).unwrap();
    check("FAA AC 43.13-1B", "cold", cold.get() / FOOT, 39.0, 1e-9);
    check("FAA AC 43.13-1B par. 11-66 d(4)", "39 ft at 60 °C", warm.get() / FOOT, 33.70, 0.001);
}

/// Gauge numbers by falling area, as sold.
const SOLD: [i32; 14] = [20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2];

/// Position of the smallest sold gauge with at least this area; 4/0 beyond.
fn gauge_for(area: SquareMillimetres) -> usize {
    SOLD.iter().position(|n| awg_area(*n) >= area).unwrap_or(SOLD.len())
}

fn position(label: &str) -> usize {
    let gauge = awg_number(label).unwrap();
    SOLD.iter().position(|n| *n == gauge).unwrap_or(SOLD.len())
}

/// ABYC E-11, conductors for 3 % drop at 12 V (reprint): AWG by current and whole length of the
/// circuit. Accepted: the printed size or one either side, since two reprints differ in several
/// cells. Conductor at 30 °C, near the 10.75 Ω cmil/ft (from memory) that the table is made with;
/// with the exact law at least 95 of the 104 cells must agree to the size.
#[test]
fn abyc_3_percent_at_12_v() {
    let mut same = 0;
    for (length, sizes) in abyc::ROWS {
        for (current, printed) in abyc::AMPS.iter().zip(sizes) {
            let at = Celsius::new(30.0);
            let area = area_for_drop(Amps::new(*current), feet(length), Volts::new(0.36), at).unwrap();
            let (got, expected) = (gauge_for(area), position(printed));
            let off = got.abs_diff(expected);
            assert!(off <= 1, "ABYC E-11 3 %: {length} ft, {current} A: {area} is {off} sizes from {printed} AWG");
            same += usize::from(off == 0);
        }
    }
    assert!(same >= 95, "{same} of 104 cells agree to the size");
}

/// ABYC E-11 tables, printed example (reprint): 12 V, 10 A, 11 ft out and 10 ft back. 3 %: 10 AWG, because
/// 21 ft is read in the 25 ft row; 12 AWG by the law. 10 %: 16 AWG.
#[test]
fn abyc_printed_example() {
    let area = |volts: f64| area_for_drop(Amps::new(10.0), feet(21.0), Volts::new(volts), Celsius::new(30.0)).unwrap();
    let three = SOLD[gauge_for(area(0.36))];
    assert!([10, 12].contains(&three), "3 %: {three} AWG");
    assert_eq!(SOLD[gauge_for(area(1.2))], 16, "10 %");
}

/// Trade guidance for boats (common practice, printed example): 25 W at 12 V taken as 2.1 A, 18 m each
/// way, 5 % = 0.6 V, conductivity 56: 2.25 mm², choose 2.5 mm². Copper of conductivity 56 is that of
/// 100 % IACS (58) at 29.2 °C.
#[test]
fn lamp_18_metres_away() {
    let at = copper::temperature_of(1000.0 / 56.0 / 17.241);
    let area = area_for_drop(Amps::new(2.1), Metres::new(36.0), Volts::new(0.6), at).unwrap();
    check("boat guidance", "area", area.get(), 2.25, 1e-3);
    let sold = [0.75, 1.0, 1.5, 2.5, 4.0]; // IEC 60228
    assert_eq!(sold.into_iter().find(|s| *s >= area.get()), Some(2.5));
}

/// Resistance of a length of copper. IEC 60228 class 5, 6 mm², 3.30 Ω/km, 20 m there and back: 66.0 mΩ;
/// 50 ft of 14 AWG at 0.00258 Ω/ft: 0.129 Ω (navy training text, reprint); both read. Then three
/// from memory, to 1 to 2 %: 1,000 ft of 10,400 cmil, 0.997 Ω (NEETS module 4); 5 m of 12 gauge,
/// 0.025 Ω at 1.68e-8 Ωm, so 2 % plus the 2.6 % of that resistivity (OpenStax University Physics 2);
/// 2,300 ft at no more than 0.4 Ω needs 58,000 cmil (Kuphaldt, Lessons in Electric Circuits I).
#[test]
fn resistance_of_a_length() {
    let amp = Amps::new(1.0);
    let ohms = |per_length: OhmsPerKm, length: Metres| drop_along(amp, [per_length * length]).get();
    check("IEC 60228", "20 m of 6 mm²", ohms(OhmsPerKm::new(3.30), Metres::new(20.0)), 0.0660, 1e-9);
    check("training text", "50 ft of 14 AWG", ohms(per_foot(0.00258), feet(50.0)), 0.129, 1e-9);

    let cold = Celsius::new(20.0);
    let area = |length: f64, ohm: f64| area_for_drop(amp, Metres::new(length), Volts::new(ohm), cold).unwrap().get();
    let cmil = 5.067_075e-4;
    let from_memory = [
        ("NEETS 4", area(1000.0 * FOOT, 0.997), 10_400.0 * cmil, 0.005),
        ("OpenStax", area(5.0, 0.025), awg_area(12).get(), 0.05),
        ("Kuphaldt", area(2300.0 * FOOT, 0.4), 58_000.0 * cmil, 0.03),
    ];
    for (source, got, expected, share) in from_memory {
        if (got / expected - 1.0).abs() > share {
            println!("{source}, from memory: {got} mm², remembered {expected} mm²");
        }
    }
}

/// A source behind a resistance, and one branch with a load of constant resistance.
fn one_branch(volts: f64, inside: f64, branch: f64, load: f64) -> Network {
    Network {
        source: Source { voltage: Volts::new(volts), internal: Ohms::new(inside) },
        loads: vec![],
        branches: vec![Branch {
            from: Point::Terminals,
            copper: Ohms::ZERO,
            fixed: Ohms::new(branch),
            warming: Warming::Held(Celsius::new(20.0)),
            loads: vec![Load::Resistance { rated: Watts::new(volts * volts / load), nominal: Volts::new(volts) }],
        }],
    }
}

/// Kuphaldt, *Lessons in Electric Circuits*, "Battery construction": 10 V, 0.2 Ω inside, 1 Ω load:
/// 8.333 A; 10 A were the inside ideal; 50 A short-circuited.
#[test]
fn battery_with_internal_resistance() {
    for (inside, load, amps) in [(0.2, 1.0, 8.333), (0.0, 1.0, 10.0), (0.2, 1e-7, 50.0)] {
        let solved = one_branch(10.0, inside, 0.0, load).solve().unwrap();
        check("Lessons in Electric Circuits", &format!("{inside} Ω, {load} Ω"), solved.current.get(), amps, 1e-4);
    }
}

/// OpenStax *College Physics*, starter motor: 12.0 V, 0.0100 Ω inside, 0.0500 Ω: 200 A, 10.0 V,
/// 2.00 kW; with 0.0900 Ω of corroded joints 80 A, 4.00 V, 320 W.
#[test]
fn starter_with_corroded_joints() {
    for (joints, amps, volts, watts) in [(0.0, 200.0, 10.0, 2000.0), (0.09, 80.0, 4.0, 320.0)] {
        let solved = one_branch(12.0, 0.01, joints, 0.05).solve().unwrap();
        let starter = solved.branches[0];
        check("College Physics", "current", starter.current.get(), amps, 1e-6);
        check("College Physics", "voltage", starter.voltage.get(), volts, 1e-6);
        check("College Physics", "power", solved.balance.loads.get(), watts, 1e-6);
    }
}

/// 15 Ω of copper a wire at 20 °C, two wires, 250 Ω load, 14 V, 35 °C: 12.42 V at the load. From memory
/// (Kuphaldt vol. I, 0.4 % on the coefficient), so the factor is held to IEC 60228 as well, which was
/// read: 0.893 to 20 °C at 50 °C, exact law 0.8946.
#[test]
fn warm_line_and_load() {
    check("IEC 60228", "50 °C to 20 °C", 1.0 / copper::warm_factor(Celsius::new(50.0)), 0.893, 0.005);
    let mut line = one_branch(14.0, 0.0, 0.0, 250.0);
    line.branches[0].copper = Ohms::new(30.0);
    line.branches[0].warming = Warming::Held(Celsius::new(35.0));
    let at_load = line.solve().unwrap().branches[0].voltage;
    if (at_load.get() / 12.42 - 1.0).abs() > 0.002 {
        println!("Kuphaldt, from memory: {at_load}, remembered 12.42 V");
    }
}
