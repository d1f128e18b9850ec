//! What a lithium battery permits, locks and needs to be woken.

use crate::case::{Case, design_of, found_with, run, severities};
use loomwright::engine::{FindingKind as Kind, Severity};

#[test]
fn permissions_and_waking() {
    run(&[
        Case {
            kind: Kind::ProtectionOpens,
            raises: "service_battery.permits = \"charge\"",
            quiet: "service_battery = { permits = \"charge\", permit_stops = \"charger\" }",
        },
        // The sun is told, the charger is not.
        Case {
            kind: Kind::ProtectionOpens,
            raises: "service_battery = { permits = \"charge, discharge\", permit_stops = \"solar\" }\nsolar.array_w = 100",
            quiet: "service_battery = { permits = \"charge\", permit_stops = \"charger, solar\" }\nsolar.array_w = 100",
        },
        Case {
            kind: Kind::ProtectionOpens,
            raises: "starter_battery.chemistry = \"lithium-iron-phosphate\"",
            quiet: "starter_battery.chemistry = \"flooded\"",
        },
        Case {
            kind: Kind::WakeUp,
            raises: "service_battery.woken_by = \"mains\"",
            quiet: "service_battery.woken_by = \"mains, charger\"",
        },
        Case {
            kind: Kind::WakeUp,
            raises: "service_battery.woken_by = \"solar\"\nsolar = { array_w = 100, at = \"panel\" }",
            quiet: "service_battery.woken_by = \"solar\"\nsolar = { array_w = 100, at = \"service battery\" }",
        },
    ]);
    assert_eq!(found_with("service_battery.woken_by = \"button\"", Kind::WakeUp), []);
}

/// An alternator that may lose its battery is a stop (load dump), a controller that may a caution.
#[test]
fn an_alternator_straight_on_a_battery_that_may_open_is_a_stop() {
    let starter = "starter_battery.chemistry = \"lithium-iron-phosphate\"";
    assert_eq!(severities(starter, Kind::ProtectionOpens), [Severity::Stop]);
    assert_eq!(severities("service_battery.permits = \"charge\"", Kind::ProtectionOpens), [Severity::Caution]);
    // Where its maker allows it there is nothing to say; that it is not said is no leave.
    assert_eq!(severities(&format!("{starter}\nstarter_battery.takes_alternator = true"), Kind::ProtectionOpens), []);
    assert_eq!(
        severities(&format!("{starter}\nstarter_battery.takes_alternator = false"), Kind::ProtectionOpens),
        [Severity::Stop]
    );
    let none = format!("{starter}\nvehicle.alternator_a = 0\ncharger.kind = \"none\"");
    assert_eq!(severities(&none, Kind::ProtectionOpens), []);
}

/// Its own lock keeps charge out in the cold: no harm, and nothing charged; a lock that comes too late is no guard.
#[test]
fn a_charge_lock_is_no_harm_but_no_charge_either() {
    let cold = "surroundings = { coldest_c = -10, mean_c = 5, hottest_c = 25 }";
    let grade = |lock: &str| severities(&format!("{cold}\n{lock}"), Kind::ColdCharge);
    assert_eq!(grade(""), [Severity::Stop]);
    assert_eq!(grade("service_battery.locks_below_c = 0"), [Severity::Caution]);
    assert_eq!(grade("service_battery.locks_below_c = 5"), [Severity::Caution]);
    assert_eq!(grade("service_battery.locks_below_c = -10"), [Severity::Stop]);
    assert_eq!(grade("service_battery = { locks_below_c = 0, heated = true }"), []);
    // The trials of the coldest week charge less by a lock at 5 °C than by the cells' own 0 °C.
    let lowest = |lock: f64| {
        let design = design_of(&format!("{cold}\nservice_battery.locks_below_c = {lock}"));
        design.promise.usual.iter().map(|t| t.lowest.get()).fold(1.0, f64::min)
    };
    assert!(lowest(8.0) <= lowest(0.0), "{} and {}", lowest(8.0), lowest(0.0));
}

/// What the plan says of its protection counts before what is usual of its kind.
#[test]
fn its_own_low_cut_is_the_plans() {
    let acts = |plan: &str| {
        let design = design_of(plan);
        let order = &design.cut_off.order;
        order.iter().find(|a| a.what.words() == "battery's own protection").map(|a| a.at.get())
    };
    assert_eq!(acts(""), Some(10.0));
    assert_eq!(acts("service_battery.own_cut_v = 11.2"), Some(11.2));
    assert_eq!(acts("service_battery.chemistry = \"agm\""), None);
    // A cut-off under it acts too late.
    assert_ne!(found_with("service_battery.own_cut_v = 11.2\ncut_off.cut_v = 11.0", Kind::CutOffLow), []);
}

/// A pad is counted on a usual day too, and a bank that would keep itself warm for so long is never offered as one
/// that a pad does not grow with: worked on paper, 0.61 W for each kelvin and 100 Ah in 20 K of cold are 0.96 Ah an
/// hour for each 100 Ah, so that in three days 69 of every 100 Ah are gone.
#[test]
fn a_pad_is_counted_and_grows_with_its_bank() {
    let cold = "surroundings = { coldest_c = -20, mean_c = 0, hottest_c = 25, yearly_swing_k = 20, daily_swing_k = 5 }";
    let with = |heated: bool| {
        let battery = format!("service_battery = {{ heated = {heated}, capacity_ah = 100, days_without_charge = 3 }}");
        design_of(&format!("{cold}\n{battery}"))
    };
    let (bare, warm) = (with(false), with(true));
    // At 0 °C all year round it is held 5 K warmer: 0.6125 x 5 = 3.06 W, 73.5 Wh a day over some 13 V.
    let more = (warm.budget.charge - bare.budget.charge).get();
    assert!((more - 73.5 / 13.1).abs() < 0.3, "{more} Ah more");
    let broken = warm.findings.iter().find(|f| f.kind == Kind::PromiseBroken).unwrap();
    let said: Vec<&str> = broken.remedies.iter().map(|r| r.words.as_str()).filter(|w| w.starts_with("about")).collect();
    assert_eq!(said, Vec::<&str>::new(), "no bank lasts its own pad so long");
}
