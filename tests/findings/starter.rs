//! The starter battery: what hangs on it, what the charger takes from it.

use crate::case::{Case, FRONT, found_with, plan_with, run};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{FindingKind as Kind, Notes, Severity, Span, design, endurance};

/// A board that the starter battery feeds, with one load of so many amperes.
fn on_starter(amps: f64, more: &str) -> String {
    format!(
        r#"
        {more}
        load = [
            {{ name = "lamp", at = "panel", power_w = 10 }},
            {{ name = "fridge", at = "front", current_a = {amps}, kind = "constant-current" }},
        ]
        {FRONT}"#
    )
}

/// 80 Ah kept at 60 % give 32 Ah: 2.5 A (60 Ah a day) empty that overnight, 0.1 A do not.
#[test]
fn what_hangs_on_it_must_leave_a_start() {
    let fridge = on_starter(2.5, "");
    let found = found_with(&fridge, Kind::StartLost);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].severity, Severity::Stop);
    assert!(found[0].text.contains("80 Ah") && found[0].text.contains("fridge"), "{}", found[0].text);
    assert!(found_with(&on_starter(0.1, ""), Kind::StartLost).is_empty());
    let catalogue = Catalogue::embedded().unwrap();
    let design = design(&plan_with(&fridge, &catalogue), &catalogue);
    // By hand: 32 Ah over 60 Ah of the fridge, 0.72 Ah of 30 mA and the self-discharge of a day.
    let days = design.charger.starts_for.unwrap().get();
    assert!((0.50..32.0 / 60.72).contains(&days), "{days}");
    // It is no load of the service battery.
    assert!(design.budget.charge.get() < 25.0, "{}", design.budget.charge);
}

/// The hot alternator of 90 A and what the vehicle takes are counted by hand, the shares of its output given.
#[test]
fn a_charger_takes_from_it_what_the_alternator_lacks() {
    let with = |amps: u32, charger: u32, full: f64| {
        let changes = format!(
            r#"
            vehicle = {{ alternator_a = {amps}, own_draw_a = 30, idle_share = 0.8, road_share = 0.8, parked_draw_a = 0.05, driving = ["08:00-09:00"] }}
            charger = {{ current_a = {charger}, efficiency = 1.0 }}
            load = [{{ name = "lamp", at = "panel", current_a = 2, kind = "constant-current" }}]"#
        );
        let catalogue = Catalogue::embedded().unwrap();
        let design = design(&plan_with(&changes, &catalogue), &catalogue);
        let span = Span { days: 1, from: loomwright::quantity::Share::new(full), ..Span::default() };
        (endurance(&design, span, &mut Notes::unkept()).unwrap(), design)
    };
    // 42 A are to spare: a charger of 20 A leaves the starter battery full but for the night's draw.
    let (days, design) = with(90, 20, 0.3);
    assert!(days.ledger.from_starter.get() < 1e-9 && days.starter_lowest.get() > 0.97, "{}", days.starter_lowest);
    assert!(design.findings.iter().all(|f| !matches!(f.kind, Kind::StartLost | Kind::AlternatorShort)));
    // 10 A are to spare for an hour, and a charger of 30 A takes more than 30 A: over 20 Ah come out of it.
    let (days, design) = with(50, 30, 0.3);
    assert!((20.0..28.0).contains(&days.ledger.from_starter.get()), "{}", days.ledger.from_starter);
    assert!((days.ledger.from_driving.get() - 30.0).abs() < 0.1, "{}", days.ledger.from_driving);
    let short = design.findings.iter().find(|f| f.kind == Kind::AlternatorShort).unwrap();
    assert_eq!(short.severity, Severity::Stop);
    // A day of driving counts with what the alternator feeds: about 10 A for an hour.
    assert!((5.0..10.0).contains(&design.charger.a_day.get()), "{}", design.charger.a_day);
    // No alternator charges nothing.
    let (days, design) = with(0, 20, 0.3);
    assert!(days.ledger.from_driving.get() == 0.0 && days.ledger.from_starter.get() == 0.0);
    assert_eq!(design.charger.a_day.get(), 0.0);
    assert!(design.findings.iter().any(|f| f.kind == Kind::AlternatorShort && f.severity == Severity::Stop));
}

