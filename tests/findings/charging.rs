//! Charge voltages and temperatures, and whether as much comes in as goes out.

use crate::case::{design_of, found_with, severities, tell_apart};
use loomwright::engine::{Edit, FindingKind as Kind, Severity, Subject};

fn relay(chemistry: &str, volts: f64) -> String {
    format!("charger.kind = \"relay\"\nservice_battery.chemistry = \"{chemistry}\"\nvehicle.alternator_v = {volts}")
}

/// Gel stands 6 x 2.40 V = 14.4 V (a gel block maker's data sheet, as cited in its profile), flooded 15.0 V.
#[test]
fn a_relay_passes_on_what_the_alternator_gives() {
    tell_apart(Kind::ChargeVoltage, &relay("gel", 15.5), &relay("gel", 14.3));
    let flooded = |volts| format!("{}\nstarter_battery.chemistry = \"flooded\"", relay("flooded", volts));
    tell_apart(Kind::ChargeVoltage, &flooded(16.0), &flooded(14.8));
    assert!(severities(&relay("gel", 15.5), Kind::ChargeVoltage).contains(&Severity::Stop));
    // The loads get it too: 12 V equipment is built for up to 15 V.
    tell_apart(Kind::VoltageHigh, &relay("agm", 15.8), &relay("agm", 14.4));
    assert_eq!(design_of(&relay("agm", 13.9)).charger.output.get(), 13.9);
}

/// NMC: 3 x 4.20 V = 12.6 V at most; lithium iron phosphate 4 x 3.65 V = 14.6 V. Lead-acid within the
/// 0.5 V that a regulator may stray (US Army TM 5-3895-382-24, Table 33) gets a caution, beyond it a stop.
#[test]
fn the_starter_battery_gets_the_alternators_voltage() {
    let starter = |chemistry: &str, volts: f64| {
        format!("starter_battery.chemistry = \"{chemistry}\"\nvehicle.alternator_v = {volts}")
    };
    tell_apart(Kind::ChargeVoltage, &starter("lithium-nmc", 14.4), &starter("lithium-iron-phosphate", 14.4));
    tell_apart(Kind::ChargeVoltage, &starter("lithium-iron-phosphate", 14.8), &starter("flooded", 14.8));
    let found = |plan: &str| severities(plan, Kind::ChargeVoltage);
    assert_eq!(found(&starter("lithium-nmc", 14.4)), [Severity::Stop]);
    assert_eq!(found(&starter("flooded", 15.4)), [Severity::Caution]);
    assert_eq!(found(&starter("flooded", 15.6)), [Severity::Stop]);
    // Flooded is kept full by 13.5 V.
    tell_apart(Kind::ChargeVoltageLow, &starter("flooded", 13.2), &starter("flooded", 13.8));
    let variable = format!("vehicle.alternator = \"variable\"\n{}", starter("flooded", 13.2));
    assert_eq!(found_with(&variable, Kind::ChargeVoltageLow), []);
}

/// Lithium must not be charged below 0 °C; lead-acid takes less, no harm done.
#[test]
fn the_alternator_charges_a_cold_starter_battery() {
    let cold = |chemistry: &str, air: i32| {
        let service = "service_battery = { chemistry = \"agm\", capacity_ah = 100 }";
        format!("surroundings.coldest_c = {air}\n{service}\nstarter_battery.chemistry = \"{chemistry}\"")
    };
    tell_apart(Kind::ColdCharge, &cold("lithium-iron-phosphate", -18), &cold("agm", -18));
    tell_apart(Kind::ColdCharge, &cold("lithium-iron-phosphate", -18), &cold("lithium-iron-phosphate", 2));
    let found = found_with(&cold("lithium-iron-phosphate", -18), Kind::ColdCharge);
    assert!(found.iter().all(|f| f.severity == Severity::Stop && f.subject == Subject::StarterBattery), "{found:?}");
}

/// Of two measured cells of lithium iron phosphate one rests at 13.2 V for four when 50 % charged, the other at 70 %,
/// so 13.2 V may stop at 50 %; at 20 % both rest above 12.9 V, so 12.5 V put nothing back at the planned depth.
/// AGM wants 14.4 - 0.6 = 13.8 V.
#[test]
fn too_low_a_charge_voltage_does_not_fill() {
    let output = |volts: f64| format!("charger.output_v = {volts}");
    tell_apart(Kind::ChargeVoltageLow, &output(13.2), &output(13.6));
    let found = found_with(&output(13.2), Kind::ChargeVoltageLow);
    assert!(found[0].severity == Severity::Caution && found[0].text.contains("near 50 %"), "{found:?}");
    assert_eq!(severities(&output(12.5), Kind::ChargeVoltageLow), [Severity::Stop]);
    // Nor does it ever close the cut-off again.
    assert_eq!(severities(&output(12.5), Kind::ReconnectHigh), [Severity::Stop]);
    let agm = |volts: f64| format!("service_battery.chemistry = \"agm\"\n{}", output(volts));
    tell_apart(Kind::ChargeVoltageLow, &agm(13.6), &agm(13.9));
}

