//! The heat balance of a conductor against the published ampacity table.
//!
//! Source: 33 CFR 183.425 Table 5 (allowable amperage of insulated stranded
//! copper in 30 °C air), all its sizes and columns. The two need not agree: the
//! table is rounded to 5 A and holds margins of its own. Where they differ the
//! program uses the smaller.

use crate::check::{Data, check, check_at_most, check_between, check_share, independent};
use crate::program::{Air, Cable, HeatPath, Intermittent, Laid, Pulsed, Warmth, convection, prandtl_factor};
use crate::stored::tables;
use loomwright::catalogue::{Catalogue, Family, Insulation};
use loomwright::quantity::*;

crate::tests![
    surges_of_a_public_integrator,
    air_and_convection_of_public_libraries,
    ampacity_and_temperature_of_public_libraries,
    single_cores_of_din_vde_0298_4,
    heat_balance_beside_the_whole_table,
    temperature_at_the_ampacity_is_the_limit,
    temperature_rises_with_current_up_to_melting,
    one_second_meets_the_adiabatic_constant,
    short_times_end_at_the_ampacity,
];

/// Column temperatures and rows, 33 CFR 183.425 Table 5.
const COLUMNS: [f64; 7] = [60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0];
const TABLE: [(&str, [f64; 7]); 15] = [
    ("18 AWG", [10.0, 10.0, 15.0, 20.0, 20.0, 25.0, 25.0]),
    ("16 AWG", [15.0, 15.0, 20.0, 25.0, 25.0, 30.0, 35.0]),
    ("14 AWG", [20.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0]),
    ("12 AWG", [25.0, 25.0, 35.0, 40.0, 45.0, 50.0, 55.0]),
    ("10 AWG", [40.0, 40.0, 50.0, 55.0, 60.0, 70.0, 70.0]),
    ("8 AWG", [55.0, 65.0, 70.0, 70.0, 80.0, 90.0, 100.0]),
    ("6 AWG", [80.0, 95.0, 100.0, 100.0, 120.0, 125.0, 135.0]),
    ("4 AWG", [105.0, 125.0, 130.0, 135.0, 160.0, 170.0, 180.0]),
    ("3 AWG", [120.0, 145.0, 150.0, 155.0, 180.0, 195.0, 210.0]),
    ("2 AWG", [140.0, 170.0, 175.0, 180.0, 210.0, 225.0, 240.0]),
    ("1 AWG", [165.0, 195.0, 210.0, 210.0, 245.0, 265.0, 280.0]),
    ("1/0 AWG", [195.0, 230.0, 245.0, 245.0, 285.0, 305.0, 325.0]),
    ("2/0 AWG", [225.0, 265.0, 285.0, 285.0, 330.0, 355.0, 370.0]),
    ("3/0 AWG", [260.0, 310.0, 330.0, 330.0, 385.0, 410.0, 430.0]),
    ("4/0 AWG", [300.0, 360.0, 385.0, 385.0, 445.0, 475.0, 510.0]),
];

fn still_air(insulation: &Insulation) -> Laid<'_> {
    Laid { insulation, place: None, air: Celsius::new(30.0), conductors: 1 }
}

fn plastic(hottest: f64) -> Insulation {
    let mut plastic = Catalogue::embedded().unwrap().insulation("pvc-105").unwrap().clone();
    plastic.max = Celsius::new(hottest);
    plastic
}

