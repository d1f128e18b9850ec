//! Runs, what loads get, labels, places.

use crate::case::{Case, design_of, plan_of, run, tell_apart, text_with};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, Finding, FindingKind as Kind, Severity, Subject, design};
use loomwright::plan::read;
use loomwright::quantity::Seconds;

/// The sound plan's runs, the last one with more keys.
fn with_last(keys: &str) -> String {
    format!(
        r#"run = [
            {{ from = "starter battery", to = "charger", length_m = 2, insulation = "xlpe-125" }},
            {{ from = "service battery", to = "charger", length_m = 0.5 }},
            {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
            {{ from = "cut-off", to = "panel", {keys} }},
        ]"#
    )
}

#[track_caller]
fn check(kind: Kind, raises: &[&str], quiet: &[&str]) {
    let text = |parts: &[&str]| {
        let parts: Vec<String> =
            parts.iter().map(|p| if p.starts_with("length_m") { with_last(p) } else { (*p).to_string() }).collect();
        &*Box::leak(parts.join("\n").into_boxed_str())
    };
    run(&[Case { kind, raises: text(raises), quiet: text(quiet) }]);
}

const HEATER: &str =
    r#"load = [{ name = "heater", at = "panel", power_w = 300, kind = "resistance", drop = "tolerant" }]"#;