/// A fridge of 40 W x 0.4 x 24 h = 384 Wh takes 384 / 13.17 = 29.2 Ah, the cut-off 0.01 A x 24 h = 0.24 Ah.
/// 10 W x 0.7 x 3 h / 14.2 V = 1.48 Ah from the sun, 0.99 of it stored: 1.46 Ah; 27.9 Ah are missing.
/// They take 27.9 / 0.99 x 14.2 V / (0.7 x 3 h) = 191 W more, in tens 200 W.
#[test]
fn a_week_with_only_the_sun_is_balanced() {
    let sun = |watts: u32| format!("charger.kind = \"none\"\nsolar = {{ array_w = {watts}, sun_hours = 3 }}");
    tell_apart(Kind::ChargeShort, &sun(10), &sun(210));
    let balance = design_of(&sun(10)).charger.balance;
    assert!((balance.used.get() - 29.4).abs() < 0.1 && (balance.sun.get() - 1.464).abs() < 0.005, "{balance:?}");
    assert!((balance.missing.get() - 27.9).abs() < 0.15, "{balance:?}");
    let found = found_with(&sun(10), Kind::ChargeShort);
    assert!(found[0].remedies[0].words.starts_with("200 W more of solar array"), "{found:?}");
    // Without sun hours an array brings nothing, and more of it neither.
    let dark = found_with("charger.kind = \"none\"\nsolar = { array_w = 200, sun_hours = 0 }", Kind::ChargeShort);
    assert!(dark[0].remedies.iter().all(|r| r.edits.is_empty()), "{dark:?}");
}

/// 1 A x 2 h once a week stores 2 x 0.99 / 7 = 0.28 Ah a day; 20 A x 12 h on each of seven days more than enough.
#[test]
fn a_week_with_mains_or_a_mix_is_balanced() {
    let mains = |amps: u32, window: &str, days: &str| {
        format!("charger.kind = \"none\"\nmains = {{ current_a = {amps}, windows = [\"{window}\"], days = {days} }}")
    };
    let little = mains(1, "20:00-22:00", "[\"sat\"]");
    tell_apart(Kind::ChargeShort, &little, &mains(20, "08:00-20:00", "\"daily\""));
    assert!((design_of(&little).charger.balance.mains.get() - 0.283).abs() < 0.002);
    // A charger that never drives beside a small array.
    let parked = "vehicle.driving_days = []\nsolar = { array_w = 10, sun_hours = 3 }";
    tell_apart(Kind::ChargeShort, parked, "solar = { array_w = 10, sun_hours = 3 }");
    // One day of mains does not stand for a day's use when it is an hour of 1 A.
    let weekend = "vehicle.driving_days = [\"sat\"]\nmains = { current_a = 1, windows = [\"20:00-21:00\"], days = [\"sun\", \"mon\", \"tue\", \"wed\", \"thu\", \"fri\"] }";
    tell_apart(Kind::ChargeShort, weekend, "");
}

/// 230 W x 0.7 x 3 h / 14.4 V = 33.5 Ah; lead-acid stores 33.5 / 1.2 = 28.0 Ah. With the 13.3 Ah of driving
/// 41.3 Ah against 43.9 Ah. 30 W more make it 270 W: 39.4 / 1.2 = 32.8 Ah, enough.
/// Of the 600 Wh / 12.6 V + 0.015 A x 24 h = 47.9 Ah a day the sun brings 28.0 / 47.9 = 58 %.
#[test]
fn ampere_hours_of_sun_are_not_all_stored() {
    let plan = |watts: u32| {
        format!(
            "service_battery = {{ chemistry = \"agm\", capacity_ah = 300 }}\ncharger.current_a = 10\n\
             vehicle.driving = [\"08:00-10:00\"]\nsolar = {{ array_w = {watts}, sun_hours = 3 }}\n\
             load = [{{ name = \"fridge\", at = \"panel\", power_w = 60, duty = {{ hours_a_day = 10 }} }}]"
        )
    };
    tell_apart(Kind::ChargerSlow, &plan(230), &plan(270));
    let charger = design_of(&plan(230)).charger;
    assert!((charger.solar_stored.get() - 27.95).abs() < 0.05, "{}", charger.solar_stored);
    assert!((charger.a_day.get() - 13.3).abs() < 0.1 && (charger.bounds.put_back.get() - 43.9).abs() < 0.15);
    assert!((charger.solar_share.get() - 0.584).abs() < 0.005, "{}", charger.solar_share);
}