/// A separate hand calculation puts the heat balance between 1.0 and about 1.35 times the
/// table for 16 AWG to 4/0 and 60 to 105 °C (a band of sense, not a published check); 0.95 to
/// 1.35 is held here. Left out of the band are the cells in which the table does not rise
/// from 60 to 75 °C (16 to 10 AWG repeat the colder column's value, which no heat balance
/// can): there the ratio is higher, and the table rules.
fn heat_balance_beside_the_whole_table() {
    let catalogue = Catalogue::embedded().unwrap();
    let table = independent("33 CFR 183.425 Table 5 against the heat balance in still air at 30 °C");
    for (label, row) in TABLE {
        let cable = Cable::labelled(&catalogue, label).unwrap();
        assert_eq!(cable.conductor.family, Family::Awg);
        for (column, (hottest, amps)) in COLUMNS.iter().zip(row).enumerate().take(5) {
            let plastic = plastic(*hottest);
            let got = HeatPath::new(&cable, &still_air(&plastic), 1.0).ampacity(plastic.max).get();
            let flat = column == 1 && row[1] == row[0];
            if label != "18 AWG" && !flat {
                check_between(table, &format!("{label} at {hottest} °C, A"), 0.95 * amps, 1.35 * amps, got);
            }
        }
    }
}

/// Dry air by CoolProp (the program holds its heat capacity constant, which moves the Prandtl number by up to
/// 7 % at 300 °C), and natural convection round a horizontal cylinder by ht with that air
/// (`scripts/heat_cables.py`).
fn air_and_convection_of_public_libraries() {
    let stored = tables(include_str!("data/heat_cables.csv"));
    let coolprop = independent("CoolProp 8.0.0: conductivity, viscosity and Prandtl number of air");
    for row in &stored[0] {
        let air = Air::at(Celsius::new(row[0]));
        for (what, expected, got, share) in [
            ("conductivity", row[1], air.conductivity, 0.03),
            ("kinematic viscosity", row[2], air.viscosity, 0.03),
            ("Prandtl number", row[3], air.prandtl, 0.07),
        ] {
            check_share(coolprop, &format!("{what} at {} °C", row[0]), expected, got, share);
        }
    }
    let ht = independent("ht 1.2.0 with CoolProp 8.0.0: convection round a horizontal cylinder");
    for row in &stored[1] {
        let (surface, air) = (Celsius::new(row[1]), Celsius::new(row[2]));
        let factor = prandtl_factor(Celsius::new((row[1] + row[2]) / 2.0));
        let got = convection(Millimetres::new(row[0]), surface, air, factor);
        check_share(ht, &format!("{} mm, {surface} in {air}, W/(m² K)", row[0]), row[3], got, 0.02);
    }
}

/// Cables by IEC 60228 and the copper law of IEC 60028, solved by scipy with the convection of ht.
fn ampacity_and_temperature_of_public_libraries() {
    let stored = tables(include_str!("data/heat_cables.csv"));
    let catalogue = Catalogue::embedded().unwrap();
    let path = |row: &[f64], hottest: f64, air: f64| {
        let mut conductor = catalogue.conductor("6 mm²").unwrap().clone();
        conductor.area = SquareMillimetres::new(row[0]);
        conductor.resistance = OhmsPerKm::new(row[1]);
        conductor.outside = Millimetres::new(row[2]);
        let mut wall = plastic(hottest);
        (wall.conductivity_w_per_mk, wall.emissivity) = (0.17, 0.9);
        HeatPath::new(&Cable::of(&conductor), &Laid { air: Celsius::new(air), ..still_air(&wall) }, 1.0)
    };
    let ampacity = independent("scipy 1.17.1 with ht and CoolProp: current that keeps a cable at a temperature");
    for row in &stored[2] {
        let got = path(row, row[3], row[4]).ampacity(Celsius::new(row[3])).get();
        check_share(ampacity, &format!("{} mm², {} °C in {} °C, A", row[0], row[3], row[4]), row[5], got, 0.01);
    }
    let temperature = independent("scipy 1.17.1 with ht and CoolProp: temperature that a current brings");
    for row in &stored[3] {
        let got = path(row, 105.0, row[4]).temperature(Amps::new(row[3])).get();
        check(temperature, &format!("{} mm², {} A in {} °C, °C", row[0], row[3], row[4]), row[5], got, 1.0);
    }
}

