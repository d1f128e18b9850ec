//! Voltage, charge and cut-off against handbooks.

use crate::catalogue::shipped;
use crate::check::{check, check_between};
use loomwright::engine::{
    Age, Book, Store, TABLE_AIR, charge_at_voltage, cut_off_question, loop_current, resting_voltage, scaled,
};
use loomwright::quantity::*;

const ARMY_REST: &str = "US Army TM 5-3805-262-20 p. 5-142, no-load voltages";
const ARMY_AGM: &str = "US Army TM 9-6115-730-24, work package 0050";
const FIELD_GUIDE: &str = "SIL Power, choosing a low-voltage disconnect";
const LESSONS: &str = "Lessons in Electric Circuits, Vol. I DC, \"Battery construction\"";
const PHYSICS: &str = "OpenStax College Physics, starter motor problem";
const CELLS: &str = "Chemistry Central Journal 2012, 6(Suppl 1):S2, Table 1";

#[test]
fn voltage_tells_charge() {
    let catalogue = shipped();
    let flooded = catalogue.chemistry("flooded").unwrap();
    for (volts, percent) in [(11.7, 0.0), (12.0, 25.0), (12.2, 50.0), (12.3, 62.5), (12.4, 75.0), (12.6, 100.0)] {
        let got = charge_at_voltage(flooded, Volts::new(volts)).as_percent();
        check(ARMY_REST, &format!("charge at {volts} V, %"), percent, got, 5.0);
    }
    let agm = catalogue.chemistry("agm").unwrap();
    let full = resting_voltage(agm, Share::FULL, TABLE_AIR).get();
    check_between(ARMY_AGM, "full AGM, V", 12.8, 13.0, full);
    for (depth, volts) in [(0.5, 12.2), (0.33, 12.35)] {
        let got = resting_voltage(flooded, Share::new(1.0 - depth), TABLE_AIR).get();
        check(FIELD_GUIDE, &format!("resting at {depth} depth, V"), volts, got, 0.1);
    }
}

/// 12.2 V at rest, 5 mΩ inside, 20 A: 12.10 V at the posts; 15 mΩ of cable for 0.3 V more: 11.80 V.
#[test]
fn loaded_cut_off_from_a_resting_target() {
    let catalogue = shipped();
    let flooded = catalogue.chemistry("flooded").unwrap();
    let store = Store::new(flooded, AmpHours::new(100.0), Some(Milliohms::new(5.0)));
    let posts = store.under_load(Share::new(0.5), Amps::new(20.0), TABLE_AIR, Age::New);
    check("V - I R", "posts, V", 12.10, posts.get(), 0.01);
    let sensing = posts - Amps::new(20.0) * Ohms::from_milli(15.0);
    check("V - I R", "sensing point, V", 11.80, sensing.get(), 0.01);
}

#[test]
fn source_with_inner_resistance() {
    let current =
        |v: f64, inner: f64, outer: f64| loop_current(Volts::new(v), Ohms::new(inner), Ohms::new(outer)).unwrap();
    check(LESSONS, "10 V, 0.2 Ω inside, 1 Ω, A", 8.333, current(10.0, 0.2, 1.0).get(), 0.001);
    check(LESSONS, "ideal, A", 10.0, current(10.0, 0.0, 1.0).get(), 1e-9);
    check(LESSONS, "short-circuited, A", 50.0, current(10.0, 0.2, 0.0).get(), 1e-9);
    for (joints, amps, volts, watts) in [(0.0, 200.0, 10.0, 2000.0), (0.09, 80.0, 4.0, 320.0)] {
        let got = current(12.0, 0.01, 0.05 + joints);
        check(PHYSICS, "starter current, A", amps, got.get(), 1e-6);
        let across = got * Ohms::new(0.05);
        check(PHYSICS, "starter voltage, V", volts, across.get(), 1e-6);
        check(PHYSICS, "starter power, W", watts, (across * got).get(), 1e-6);
    }
    assert_eq!(loop_current(Volts::new(12.0), Ohms::ZERO, Ohms::ZERO), None);
}

#[test]
fn resistance_scales_with_capacity() {
    // 0.022 Ω for a 1 Ah cell, six in series: 132 mΩ for a 1 Ah block, 1.32 mΩ for 100 Ah.
    let block = scaled(6.0 * 22.0 / 100.0, AmpHours::new(100.0));
    check(CELLS, "100 Ah block, mΩ", 1.32, block.as_milli(), 1e-9);
    check(CELLS, "1 Ah block, mΩ", 132.0, scaled(1.32, AmpHours::new(1.0)).as_milli(), 1e-9);
}

/// Stated cut-offs of lead-acid under load lie from 10.5 V (harm, US Army TM 9-6140-200-14) to the
/// resting 12.2 V at half charge (SIL Power), which the loaded setting must not exceed by more than a step.
#[test]
fn cut_offs_lie_between_the_stated_ones() {
    let catalogue = shipped();
    for key in ["flooded", "agm", "gel"] {
        let chemistry = catalogue.chemistry(key).unwrap();
        let mut book = Book::default();
        let out = cut_off_question(chemistry, AmpHours::new(100.0), Amps::new(10.0), None, &mut book);
        let resting = resting_voltage(chemistry, Share::new(0.5), TABLE_AIR).get();
        check_between("US Army TM 9-6140-200-14; SIL Power", key, 10.5, resting + 0.1, out.cut.get());
        let heavy = out.at_currents[2].trips_at.unwrap();
        let light = out.at_currents[0].trips_at.unwrap_or(Share::ZERO);
        assert!(heavy > light, "{key}: a heavy current trips it sooner, {heavy} against {light}");
        assert!(out.reconnect > out.rebound && out.reconnect < out.charging, "{key}: {out:?}");
        assert!(book.workings.iter().count() > 8);
    }
}