/// Alike but for what the alternator gives.
#[test]
fn a_start_is_lost_or_not() {
    run(&[Case {
        kind: Kind::StartLost,
        raises: "vehicle = { alternator_a = 60, own_draw_a = 60 }\ncharger.current_a = 20",
        quiet: "vehicle = { alternator_a = 150, own_draw_a = 30 }\ncharger.current_a = 20",
    }]);
}

/// By hand: two panels of 22.5 V open at -5 °C (30 K below 25 °C, 12 % more) are 50.4 V; 40 V down to 14.4 V pass on
/// 36 %; three strings of 9 A drive 2 x 1.25 x 9 A = 22.5 A back into one.
#[test]
fn panels_and_their_controller() {
    let array = "surroundings.coldest_c = -5\nsolar = { array_w = 200, sun_hours = 4";
    let limit = format!("{array}, in_series = 2, panel_open_v = 22.5, controller_limit_v = 50 }}");
    let found = found_with(&limit, Kind::ArrayVoltage);
    assert!(found[0].text.contains("50.40 V"), "{}", found[0].text);
    assert_eq!(found[0].severity, Severity::Stop);
    assert!(found_with(&limit.replace("50 }", "51 }"), Kind::ArrayVoltage).is_empty());
    let misfit = format!("{array}, array_v = 40, controller = \"shunt\" }}");
    let found = found_with(&misfit, Kind::PanelMisfit);
    assert_eq!(found[0].severity, Severity::Caution);
    assert!(found_with(&misfit.replace("shunt", "mppt"), Kind::PanelMisfit).is_empty());
    assert!(found_with(&misfit.replace("array_v = 40", "array_v = 18"), Kind::PanelMisfit).is_empty());
    let strings = format!("{array}, strings = 3, panel_short_a = 9, panel_fuse_a = 20 }}");
    assert!(found_with(&strings, Kind::StringFuses)[0].text.contains("22.5 A"));
    assert!(found_with(&strings.replace("strings = 3", "strings = 2"), Kind::StringFuses).is_empty());
    assert!(found_with(&strings.replace(" }", ", string_fuses = true }"), Kind::StringFuses).is_empty());
    let catalogue = Catalogue::embedded().unwrap();
    let array = design(&plan_with(&strings, &catalogue), &catalogue).charger.array;
    assert!((array.cable.unwrap().get() - 1.56 * 27.0).abs() < 1e-9);
}

/// The darkest of the months in use counts, and a tilt towards the noon sun helps most in winter.
#[test]
fn the_sun_of_the_months_in_use() {
    let hours = |solar: &str| {
        let changes = format!("surroundings.latitude_deg = 51.5\nsolar = {{ array_w = 100{solar} }}");
        let catalogue = Catalogue::embedded().unwrap();
        design(&plan_with(&changes, &catalogue), &catalogue).charger.sun_hours.get()
    };
    let (year, winter, summer) = (hours(""), hours(", months = \"nov-feb\""), hours(", months = \"jun\""));
    assert!(winter < year && year < summer, "{winter} {year} {summer}");
    assert!(hours(", months = \"nov-feb\", tilt_deg = 60") > 1.3 * winter);
    assert!(hours(", months = \"jun\", tilt_deg = 60, faces_deg = 0") < summer);
}

/// What hangs there flows neither through the cut-off nor out of the service battery once that is open, whatever is said.
#[test]
fn what_hangs_on_it_does_not_stay_on_the_service_battery() {
    let catalogue = Catalogue::embedded().unwrap();
    let said = |stays: bool| {
        let text =
            on_starter(2.5, "").replace("current_a = 2.5", &format!("current_a = 2.5, before_cut_off = {stays}"));
        design(&plan_with(&text, &catalogue), &catalogue)
    };
    let (stays, goes) = (said(true), said(false));
    assert_eq!(stays.cut_off.current, goes.cut_off.current);
    assert_eq!(stays.cut_off.after, goes.cut_off.after);
    assert_eq!(stays.standing, goes.standing);
}
