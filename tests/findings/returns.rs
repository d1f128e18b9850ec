//! The minus side: the bond to the body, the sensor on the starter's minus, the main switch.

use crate::case::{design_of, found_with, severities, tell_apart};
use loomwright::engine::{FindingKind as Kind, Polarity, Severity, cut_list};

/// The panel feed of 1.5 m with the body as way back, beside the runs that the sound plan has.
fn by_the_body(amps: f64) -> String {
    format!(
        r#"
load = [{{ name = "lamps", at = "panel", current_a = {amps} }}]
run = [
    {{ from = "starter battery", to = "charger", length_m = 2, insulation = "xlpe-125" }},
    {{ from = "service battery", to = "charger", length_m = 0.5 }},
    {{ from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" }},
    {{ from = "cut-off", to = "panel", length_m = 1.5, return = "chassis" }},
]
"#
    )
}

#[test]
fn a_bond_bears_a_fault_and_the_load() {
    tell_apart(Kind::BondThin, r#"bond = { size = "0.5 mm2" }"#, r#"bond = { size = "35 mm2" }"#);
    // 40 A by the body: 4 mm² carries 33.6 A at 40 °C and more at 35, never 40 A (33 CFR 183.425 table 5: 14 AWG 35, 12 AWG 45).
    let thin = format!("{}\nbond = {{ size = \"2.5 mm2\" }}", by_the_body(40.0));
    assert_eq!(severities(&thin, Kind::BondThin), [Severity::Stop]);
    // Thinner than the 16 mm² of the battery main, but thick enough for a fault.
    assert_eq!(severities(r#"bond = { size = "10 mm2" }"#, Kind::BondThin), [Severity::Caution]);
}

#[test]
fn a_bond_is_as_thick_as_the_largest_positive_and_carries_what_comes_back() {
    let design = design_of(&by_the_body(40.0));
    let largest = design.runs.iter().skip(1).filter_map(|r| r.size.as_ref()).map(|s| s.area.get()).fold(0.0, f64::max);
    assert!(design.bond.area.get() >= largest && design.bond.ampacity.get() >= 40.0, "{:?}", design.bond);
    assert!(design.bond.load.get() >= 40.0);
    // k² S² of the thinnest that is allowed, k = 115 at most for PVC (IEC 60364-4-43 table 43A).
    assert!(115.0 * 115.0 * design.bond.area.get().powi(2) >= design.bond.energy.get());
}

#[test]
fn a_sensor_on_the_minus_post_is_told_where_something_is_added() {
    tell_apart(Kind::MinusSensor, "vehicle = { minus_sensor = true }", "vehicle = { minus_sensor = false }");
    assert!(found_with("", Kind::MinusSensor).is_empty(), "a fixed alternator has none as a rule");
    // Beside the sensor it is good to know; on the post it is a stop, in the cut list too.
    let with = |post: bool| format!("vehicle = {{ minus_sensor = true, minus_on_post = {post} }}");
    assert_eq!(severities(&with(true), Kind::MinusSensor), [Severity::Stop]);
    assert_eq!(severities(&with(false), Kind::MinusSensor), [Severity::Note]);
    let ends = |post: bool| -> Vec<String> {
        let list = cut_list(&design_of(&with(post)));
        let minus = list.cuts.into_iter().filter(|c| c.run == Some(0) && c.polarity == Polarity::Negative);
        minus.flat_map(|c| [c.from, c.to]).filter(|end| end.contains("starter")).collect()
    };
    assert_eq!((ends(true), ends(false)), (vec!["starter battery".into()], vec!["body by the starter battery".into()]));
}

#[test]
fn a_main_switch_carries_what_flows_and_parts_nothing_that_charges() {
    tell_apart(
        Kind::MainSwitchSmall,
        "main_switch = { at = \"cut-off\", rating_a = 2 }",
        "main_switch = { at = \"cut-off\", rating_a = 200 }",
    );
    let switch = |at: &str| {
        format!("solar = {{ array_w = 100, at = \"charger\" }}\nmain_switch = {{ rating_a = 200, at = \"{at}\" }}")
    };
    tell_apart(Kind::MainSwitchParts, &switch("service battery"), &switch("cut-off"));
    // The feed, the charger's output and the battery main stay live; with no switch nobody is told.
    tell_apart(Kind::MainSwitchLive, "main_switch = { rating_a = 200, at = \"cut-off\" }", "");
    let live = found_with("main_switch = { rating_a = 200, at = \"cut-off\" }", Kind::MainSwitchLive);
    assert!(["R1", "R2", "R3"].iter().all(|run| live[0].text.contains(run)), "{live:#?}");
    assert!(!live[0].text.contains("R4") && live[0].text.contains("each behind a fuse"), "{live:#?}");
    let stop = "main_switch = { rating_a = 200, at = \"starter battery\" }";
    assert_eq!(severities(stop, Kind::MainSwitchParts), [Severity::Stop]);
}

/// On a fuel or brake line never; 200 mm from an exhaust (vehicle makers' body-builder manuals, from memory).
#[test]
fn what_a_run_passes_is_told() {
    let lead = |passes: &str| {
        format!(
            "load = [{{ name = \"lamp\", at = \"panel\", power_w = 8, lead_m = 3, lead_passes = [\"edge\"{passes}] }}]"
        )
    };
    tell_apart(Kind::RunPasses, &lead(", \"exhaust\""), &lead(""));
    for (word, severity) in [
        ("fuel-line", Severity::Stop),
        ("brake-line", Severity::Stop),
        ("exhaust", Severity::Caution),
        ("hinge", Severity::Note),
        ("tyre", Severity::Note),
    ] {
        assert_eq!(severities(&lead(&format!(", \"{word}\"")), Kind::RunPasses), [severity], "{word}");
    }
}

/// 16 mm² and 30 A at the plug of a trailer's lamps: contacts 10 and 11 take 2.5 mm² and 20 A (ISO 11446).
#[test]
fn a_plug_takes_what_its_contacts_take() {
    let with = |kind: &str, at: &str, relay: &str| {
        format!(
            r#"
charger.kind = "{relay}"
plug = [{{ name = "{at}", kind = "{kind}" }}]
run = [
    {{ from = "starter battery", to = "hitch", length_m = 4, insulation = "xlpe-125", size = "16 mm2" }},
    {{ from = "hitch", to = "charger", length_m = 2, size = "16 mm2" }},
    {{ from = "service battery", to = "charger", length_m = 0.5 }},
    {{ from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" }},
    {{ from = "cut-off", to = "panel", length_m = 1.5 }},
]
"#
        )
    };
    tell_apart(Kind::PlugSmall, &with("iso-11446", "hitch", "dc-dc"), &with("heavy", "hitch", "dc-dc"));
    tell_apart(Kind::PlugLoose, &with("heavy", "hitsch", "dc-dc"), &with("heavy", "hitch", "dc-dc"));
    tell_apart(Kind::PlugLive, &with("heavy", "hitch", "relay"), &with("heavy", "hitch", "dc-dc"));
}

/// 30 A and 100 A through the body: common practice, no source.
#[test]
fn much_current_through_the_body_is_told() {
    tell_apart(Kind::ChassisReturn, &by_the_body(50.0), &by_the_body(10.0));
    let with = |amps: f64, vehicle: &str| {
        severities(&format!("{}\nvehicle = {{ {vehicle} }}", by_the_body(amps)), Kind::ChassisReturn)
    };
    assert_eq!(with(120.0, ""), [Severity::Stop]);
    assert_eq!(with(120.0, "chassis_measured = true, chassis_a = 300"), [Severity::Caution]);
    assert_eq!(with(40.0, "chassis_measured = true, chassis_a = 30"), [Severity::Stop]);
    assert_eq!(with(40.0, ""), [Severity::Caution]);
}

/// A winch of 200 A that pulls for a minute and rests for ten heats like 200 / √11 = 60 A: a switch of 100 A whose maker
/// gives 300 A for a short time carries it, and so do straps of 100 A; on for five minutes it counts as lasting.
#[test]
fn a_load_that_comes_and_goes_counts_by_its_heat_where_a_rating_is_for_ever() {
    let winch = |on: u32, more: &str| {
        format!(
            r#"
load = [{{ name = "winch", at = "panel", current_a = 200, on_s = {on}, off_s = 600, duty = {{ hours_a_day = 0.05 }} }}]
{more}"#
        )
    };
    let switch = |short: &str| format!("main_switch = {{ at = \"cut-off\", rating_a = 100{short} }}");
    let small = |on, short| severities(&winch(on, &switch(short)), Kind::MainSwitchSmall);
    assert_eq!(small(60, ", short_time_a = 300"), []);
    assert_eq!(small(60, ""), [Severity::Stop]);
    assert_eq!(small(300, ", short_time_a = 300"), [Severity::Stop]);
    assert_eq!(small(60, ", short_time_a = 150"), [Severity::Stop]);
    let body = |on: u32| {
        let by = r#"
vehicle = { chassis_measured = true, chassis_a = 100 }
run = [
    { from = "service battery", to = "cut-off", length_m = 0.5 },
    { from = "cut-off", to = "panel", length_m = 1, return = "chassis" },
]"#;
        severities(&winch(on, by), Kind::ChassisReturn)
    };
    assert_eq!(body(60), [Severity::Caution]);
    assert_eq!(body(300), [Severity::Stop]);
}