#[test]
fn drop_on_the_way() {
    check(Kind::DropHigh, &[r#"length_m = 6, size = "1 mm2""#], &[r#"length_m = 1, size = "6 mm2""#]);
    check(Kind::SizeNone, &[HEATER, "length_m = 500"], &[HEATER, "length_m = 5"]);
}

#[test]
fn more_than_any_cable_carries() {
    let monster = r#"load = [{ name = "melter", at = "panel", power_w = 12000 }]"#;
    check(Kind::SizeNone, &[monster], &[HEATER]);
}

#[test]
fn voltage_at_the_load() {
    let needs =
        |volts: &str| format!(r#"load = [{{ name = "radio", at = "panel", power_w = 40, lowest_v = {volts} }}]"#);
    check(Kind::VoltageLow, &[&needs("13.5")], &[&needs("10.5")]);
    check(
        Kind::VoltageHigh,
        &[r#"service_battery.chemistry = "flooded""#, "charger.output_v = 15.4"],
        &["charger.output_v = 14.4"],
    );
    let pull = r#"load = [{ name = "inverter drive", at = "panel", power_w = 600 }]"#;
    check(Kind::Collapse, &[pull, r#"length_m = 60, size = "1.5 mm2""#], &[pull, r#"length_m = 1, size = "70 mm2""#]);
}

/// A load of 1500 W, with more keys, and its run of 1 m with more.
fn lift(load: &str, run: &str) -> String {
    format!(
        r#"
        load = [{{ name = "lift", at = "lift", power_w = 1500, drop = "tolerant"{load} }}]
        service_battery.capacity_ah = 200
        charger.kind = "none"
        run = [
            {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
            {{ from = "cut-off", to = "lift", length_m = 1{run} }},
        ]"#
    )
}

/// What comes and goes is sized by its heating: thinner than for ever, its peak within the insulation's limit, and
/// its device lets it pass. If it stays on somebody must end it, unless a device does.
#[test]
fn a_load_that_comes_and_goes() {
    let (minute, thin) = (", on_s = 60, off_s = 600", ", size = \"16 mm2\"");
    // 16 mm² carry less than the 130 A for ever (33 CFR 183.425: 6 AWG, 13.3 mm², 120 A at 105 °C; 4 AWG 160 A).
    tell_apart(Kind::RunsOn, &lift(minute, thin), &lift(minute, ", size = \"95 mm2\""));
    tell_apart(Kind::AmpacityLow, &lift("", thin), &lift(minute, thin));
    let (short, long) = (design_of(&lift(minute, thin)), design_of(&lift("", "")));
    let (run, size) = (&short.runs[1], short.runs[1].size.as_ref().unwrap());
    let pulse = run.short_time.pulse.unwrap();
    assert!(size.for_ever() < run.current && size.ampacity >= run.current);
    assert!(pulse.trough < pulse.peak && pulse.peak.get() <= 105.0 && pulse.runs_on.unwrap() > Seconds::new(60.0));
    // Below its rating no link of ISO 8820 opens.
    assert!(run.current <= run.fuses[0].rating.unwrap());
    let copper = |keys: &str| design_of(&lift(keys, "")).copper.mass;
    assert!(copper(minute) < long.copper.mass);
    assert!(copper(minute) <= copper(", on_s = 600, off_s = 60"));
    // One of both times alone says nothing.
    assert_eq!(copper(", on_s = 60"), long.copper.mass);
}

#[test]
fn heat_in_the_cable() {
    check(
        Kind::AmpacityLow,
        &[HEATER, r#"length_m = 1, size = "1 mm2""#],
        &[HEATER, r#"length_m = 1, size = "16 mm2""#],
    );
    check(
        Kind::InsulationHot,
        &[r#"length_m = 1, air_c = 70, insulation = "pvc-60""#],
        &[r#"length_m = 1, air_c = 70, insulation = "pvc-105""#],
    );
}

#[test]
fn less_than_the_loads_draw() {
    let heater = &HEATER.replace("300", "60");
    check(Kind::RunCurrentLow, &[heater, "length_m = 1, current_a = 2"], &[heater, "length_m = 1, current_a = 30"]);
}

#[test]
fn a_power_and_a_current() {
    let both = |amps: f64| format!(r#"load = [{{ name = "fan", at = "panel", power_w = 120, current_a = {amps} }}]"#);
    check(Kind::LoadContradicts, &[&both(20.0)], &[&both(9.8)]);
}

#[test]
fn thin_sizes_and_labels() {
    check(Kind::SizeThin, &[r#"length_m = 0.5, size = "0.75 mm2""#], &[r#"length_m = 0.5, size = "2.5 mm2""#]);
    check(Kind::LabelTrap, &[r#"length_m = 1, size = "6 mm auto""#], &["rules.sizes = \"awg\""]);
    let pins = |first: &str| {
        let last = with_last(r#"length_m = 1, size = "6 mm2""#);
        last.replace(r#"to = "cut-off","#, &format!(r#"to = "cut-off", size = "{first}","#))
    };
    check(Kind::SizesMany, &["rules.most_sizes = 1", &pins("25 mm2")], &["rules.most_sizes = 2", &pins("25 mm2")]);
}

#[test]
fn the_body_and_the_place() {
    check(
        Kind::ChassisReturn,
        &[HEATER.replace("300", "600").as_str(), r#"length_m = 1, return = "chassis""#],
        &[r#"length_m = 1, return = "chassis""#],
    );
    check(
        Kind::PlaceCaution,
        &[r#"length_m = 1, surroundings = "engine-bay""#],
        &[r#"length_m = 1, surroundings = "cabin""#],
    );
}

/// Joints, fuse-links and contacts do not become less with the way: a way as short as is offered keeps the class.
#[test]
fn a_way_as_short_as_offered_keeps_the_class() {
    let catalogue = Catalogue::embedded().unwrap();
    let with = |metres: f64| {
        text_with(&format!(
            r#"
            service_battery = {{ chemistry = "lithium-iron-phosphate", capacity_ah = 400 }}
            inverter = {{ rating_w = 2000, at = "inverter" }}
            charger.kind = "none"
            run = [
                {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
                {{ from = "cut-off", to = "panel", length_m = 1.5 }},
                {{ from = "cut-off", to = "inverter", length_m = {metres} }},
            ]"#
        ))
    };
    let lost = |metres: f64| {
        let all = design(&plan_of(&with(metres), &catalogue), &catalogue).findings;
        all.into_iter().find(|f| f.kind == Kind::SizeNone && f.text.contains("within its class"))
    };
    let tried = [1.2, 1.6, 2.0, 2.5, 3.0, 4.0, 5.0, 7.0, 9.0];
    let (long, found) = tried.into_iter().find_map(|m| Some((m + 0.5, lost(m)?))).expect("too much is lost over 9.5 m");
    let words = &found.remedies.iter().find(|r| r.words.starts_with("a way of")).expect("a length is offered").words;
    let would: f64 = words.split_whitespace().nth(3).unwrap().parse().unwrap();
    assert!(would < long && would > 0.5, "{words}");
    assert!(lost(would - 0.5).is_none(), "{words}");
}

/// A radio on a pump's panel; the pump and a larger heater elsewhere never run together. The heater's run is its
/// own, so only the pump pulls the panel down: the radio has the panel's voltage while the pump is on, which is
/// what it has where there is no heater at all.
#[test]
fn what_hangs_beside_one_of_a_group_has_its_voltage() {
    let plan = |heater: &str| {
        format!(
            "run = [{{ name = \"to panel\", from = \"service battery\", to = \"panel\", length_m = 5, size = \"4 mm²\" }}, \
             {{ name = \"to heater\", from = \"service battery\", to = \"stern\", length_m = 1, size = \"16 mm²\" }}]\n\
             load = [{{ name = \"radio\", at = \"panel\", current_a = 1, kind = \"constant current\" }}, \
             {{ name = \"pump\", at = \"panel\", current_a = 15, kind = \"constant current\", not_with = \"one\" }}{heater}]\n\
             cut_off.cut_v = 11.5"
        )
    };
    let heater =
        ", { name = \"heater\", at = \"stern\", current_a = 20, kind = \"constant current\", not_with = \"one\" }";
    let (with, without) = (design_of(&plan(heater)), design_of(&plan("")));
    let volts = |design: &loomwright::engine::Design, load: usize| design.loads[load].voltage.unwrap().get();
    assert!((volts(&with, 0) - volts(&without, 0)).abs() < 1e-6, "{} {}", volts(&with, 0), volts(&without, 0));
    assert!((volts(&with, 1) - volts(&with, 0)).abs() < 1e-9);
    // By Ohm's law with cold copper it loses at least 16 A x 10 m x 4.95 Ω/km = 0.79 V on the way.
    assert!(volts(&with, 0) < 11.5 - 0.79, "{}", volts(&with, 0));
}

/// What no size serves takes no copper for a drop that it cannot keep anyway, and what hangs beside it is served: at
/// most told that it is drawn down until the other is mended.
#[test]
fn what_no_size_serves_is_told_and_the_rest_is_served() {
    let catalogue = Catalogue::embedded().unwrap();
    let run =
        |from: &str, to: &str, length: f64| format!("[[run]]\nfrom = \"{from}\"\nto = \"{to}\"\nlength_m = {length}\n");
    let text = |metres: u32, more: &str| {
        let battery = "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n";
        let lamp = "[[load]]\nname = \"lamp\"\nat = \"panel\"\npower_w = 10\nlead_m = 3\nduty.hours_a_day = 1\n";
        let pump =
            "[[load]]\nname = \"pump\"\nat = \"panel\"\npower_w = 300\ndrop = \"critical\"\nduty.hours_a_day = 0.2\n";
        let runs = run("service battery", "cut-off", 0.5) + &run("cut-off", "panel", 3.0);
        format!("{battery}[[board]]\nname = \"panel\"\n{lamp}{pump}lead_m = {metres}\n{more}{runs}")
    };
    let designed = |metres, more: &str| {
        let read = read(&text(metres, more), &catalogue);
        assert!(read.problems.is_empty(), "{:?}", read.problems);
        design(&read.plan, &catalogue)
    };
    // What it gets too much of is told as if it were near.
    for metres in [2, 90] {
        let charged = run("starter battery", "charger", 2.0) + &run("service battery", "charger", 0.5);
        let found = designed(metres, &format!("highest_v = 12.5\n{charged}[charger]\nkind = \"dc-dc\"\n")).findings;
        assert!(found.iter().any(|f| f.kind == Kind::VoltageHigh && f.subject == Subject::Load(1)), "{metres} m");
    }
    let far = designed(90, "[charger]\nkind = \"none\"\n");
    let of = |load| move |f: &&Finding| f.subject == Subject::Load(load);
    let pump: Vec<_> = far.findings.iter().filter(of(1)).collect();
    let told = pump.iter().find(|f| f.kind == Kind::SizeNone).expect("told of the pump");
    assert!(
        told.text.starts_with("no size keeps pump within its class") && told.text.contains("even in 120"),
        "{told:?}"
    );
    assert!(!pump.iter().any(|f| f.kind == Kind::Collapse), "{pump:?}");
    for found in far.findings.iter().filter(of(0)) {
        assert!(found.severity > Severity::Stop, "{found:?}");
    }
    // No voltage, and no drop either.
    assert_eq!((far.loads[1].voltage, far.loads[1].drop, far.loads[1].drop_share), (None, None, None));
    let area = |design: &Design, run: usize| design.runs[run].size.as_ref().unwrap().area.get();
    let lead = far.installation.lead_of(1).unwrap();
    // Not the largest: what its fuse asks for so that a fault at the far end opens it.
    assert!(area(&far, lead) < 50.0, "{}", area(&far, lead));
}