/// Table 11, column 2: one core, free in air of 30 °C, PVC 70 °C. The heat balance lies between 0.83 and 1.12
/// of it; what rules, the smaller of table and balance, never above it.
fn single_cores_of_din_vde_0298_4() {
    let table = independent("DIN VDE 0298-4:2023-06, table 11, column 2");
    let data = Data::new(include_str!("data/ampacity.toml"));
    let catalogue = Catalogue::embedded().unwrap();
    let pvc = catalogue.insulation("pvc-70").unwrap();
    for (mm2, amps) in data.table("vde_0298_4").pairs("mm2", "amps") {
        let conductor = catalogue.conductor(&format!("{mm2} mm²")).unwrap();
        let balance = HeatPath::new(&Cable::of(conductor), &still_air(pvc), 1.0).ampacity(pvc.max).get();
        check_between(table, &format!("{mm2} mm² by heat balance, A"), 0.83 * amps, 1.12 * amps, balance);
        let base = catalogue.ampacity.base_of(conductor, pvc.column).map_or(balance, |b| b.value.get());
        check_at_most(table, &format!("{mm2} mm², what rules, A"), amps, base.min(balance));
    }
}

/// Temperature and ampacity are one balance read in two directions.
fn temperature_at_the_ampacity_is_the_limit() {
    let catalogue = Catalogue::embedded().unwrap();
    for conductor in &catalogue.conductors {
        for insulation in &catalogue.insulations {
            for cooling in [1.0, 0.3] {
                let laid = still_air(insulation);
                let path = HeatPath::new(&Cable::of(conductor), &laid, cooling);
                let at = path.temperature(path.ampacity(insulation.max));
                assert!((at - insulation.max).get().abs() < 1e-5, "{} {}: {at}", conductor.label, insulation.key);
            }
        }
    }
}

/// More current is never cooler, more copper never warmer, and nothing is ever not a number.
fn temperature_rises_with_current_up_to_melting() {
    let catalogue = Catalogue::embedded().unwrap();
    let insulation = catalogue.insulation("pvc-105").unwrap();
    for conductor in &catalogue.conductors {
        let path = HeatPath::new(&Cable::of(conductor), &still_air(insulation), 1.0);
        let mut last = path.air;
        for step in 0..200 {
            let at = path.temperature(Amps::new(1.1f64.powi(step) - 1.0));
            assert!(at.is_finite() && at.get() >= last.get() - 1e-6, "{} step {step}: {at}", conductor.label);
            last = at;
        }
        assert_eq!(last.get(), 1085.0, "{}", conductor.label);
    }
}

/// Short-time ratings lie between the steady ampacity and the adiabatic limit I = k S / √t of
/// IEC 60364-5-54 (k 115 for PVC from 70 to 160 °C) when begun at 70 °C and ended at 160 °C; for
/// 1 s they meet it to 3 % with the copper that gives the resistance.
fn one_second_meets_the_adiabatic_constant() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut plastic = plastic(160.0);
    plastic.conductivity_w_per_mk = 0.17;
    for conductor in catalogue.sizes(Family::Metric) {
        let path = HeatPath::new(&Cable::of(conductor), &still_air(&plastic), 1.0);
        let ampacity = path.ampacity(plastic.max);
        let warmth = Warmth::of_copper(&path, plastic.max, ampacity);
        let got = warmth.short_time(Celsius::new(70.0), Seconds::new(1.0), plastic.max).get();
        let expected = 115.0 * conductor.copper().get();
        let source = independent("IEC 60364-5-54, k S for one second, against the warming of copper and insulation");
        check_share(source, &format!("{}, A", conductor.label), expected, got, 0.03);
        let back = warmth.after_surge(Celsius::new(70.0), Amps::new(got), Seconds::new(1.0));
        assert!((back.get() - 160.0).abs() < 1e-6, "{}: {back}", conductor.label);
    }
}

