//! Battery sizing, rate, temperature and days against handbooks and published examples.
//!
//! Each check names its publication. Where one is remembered and not opened it
//! says `from memory`; each such check stands beside others that are not.

use crate::catalogue::shipped;
use crate::check::check;
use loomwright::engine::{
    calendar_life, capacity_for_rate, capacity_needed, cold_factor, cycle_life, delivered, depth_reached,
    gravity_at_80f, ideal_time, one_way, peukert_exponent, peukert_time, peukert_time_one_amp, put_back, years_of,
};
use loomwright::quantity::*;

const ARMY_RATINGS: &str = "US Army Ordnance subcourse OS 010, para 14, p. 3-P27";
const LESSONS: &str = "Lessons in Electric Circuits, Vol. I DC, \"Battery ratings\"";
const ARMY_CHARGING: &str = "US Army TM 5-4210-230-14&P-1, \"Charging\"";
const NAVY: &str = "US Navy NAVEDTRA 14344, lead-acid batteries, capacity test";
const SHEET: &str = "maker's data sheet, name withheld: 6 V 225 Ah flooded deep-cycle block, 25 °C";
const PEUKERT_NOTE: &str = "electrotechnik.net, \"Peukert's law and discharge of lead acid batteries\"";
const IEEE_485: &str = "IEEE Std 485 Table 1 (read in a quotation)";
const ARMY_COLD: &str = "US Army TM 10-6140-200-14, paras 1-9 and 1-10";
const ARMY_FREEZING: &str = "US Army TM 5-4210-230-14&P-1, Table 2";
const ARMY_GRAVITY: &str = "US Army TM 5-3820-256-24-4, hydrometer correction";
const SOLAR_WIKI: &str = "Open Source Solar Project, Energy storage sizing and selection";
const ENERGY_CODE: &str = "California Energy Code 2022, Equation 9-3";

fn ah(value: f64) -> AmpHours {
    AmpHours::new(value)
}

fn amps(value: f64) -> Amps {
    Amps::new(value)
}

fn hours(value: f64) -> Hours {
    Hours::new(value)
}

#[test]
fn capacity_current_and_time() {
    check(ARMY_RATINGS, "5 A for 20 h, Ah", 100.0, (amps(5.0) * hours(20.0)).get(), 0.0);
    check(ARMY_RATINGS, "1.75 V per cell, six cells, V", 10.5, 6.0 * 1.75, 0.0);
    check(LESSONS, "70 Ah at 3.5 A, h", 20.0, ideal_time(ah(70.0), amps(3.5)).unwrap().get(), 1e-9);
    check(LESSONS, "70 Ah at 70 A, h", 1.0, ideal_time(ah(70.0), amps(70.0)).unwrap().get(), 1e-9);
    check(LESSONS, "70 Ah at 1 mA, h", 70_000.0, ideal_time(ah(70.0), amps(0.001)).unwrap().get(), 1e-6);
    check(LESSONS, "70 Ah charged at 7 A, h", 10.0, ideal_time(ah(70.0), amps(7.0)).unwrap().get(), 1e-9);
    check(ARMY_CHARGING, "5 A for 10 h, Ah", 50.0, (amps(5.0) * hours(10.0)).get(), 0.0);
    check(NAVY, "10-hour rate of 100 Ah, A", 10.0, (ah(100.0) / hours(10.0)).get(), 1e-12);
    check(NAVY, "three cells at the end, V per cell", 1.75, 5.25 / 3.0, 1e-12);
    assert_eq!(ideal_time(ah(70.0), Amps::ZERO), None);
}