/// 45 A x 0.75 - 40 A = -6 A on the road, less at idle: the alternator allows nothing, and 10 A, the smallest
/// sold, miss each of its bounds by 10 A. What would help, in this order, each with its number.
#[test]
fn each_missed_bound_is_said() {
    let weak = "vehicle = { alternator_a = 45, own_draw_a = 40 }\ncharger.current_a = \"left out\"";
    tell_apart(Kind::ChargerNone, weak, "charger.current_a = \"left out\"");
    let found = found_with(weak, Kind::ChargerNone);
    for bound in ["alternator on the road", "alternator over the drive", "alternator at idle"] {
        let words = format!("10 A over the 0 A that {bound} allows");
        assert!(found[0].text.contains(&words), "{}: {words}", found[0].text);
    }
    let order = ["longer drives", "solar array", "less for each", "an alternator of"];
    let words: Vec<&str> = found[0].remedies.iter().map(|r| r.words.as_str()).collect();
    let places: Vec<_> = order.iter().map(|w| words.iter().position(|r| r.contains(w))).collect();
    assert!(places.iter().all(Option::is_some) && places.is_sorted(), "{words:?}");
    // With the alternator that it names the smallest charger stays within what is to spare.
    let Edit { place, value } = found[0].remedies[3].edits[0].clone();
    let named = format!("vehicle.own_draw_a = 40\nvehicle.alternator_a = {}", number(value.unwrap()));
    assert_eq!(place.key, "alternator_a");
    assert_eq!(found_with(&format!("{named}\ncharger.current_a = \"left out\""), Kind::ChargerNone), []);
}

fn number(value: loomwright::plan::Value) -> f64 {
    match value {
        loomwright::plan::Value::Number(n) => n,
        other => panic!("{other:?} is no number"),
    }
}

/// AGM of 20 Ah: 5 mΩ x 100 / 20 = 25 mΩ half full, x 0.95 at 35 °C (1.0 at 25 °C, 0.9 at 45 °C) = 23.75 mΩ.
/// 14.4 V - (12.30 V + 0.0012 V/K x 10 K) = 2.088 V drive 2.088 / 0.02375 = 88 A: for that the cables are sized.
/// With the feed at 18 °C it is less, but still many times 0.3 C x 20 Ah = 6 A.
/// 40 Ah would drive twice as much: there the alternator's rating of 150 A is the limit; 150 / 0.3 = 500 Ah bear it.
#[test]
fn a_relay_limits_nothing() {
    let plan = |capacity: u32| format!("{}\nservice_battery.capacity_ah = {capacity}", relay("agm", 14.4));
    let small = design_of(&plan(20));
    assert!((small.charger.rush.get() - 87.9).abs() < 0.3, "{}", small.charger.rush);
    let first = small.charger.input.get();
    assert!(first > 6.0 * 5.0 && first < 87.9, "{first}");
    // For hours no more than the 20 A given, the 6 A that the battery takes being less; the rush is a start of minutes,
    // which the feed and its fuses let pass.
    assert_eq!(small.charger.current.unwrap().get(), 20.0);
    assert!(small.runs[0].surge.get() >= 87.8 && small.runs[0].surge_lasts.get() >= 60.0, "{}", small.runs[0].surge);
    assert!(!severities(&plan(20), Kind::FuseSurge).contains(&Severity::Stop));
    assert_eq!(design_of(&plan(40)).charger.rush.get(), 150.0);
    tell_apart(Kind::ChargerFast, &plan(20), &plan(500));
    assert_eq!(severities(&plan(20), Kind::ChargerFast), [Severity::Stop]);
    // 88 A and less are to be had from 150 A x 0.75 - 30 A = 82.5 A hot; 100 Ah ask for more.
    tell_apart(Kind::AlternatorShort, &plan(100), &plan(20));
    // By the day it stores what battery and hot alternator bear: 6 A.
    assert_eq!(small.charger.steady.get(), 6.0);
}
