//! A vehicle of 24 V: two batteries in series start it, a 24 to 12 V charger fills the service battery.

use crate::case::{Case, FRONT, design_of, run, severities};
use loomwright::engine::{FindingKind as Kind, Severity};
use loomwright::quantity::*;

const TRUCK: &str = "vehicle = { system = \"24-v\", alternator_v = 28.2 }\n";

/// A radio on the starter side, and what is said of it.
fn radio(more: &str) -> String {
    format!(
        r#"
        load = [
            {{ name = "radio", at = "front", power_w = 24 {more} }},
            {{ name = "fridge", at = "panel", power_w = 40, duty = {{ share_on = 0.4 }} }},
        ]
        {FRONT}"#
    )
}

#[test]
fn what_24_v_does_to_12_v() {
    run(&[
        Case {
            kind: Kind::RelayMisfit,
            raises: "vehicle = { system = \"24-v\" }\nservice_battery.chemistry = \"agm\"\ncharger = { kind = \"relay\" }",
            quiet: "vehicle = { system = \"12-v\" }\nservice_battery.chemistry = \"agm\"\ncharger = { kind = \"relay\" }",
        },
        // 28 V from an alternator of a 12 V vehicle boils its battery.
        Case {
            kind: Kind::ChargeVoltage,
            raises: "vehicle = { alternator_v = 28.2 }",
            quiet: "vehicle = { system = \"24-v\", alternator_v = 28.2 }",
        },
    ]);
    assert_eq!(severities(&format!("{TRUCK}{}", radio("")), Kind::VoltageHigh), [Severity::Stop]);
    assert_eq!(severities(&format!("{TRUCK}{}", radio(", highest_v = 32")), Kind::VoltageHigh), []);
}

/// What is sound at 12 V is sound at 24 V. The same charger takes half the current from twice the voltage, so its feed
/// carries half, and what is left at 12 V usual in the plan is that of one battery of the pair.
#[test]
fn the_feed_of_24_v_carries_half() {
    let (car, truck) = (design_of(""), design_of(TRUCK));
    let stops: Vec<_> = truck.findings.iter().filter(|f| f.severity == Severity::Stop).collect();
    assert!(stops.is_empty(), "{stops:?}");
    let halves = truck.charger.input / car.charger.input;
    assert!((0.45..0.55).contains(&halves), "{} and {}", truck.charger.input, car.charger.input);
    let usual = design_of("vehicle = { system = \"24-v\" }");
    assert_eq!(usual.installation.vehicle.alternator_voltage, Volts::new(28.8));
    assert!(usual.charger.lowest_input > Volts::new(16.0), "{}", usual.charger.lowest_input);
    // The row of the pair is none to choose from.
    assert_eq!(usual.battery.candidates.len(), car.battery.candidates.len());
}

/// A class is a share of the system's own voltage: 3 % of 24 V are 0.72 V (ABYC E-11 and ISO 10133:2012 clause 4 give the
/// loss as a share of the nominal voltage; from memory). Drop and share are worked out by Ohm's law from current and loop.
#[test]
fn the_feed_of_24_v_may_lose_a_share_of_24_v() {
    let feed = |vehicle: &str, metres: f64| {
        let design = design_of(&format!(
            r#"{vehicle}
            rules = {{ drop_critical = 0.03 }}
            charger = {{ drop = "critical" }}
            run = [
                {{ from = "starter battery", to = "charger", length_m = {metres} }},
                {{ from = "charger", to = "service battery", length_m = 1 }},
                {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
                {{ from = "cut-off", to = "panel", length_m = 2 }},
            ]
            load = [{{ name = "fridge", at = "panel", power_w = 40, duty = {{ share_on = 0.4 }} }}]"#
        ));
        let run = &design.runs[0];
        let size = run.size.clone().unwrap();
        assert!((size.drop.get() - run.current.get() * size.resistance.get()).abs() < 1e-9);
        (run.drop_allowed, size)
    };
    for metres in [2.0, 6.0, 12.0] {
        let (car, truck) = (feed("", metres), feed(TRUCK, metres));
        assert!((car.0.get() - 0.36).abs() < 1e-9, "{}", car.0);
        assert!((truck.0.get() - 0.72).abs() < 1e-9, "{}", truck.0);
        assert!((car.1.drop_share.get() - car.1.drop.get() / 12.0).abs() < 1e-12);
        assert!((truck.1.drop_share.get() - truck.1.drop.get() / 24.0).abs() < 1e-12);
        // Half the current and twice the loss allowed: never more copper, and on a long way less.
        assert!(truck.1.area <= car.1.area, "{metres} m: {} and {}", truck.1.label, car.1.label);
        assert!(metres < 12.0 || truck.1.area < car.1.area, "{}", truck.1.label);
    }
}

/// Worked on paper: 24 W and 1 A agree at 24 V and contradict each other at 12 V.
#[test]
fn power_and_current_agree_at_the_voltage_of_their_side() {
    let said = |plan: &str| severities(&format!("{plan}{}", radio(", current_a = 1")), Kind::LoadContradicts).len();
    assert_eq!((said(TRUCK), said("")), (0, 1));
}

/// Worked on paper: 24 W are 1 A at 24 V, so that a day takes 24 Ah from the pair, where it is on all day.
#[test]
fn a_load_of_the_starter_side_takes_its_amperes_at_24_v() {
    let running = |plan: &str| design_of(&format!("{plan}{}", radio(""))).installation.loads[0].running();
    assert!((running(TRUCK).get() - 1.0).abs() < 1e-9, "{}", running(TRUCK));
    assert!((running("").get() - 2.0).abs() < 1e-9, "{}", running(""));
}