/// The handbooks warn that a faster discharge gives less than the ideal; any exponent over 1 must agree.
#[test]
fn faster_discharges_give_less() {
    for exponent in [1.05, 1.1, 1.2, 1.3] {
        let time = peukert_time(ah(100.0), hours(20.0), exponent, amps(10.0)).unwrap();
        assert!(time.get() < 10.0 && (amps(10.0) * time).get() < 100.0, "{ARMY_RATINGS}: {time} at k = {exponent}");
        let time = peukert_time(ah(70.0), hours(20.0), exponent, amps(70.0)).unwrap();
        assert!(time.get() < 1.0, "{LESSONS}: {time} at k = {exponent}");
    }
    let time = peukert_time(ah(70.0), hours(20.0), 1.2, amps(70.0)).unwrap();
    check("arithmetic, 20 x (70/1400)^1.2", "70 Ah at 70 A, k = 1.2, h", 0.549, time.get(), 0.001);
}

#[test]
fn charge_put_back_is_more_than_was_taken() {
    // 1.10 to 1.20 is from memory; the rule that it is more than 1 is the manual's.
    let (low, high) = (put_back(ah(70.0), 1.1), put_back(ah(70.0), 1.2));
    check(ARMY_CHARGING, "hours at 7 A, low", 11.0, (low / amps(7.0)).get(), 1e-9);
    check(ARMY_CHARGING, "hours at 7 A, high", 12.0, (high / amps(7.0)).get(), 1e-9);
}

#[test]
fn peukert_from_a_rated_pair() {
    let time = |i: f64| peukert_time(ah(100.0), hours(20.0), 1.2, amps(i)).unwrap();
    let source = "arithmetic from C = 100 Ah at 20 h, k = 1.2";
    for (current, expected) in [(10.0, 8.706), (20.0, 3.789), (5.0, 20.0)] {
        check(source, &format!("hours at {current} A"), expected, time(current).get(), 0.01);
    }
    check(source, "Ah at 10 A", 87.06, delivered(ah(100.0), hours(20.0), 1.2, amps(10.0)).get(), 0.01);
    check(source, "Ah at 20 A", 75.79, delivered(ah(100.0), hours(20.0), 1.2, amps(20.0)).get(), 0.01);
    // At slower rates than the rated one no more is promised than the rating.
    assert_eq!(delivered(ah(100.0), hours(20.0), 1.2, amps(1.0)), ah(100.0));
}

/// The old form with the capacity at 1 A, and the rated pair, must not be mixed.
#[test]
fn peukert_in_two_forms() {
    let old = peukert_time_one_amp(ah(100.0), 1.2, amps(5.0)).unwrap();
    check(PEUKERT_NOTE, "100 Ah at 1 A, discharged at 5 A, h", 14.5, old.get(), 0.05);
    let rated = peukert_time(ah(100.0), hours(20.0), 1.2, amps(5.0)).unwrap();
    check(ARMY_RATINGS, "100 Ah at 20 h, discharged at 5 A, h", 20.0, rated.get(), 1e-9);
}

#[test]
fn exponents_from_two_discharges() {
    let pair = |h1: f64, a1: f64, h2: f64, a2: f64| {
        peukert_exponent((amps(a1 / h1), hours(h1)), (amps(a2 / h2), hours(h2))).unwrap()
    };
    for (h1, a1, h2, a2, expected) in [
        (10.0, 207.0, 5.0, 185.0, 1.194),
        (20.0, 225.0, 10.0, 207.0, 1.137),
        (20.0, 225.0, 5.0, 185.0, 1.164),
        (100.0, 250.0, 20.0, 225.0, 1.070),
    ] {
        check(SHEET, &format!("exponent {h1} to {h2} h"), expected, pair(h1, a1, h2, a2), 0.001);
    }
    // From memory: Larminie and Lowry, Electric Vehicle Technology Explained, 42 Ah at 10 h and 33.6 A for 1 h.
    check("Larminie and Lowry (from memory)", "exponent", 1.107, pair(10.0, 42.0, 1.0, 33.6), 0.001);
    // From memory: MIL-PRF-32143, 120 Ah at 20 h and 25 A for 200 min.
    let reserve = pair(20.0, 120.0, 200.0 / 60.0, 25.0 * 200.0 / 60.0);
    check("MIL-PRF-32143 (from memory)", "exponent", 1.256, reserve, 0.005);
    assert_eq!(peukert_exponent((amps(1.0), hours(2.0)), (amps(1.0), hours(2.0))), None);
}