/// Surges and loads that come and go, with the same heat store and resistance integrated by scipy.
fn surges_of_a_public_integrator() {
    let scipy = independent("scipy 1.17.1 solve_ivp DOP853: warmth after surges, and peaks of loads that come and go");
    let catalogue = Catalogue::embedded().unwrap();
    let plastic = plastic(105.0);
    let stored = tables(include_str!("data/surges.csv"));
    let warmth = |row: &[f64]| {
        let mut conductor = catalogue.conductor("6 mm²").unwrap().clone();
        conductor.resistance = OhmsPerKm::new(row[0]);
        let path = HeatPath::new(&Cable::of(&conductor), &still_air(&plastic), 1.0);
        Warmth::of_copper(&path, plastic.max, Amps::new(row[1]))
    };
    for row in &stored[0] {
        let got = warmth(row).after_surge(Celsius::new(row[4]), Amps::new(row[2]), Seconds::new(row[3]));
        check(scipy, &format!("{} Ω/km, {} A for {} s, °C", row[0], row[2], row[3]), row[5], got.get(), 0.1);
    }
    for row in &stored[1] {
        let cycle = Intermittent { on: Seconds::new(row[3]), off: Seconds::new(row[4]) };
        let got = warmth(row).intermittent(cycle, Celsius::new(row[5])).get();
        check_share(scipy, &format!("{} Ω/km, {} s on, {} s off, A", row[0], row[3], row[4]), row[2], got, 0.002);
    }
    for row in &stored[2] {
        let cycle = Intermittent { on: Seconds::new(row[4]), off: Seconds::new(row[5]) };
        let pulsed = Pulsed { cycle, rest: Amps::new(row[3]) };
        let (peak, trough) = warmth(row).peak(pulsed, Amps::new(row[2]));
        let what = format!("{} Ω/km, {} A for {} s, {} A for {} s", row[0], row[2], row[4], row[3], row[5]);
        check(scipy, &format!("{what}, hottest, °C"), row[6], peak.get(), 0.1);
        check(scipy, &format!("{what}, coolest, °C"), row[7], trough.get(), 0.1);
        let most = warmth(row).pulsed(pulsed, Celsius::new(row[6])).get();
        check_share(scipy, &format!("{what}, A"), row[2], most, 0.002);
    }
    for row in &stored[3] {
        let got = warmth(row).lasts(Celsius::new(row[3]), Amps::new(row[2]), plastic.max).unwrap();
        check_share(scipy, &format!("{} Ω/km, {} A until 105 °C, s", row[0], row[2]), row[4], got.get(), 0.01);
    }
    // Under its ampacity it never gets there.
    let row = &stored[3][0];
    assert_eq!(warmth(row).lasts(Celsius::new(30.0), Amps::new(row[1] * 0.99), plastic.max), None);
}

/// The longer a load lasts the less it may be: down to the ampacity for ever, never under it.
fn short_times_end_at_the_ampacity() {
    let catalogue = Catalogue::embedded().unwrap();
    let insulation = catalogue.insulation("pvc-105").unwrap();
    for label in ["1.5 mm²", "16 mm²", "95 mm²"] {
        let cable = Cable::labelled(&catalogue, label).unwrap();
        let path = HeatPath::new(&cable, &still_air(insulation), 1.0);
        let ampacity = path.ampacity(insulation.max);
        let warmth = Warmth::of_copper(&path, insulation.max, ampacity);
        let mut last = f64::INFINITY;
        for seconds in [1.0, 4.9, 10.0, 60.0, 600.0, 6000.0, 1e6] {
            let most = warmth.short_time(path.air, Seconds::new(seconds), insulation.max).get();
            assert!(most < last * 1.02 && most > ampacity.get() * 0.999, "{label}, {seconds} s: {most} A");
            last = most;
        }
        assert!((last / ampacity.get() - 1.0).abs() < 0.001, "{label}: {last} A for ever, ampacity {ampacity}");
        let cycle = |on: f64, off: f64| {
            warmth.intermittent(Intermittent { on: Seconds::new(on), off: Seconds::new(off) }, insulation.max).get()
        };
        assert!(cycle(30.0, 300.0) > ampacity.get() && cycle(30.0, 300.0) > cycle(30.0, 30.0), "{label}");
        assert!((cycle(30.0, 0.0) / ampacity.get() - 1.0).abs() < 0.001, "{label}: always on is steady");
    }
}