/// One exponent fits only near where it was fitted: 2 % inside, and 15 % too much at 100 h.
#[test]
fn one_exponent_against_a_published_sheet() {
    let rated = (ah(225.0), hours(20.0));
    let at = |i: f64| (amps(i) * peukert_time(rated.0, rated.1, 1.164, amps(i)).unwrap()).get();
    check(SHEET, "Ah at 20.7 A", 207.0, at(20.7), 0.02 * 207.0);
    check(SHEET, "Ah at 37 A", 185.0, at(37.0), 0.02 * 185.0);
    assert!(at(2.5) > 1.1 * 250.0, "the law fails at slow rates: {} Ah", at(2.5));
    // What sizing uses never promises it.
    assert!(delivered(rated.0, rated.1, 1.164, amps(2.5)).get() <= 250.0, "{SHEET}");
}

/// PyBaMM 26.10.1.1, Sulzer2019 "Full": 21.75, 21.28, 20.60, 17.48 Ah at 0.85, 1.7, 3.4, 17 A.
#[test]
fn one_exponent_against_a_physical_model() {
    // Its true 20-hour capacity is 21.6 Ah (1.08 A, interpolated).
    let (rated, time) = (ah(21.6), hours(20.0));
    for (current, expected) in [(0.85, 21.75), (1.7, 21.28), (3.4, 20.60), (17.0, 17.48)] {
        let got = delivered(rated, time, 1.075, amps(current)).get();
        check("PyBaMM 26.10.1.1, Sulzer2019", &format!("Ah at {current} A"), expected, got, 0.04 * expected);
    }
}

/// PyBaMM 26.10.1.1, Prada2013: C/5 and 1C deliver 0.9755 and 0.8488 of C/20; the exponent fitted to
/// the three is 1.056. The curve bends, so no straight line in the logarithms comes nearer than 3.3 %
/// at C/5, which is why the tolerance is 3.5 % and not 3 %, and why endurance uses the kinetic model.
#[test]
fn one_exponent_against_a_lithium_model() {
    let rows = [(0.05, 1.0), (0.2, 0.9755), (1.0, 0.8488)];
    let logs = rows.map(|(rate, share): (f64, f64)| (rate.ln(), share.ln()));
    let (x, y) = (logs.iter().map(|l| l.0).sum::<f64>() / 3.0, logs.iter().map(|l| l.1).sum::<f64>() / 3.0);
    // Share at 1 C on the fitted line: the rated pair is one hour at that.
    let at_1c = (y + 0.056 * x).exp();
    for (rate, share) in rows {
        let time = peukert_time(ah(at_1c), hours(1.0), 1.056, amps(rate * at_1c)).unwrap();
        let got = (amps(rate * at_1c) * time).get();
        check("PyBaMM 26.10.1.1, Prada2013", &format!("share at {rate} C"), share, got, 0.035 * share);
    }
}

#[test]
fn capacity_in_the_cold() {
    let catalogue = shipped();
    let agm = catalogue.chemistry("agm").unwrap();
    let factor = |f: f64| 1.0 / cold_factor(agm, Celsius::new((f - 32.0) / 1.8)).get();
    check(IEEE_485, "factor at 50 °F", 1.19, factor(50.0), 0.005);
    check(IEEE_485, "100 Ah at 50 °F", 119.0, 100.0 * factor(50.0), 0.5);
    // Margin and ageing from memory; the product does not mind the order.
    let sized = capacity_needed(ah(100.0), Days::new(1.0), Share::FULL, Share::new(1.0 / 1.19), Share::new(0.8), 1.1);
    check(IEEE_485, "100 Ah x 1.19 x 1.10 x 1.25", 163.6, sized.get(), 0.5);
    // 63 °F lies between 1.110 at 60 and 1.080 at 65; the profile keeps shares, whose straight line differs by less.
    check(IEEE_485, "factor at 63 °F", 1.092, factor(63.0), 0.003);
    for (fahrenheit, expected) in [(32.0, 0.75), (0.0, 0.40)] {
        let got = 1.0 / factor(fahrenheit);
        check(ARMY_COLD, &format!("share at {fahrenheit} °F, \"about\""), expected, got, 0.05);
    }
    assert!(cold_factor(agm, Celsius::new(40.0)) <= Share::FULL, "no gain is taken in the warm");
}

#[test]
fn freezing_and_gravity() {
    let catalogue = shipped();
    let freezing = catalogue.chemistry("flooded").unwrap().cold.freezing.as_ref().unwrap();
    for (percent, expected) in [(100.0, -59.5), (50.0, -26.1), (0.0, -9.4)] {
        let got = freezing.at(Share::percent(percent)).unwrap().get();
        check(ARMY_FREEZING, &format!("freezing at {percent} %, °C"), expected, got, 1.0);
    }
    let at_20f = Celsius::new((20.0 - 32.0) / 1.8);
    check(ARMY_GRAVITY, "1.250 at 20 °F", 1.226, gravity_at_80f(1.250, at_20f), 1e-9);
}

#[test]
fn days_without_charge() {
    for (days, expected) in [(2.0, 410.0), (3.0, 615.0)] {
        let got = capacity_needed(ah(205.0), Days::new(days), Share::FULL, Share::FULL, Share::FULL, 1.0);
        check(SOLAR_WIKI, &format!("{days} days of 205 Ah"), expected, got.get(), 1e-9);
    }
    // 45 Ah a day, two days, half depth, 10 °C, replaced at 80 %: 45 x 2 / 0.5 x 1.19 x 1.25.
    let cold = Share::new(1.0 / 1.19);
    let sized = capacity_needed(ah(45.0), Days::new(2.0), Share::new(0.5), cold, Share::new(0.8), 1.0);
    check(IEEE_485, "sizing chain", 267.8, sized.get(), 0.5);
    let back = depth_reached(ah(45.0), Days::new(2.0), sized, cold, Share::new(0.8));
    check(IEEE_485, "depth reached with that, the chain turned round", 0.5, back.get(), 1e-9);
    check(ENERGY_CODE, "one way of 0.81", 0.9, one_way(Share::new(0.81)).get(), 1e-9);
    check(ENERGY_CODE, "drawn to deliver 90 Wh", 100.0, 90.0 / one_way(Share::new(0.81)).get(), 1e-9);
}

/// The capacity for a rate delivers what was asked when Peukert's law is put on it again.
#[test]
fn capacity_for_a_rate_is_the_law_turned_round() {
    for (needed, current) in [(50.0, 10.0), (50.0, 60.0), (120.0, 6.1)] {
        let sized = capacity_for_rate(ah(needed), hours(20.0), 1.2, amps(current));
        let got = delivered(sized, hours(20.0), 1.2, amps(current));
        assert!(got.get() >= needed - 1e-9, "{needed} Ah at {current} A: {got} of {sized}");
        assert!(sized.get() >= needed);
    }
    // At the rated rate or slower nothing is added.
    assert_eq!(capacity_for_rate(ah(100.0), hours(20.0), 1.2, amps(2.0)), ah(100.0));
}

#[test]
fn years_add_up_as_wear() {
    let catalogue = shipped();
    let agm = catalogue.chemistry("agm").unwrap();
    let both = years_of(Years::new(6.0), Years::new(6.0));
    check("1/6 + 1/6 = 1/3", "years", 3.0, both.get(), 1e-12);
    assert!(cycle_life(agm, Share::new(0.5), 0.0).is_finite());
    assert!(calendar_life(agm, Celsius::new(35.0)) < calendar_life(agm, Celsius::new(25.0)));
    assert_eq!(calendar_life(agm, Celsius::new(5.0)), calendar_life(agm, Celsius::new(25.0)));
}
