//! What findings on runs, loads and the cut-off say is what paper gives, and they point at the field that mends them.

use crate::case::{design_of, found_with, severities};
use crate::limits::{CAUTION, STOP, graded, lamp, runs, says, told};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{CutOffQuestion, FindingKind as Kind, Severity, cut_off_question};
use loomwright::plan::Value;
use loomwright::quantity::{AmpHours, Amps, Metres, Share, Volts};

/// A lamp with something more said of it, on a run with something more said of that.
fn lit(amps: f64, of_load: &str, of_run: &str) -> String {
    let lamp = lamp(amps).replace("duty = {", &format!("{of_load} duty = {{"));
    format!("{}{lamp}", runs(", size = \"16 mm2\"", "").replace("length_m = 1.5", of_run))
}

/// The volts that a sentence names, in its order.
fn volts(text: &str) -> Vec<f64> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let named = words.windows(2).filter(|w| w[1].trim_end_matches([',', ';', ')']) == "V");
    named.map(|w| w[0].trim_start_matches('(').parse().unwrap()).collect()
}

/// What is lost on the way is what the battery has and the lamp has not; a cut-off higher by what is lacking serves it.
#[test]
fn a_load_that_gets_too_little() {
    let low = lit(15.0, "lowest_v = 11.5,", "length_m = 10, size = \"2.5 mm2\"");
    let found = &found_with(&low, Kind::VoltageLow)[0];
    assert_eq!(found.severity, Severity::Stop);
    let [got, battery, needs] = volts(&found.text)[..] else { panic!("{}", found.text) };
    let [lost, ..] = volts(&found_with(&low, Kind::DropHigh)[0].text)[..] else { panic!("nothing is lost") };
    assert!((battery - got - lost).abs() < 0.011 && needs == 11.5 && battery > 12.0, "{}", found.text);
    let [cut, leaves] = volts(&found.remedies[0].words)[..] else { panic!("{:?}", found.remedies) };
    assert!((cut - (needs + battery - got)).abs() < 0.021 && leaves == needs, "{:?}", found.remedies);
    let Some(Value::Number(set)) = found.remedies[0].edits.first().and_then(|e| e.value.clone()) else {
        panic!("{:?}", found.remedies)
    };
    // In steps of a tenth, no lower.
    assert!(set >= cut - 0.006 && set < cut + 0.11 && ((set * 10.0).round() / 10.0 - set).abs() < 1e-9, "{set}");
    // With all on it has enough, in the moment of a start it has not.
    let start = lit(5.0, "lowest_v = 12.0, start = { times = 6, seconds = 2 },", "length_m = 3, size = \"2.5 mm2\"");
    let found = &found_with(&start, Kind::VoltageLow)[0];
    assert!(found.severity == Severity::Caution && found.text.contains("while the worst start lasts"), "{found:?}");
    assert!(volts(&found.text)[0] < 12.0, "{found:?}");
    let enough = lit(5.0, "lowest_v = 10.0, start = { times = 6, seconds = 2 },", "length_m = 3, size = \"2.5 mm2\"");
    assert_eq!(severities(&enough, Kind::VoltageLow), []);
    // It bears what it gets.
    let bears =
        |most: f64| format!("{}charger.output_v = 14.4", lit(1.0, &format!("highest_v = {most},"), "length_m = 1.5"));
    graded(Kind::VoltageHigh, &[(bears(14.4), &[]), (bears(14.3), STOP)]);
}

/// 120 mm² carries 430 A: eight tenths of that are 344 A. A fuse carries eight tenths of its rating (the catalogue's rule),
/// so 350 A ask for 438 A, more than the cable carries; 400 A is the largest made below that, and carries at most 320 A.
#[test]
fn more_than_any_size_carries() {
    says(&lit(600.0, "", "length_m = 1"), Kind::SizeNone, &["carries 430 A", "over 2 runs", "at 344 A or less"]);
    let none = |amps: f64| {
        let findings = design_of(&lit(amps, "", "length_m = 1")).findings;
        let found = findings.into_iter().find(|f| f.kind == Kind::SizeNone);
        found.map(|f| format!("{}; {}", f.text, f.remedies[0].words))
    };
    for amps in [350.0, 400.0] {
        let told = none(amps).unwrap();
        assert!(told.contains(&format!("no fuse carries {amps} A")) && told.contains("over 2 runs"), "{told}");
        let (_, most) = told.split_once("or stay at ").unwrap();
        let most: f64 = most.split(' ').next().unwrap().parse().unwrap();
        assert!(most > 280.0 && most <= 320.0, "{told}");
        assert_eq!(none(most - 1.0), None);
    }
    says(&lit(900.0, "", "length_m = 1"), Kind::SizeNone, &["over 3 runs"]);
    // Air hotter than its insulation stands is told by itself: no ampacity is to be had there.
    let hot = "length_m = 1, size = \"0.5 mm2\", insulation = \"pvc-60\", air_c = 65";
    assert!(!severities(&lit(25.0, "", hot), Kind::InsulationHot).is_empty());
    assert_eq!(severities(&lit(25.0, "", hot), Kind::AmpacityLow), []);
}

/// 30 A and 100 A through the body, and what is measured and rated (common practice, no source): at them, not beyond.
#[test]
fn what_comes_back_through_the_body() {
    let body = |amps: f64, vehicle: &str| {
        format!("{}\nvehicle = {{ {vehicle} }}", lit(amps, "", "length_m = 1, return = \"chassis\""))
    };
    let measured = |most: f64| format!("chassis_measured = true, chassis_a = {most}");
    graded(
        Kind::ChassisReturn,
        &[
            (body(30.0, ""), &[]),
            (body(30.5, ""), CAUTION),
            (body(100.0, ""), CAUTION),
            (body(100.5, ""), STOP),
            (body(29.0, &measured(29.0)), &[]),
            (body(29.5, &measured(29.0)), STOP),
            (body(40.0, &measured(40.0)), CAUTION),
        ],
    );
    assert!(!told(&body(50.0, ""), Kind::ChassisReturn).contains("heat like"));
    let winch = lit(50.0, "on_s = 60, off_s = 600,", "length_m = 1, return = \"chassis\"");
    let heats = found_with(&winch, Kind::ChassisReturn);
    assert!(heats.iter().all(|f| f.text.contains("which heat like")), "{heats:#?}");
    // 50 A for a minute of eleven heat like 50 / √11 = 15 A, which the body bears.
    assert!(heats.is_empty(), "{heats:#?}");
    // 200 A for a minute of eleven like 60.3 A.
    let winch = lit(200.0, "on_s = 60, off_s = 600,", "length_m = 1, return = \"chassis\"");
    says(&winch, Kind::ChassisReturn, &["brings 200 A, which heat like 60.3 A for ever,"]);
}

/// What is missing is the place to mend.
#[test]
fn ends_that_are_missing() {
    let ends = |from: &str, to: &str| {
        format!(
            "run = [{{ from = \"service battery\", to = \"cut-off\", length_m = 0.5 }}, {{ from = \"{from}\", to = \"{to}\", length_m = 1 }}]"
        )
    };
    let key = |plan: &str| found_with(plan, Kind::RunNowhere)[0].place.unwrap().key;
    assert_eq!((key(&ends("cut-off", "")), key(&ends("", "panel"))), ("to", "from"));
    let load = |at: &str| format!("load = [{{ name = \"lamp\", at = \"{at}\", power_w = 5 }}]");
    says(&load(""), Kind::LoadLoose, &["lamp is connected to no point", "name the point it hangs on"]);
    let nowhere = told(&load("the moon"), Kind::LoadLoose);
    assert!(nowhere.contains("at `the moon`") && nowhere.contains("add a run that ends at `the moon`"), "{nowhere}");
    says(&load("panle"), Kind::LoadLoose, &["at `panle`", "connect it to `panel`"]);
}

/// So much conduit for each hinge, exhaust and tyre that it meets (the catalogue's rule).
#[test]
fn what_guards_a_run_on_its_way() {
    let guard = Catalogue::embedded().unwrap().rules.guard.value;
    for (word, times) in [("exhaust", 1), ("hinge", 2), ("tyre", 3)] {
        let passes = vec![format!("\"{word}\""); times].join(", ");
        let plan = lit(5.0, "", &format!("length_m = 3, passes = [{passes}]"));
        let conduit: Metres = guard * times as f64;
        says(&plan, Kind::RunPasses, &[&format!("{times} time"), &format!("{conduit} of ")]);
    }
}

/// AGM gives 1 C (its profile), gel half of that: 100 Ah give 50 A, and 60 A ask for 120 Ah.
#[test]
fn the_bare_question_about_a_cut_off() {
    let catalogue = Catalogue::embedded().unwrap();
    let asked = |ah: f64, amps: f64, at: Option<f64>| {
        let question = CutOffQuestion {
            chemistry: "agm".into(),
            capacity: AmpHours::new(ah),
            current: Amps::new(amps),
            at: at.map(Volts::new),
            ..Default::default()
        };
        cut_off_question(&catalogue, &question).unwrap()
    };
    let found = |ah: f64, amps: f64, at: Option<f64>, kind: Kind| {
        asked(ah, amps, at).findings.into_iter().filter(|f| f.kind == kind).collect::<Vec<_>>()
    };
    let most = catalogue.chemistry("agm").unwrap().rate.max_c;
    let rate = |amps: f64| found(200.0, amps, None, Kind::BatteryRate);
    assert!(rate(200.0 * most).is_empty());
    let over = rate(250.0 * most);
    let (gives, enough) = (Amps::new(200.0 * most), AmpHours::new(250.0));
    assert!(over[0].text.contains(&format!("the {gives} that 200 Ah")), "{over:?}");
    assert!(over[0].remedies[0].words.contains(&format!("{enough} or more, or for {gives} or less")), "{over:?}");
    let gel = CutOffQuestion {
        chemistry: "gel".into(),
        capacity: AmpHours::new(100.0),
        current: Amps::new(60.0),
        ..Default::default()
    };
    let over = cut_off_question(&catalogue, &gel).unwrap().findings;
    assert!(over.iter().any(|f| f.remedies[0].words.contains("120 Ah or more, or for 50 A or less")), "{over:?}");
    // Chosen, it acts near what is to be kept; a tenth of a volt above it is no matter, so high that the usual current
    // trips it with more than half of what may be used still there it is a stop, and so where it acts at once.
    let early = |at: f64| -> Vec<Severity> {
        found(100.0, 8.0, Some(at), Kind::CutOffEarly).iter().map(|f| f.severity).collect()
    };
    let trips = |at: f64| asked(100.0, 8.0, Some(at)).design.at_usual().unwrap().trips_at.unwrap_or(Share::ZERO).get();
    let mut seen = [0; 3];
    for tenth in 0..=16 {
        let at = (122 + tenth) as f64 / 10.0;
        let (n, wanted): (usize, &[Severity]) = match trips(at) {
            left if left > 0.75 => (2, STOP),
            left if left > 0.5 + EARLY => (1, CAUTION),
            _ => (0, &[]),
        };
        seen[n] += 1;
        assert_eq!(early(at), wanted, "{at} V acts at {}", trips(at));
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
    assert_eq!(early(13.6), STOP);
    // Charging reaches 14.4 V at most: above it nothing closes the device again.
    assert!(found(100.0, 8.0, Some(14.0), Kind::CutOffChatter).is_empty());
    let never = found(100.0, 8.0, Some(14.6), Kind::CutOffChatter);
    assert!(never[0].severity == Severity::Stop && never[0].text.contains("no voltage between"), "{never:?}");
}

/// Our own border: so far above what is to be kept a setting is early.
const EARLY: f64 = 0.15;

/// Above the rebound and above the setting, or it chatters; what is offered is above both.
#[test]
fn a_cut_off_that_would_chatter() {
    let set = |cut: f64, again: f64| format!("cut_off = {{ cut_v = {cut}, reconnect_v = {again}, delay_s = 5 }}");
    let cut_off = design_of("").cut_off;
    let (cut, rebound) = (cut_off.cut.get(), design_of(&set(cut_off.cut.get(), 13.4)).cut_off.rebound.get());
    let chatters = |again: f64| severities(&set(cut, again), Kind::CutOffChatter);
    assert_eq!(chatters(rebound.max(cut) + 0.05), []);
    assert_eq!(chatters(rebound.max(cut) - 0.05), STOP);
    let found = found_with(&set(cut, cut), Kind::CutOffChatter);
    let edit = found[0].remedies.iter().flat_map(|r| &r.edits).find(|e| e.place.key == "reconnect_v").unwrap();
    assert!(matches!(edit.value, Some(Value::Number(again)) if again > rebound.max(cut)), "{edit:?}");
}

/// Charging must reach the voltage at which it closes again: what is offered lies between the setting and that.
#[test]
fn a_cut_off_that_never_closes() {
    let cut_off = design_of("").cut_off;
    let (cut, charging) = (cut_off.cut.get(), cut_off.charging.get());
    let set = |again: f64| format!("cut_off = {{ cut_v = {cut}, reconnect_v = {again} }}");
    let found = found_with(&set(charging + 0.5), Kind::ReconnectHigh);
    let edit = found[0].remedies.iter().flat_map(|r| &r.edits).find(|e| e.place.key == "reconnect_v").unwrap();
    let Some(Value::Number(offered)) = edit.value else { panic!("{edit:?}") };
    assert!(offered > cut && offered < charging, "{offered} between {cut} and {charging}");
    assert_eq!(severities(&set(offered), Kind::ReconnectHigh), []);
    // Charged no higher than it opens, it never closes by itself: either is to give way by what is lacking.
    let low = "charger.output_v = 13.0\ncut_off = { cut_v = 13.2, reconnect_v = 13.4 }";
    let never = found_with(low, Kind::ReconnectHigh);
    assert_eq!(never[0].severity, Severity::Stop);
    let [charge, at_most] = volts(&never[0].remedies[0].words)[..] else { panic!("{never:?}") };
    assert!(charge > 13.4 && at_most < 13.0, "{never:?}");
}

/// A quarter to spare, in steps of 50 W as they are sold: 120 W ask for 150 W, 60 W for 100 W, 170 W for 250 W.
#[test]
fn an_inverter_that_is_too_small() {
    let with = |rating: u32, watts: u32| {
        format!(
            "inverter = {{ rating_w = {rating}, at = \"panel\" }}\n\
             load = [{{ name = \"laptop\", inverter = true, power_w = {watts}, duty = {{ hours_a_day = 0.2 }} }}]"
        )
    };
    graded(Kind::InverterSmall, &[(with(120, 120), &[]), (with(119, 120), STOP)]);
    says(&with(100, 120), Kind::InverterSmall, &["take 120 W", "an inverter of 150 W", "let loads of 20 W exclude"]);
    says(&with(100, 170), Kind::InverterSmall, &["an inverter of 250 W"]);
    says(&with(0, 60), Kind::InverterMissing, &["an inverter of 100 W carries the 60 W"]);
    says(&with(0, 170), Kind::InverterMissing, &["an inverter of 250 W carries the 170 W"]);
}

/// What flows for ever, and what a start of three times the current brings for a moment: at the rating, not beyond.
#[test]
fn a_main_switch_at_its_rating() {
    let switch = |amps: f64, of_load: &str, more: &str| {
        format!("{}main_switch = {{ at = \"cut-off\", {more} }}", lit(amps, of_load, "length_m = 1.5"))
    };
    graded(
        Kind::MainSwitchSmall,
        &[(switch(30.0, "", "rating_a = 30"), &[]), (switch(30.0, "", "rating_a = 29"), STOP)],
    );
    says(&switch(30.0, "", "rating_a = 29"), Kind::MainSwitchSmall, &["30 A may flow", "a switch for 30 A or more"]);
    let start = "start = { times = 3, seconds = 1 },";
    graded(
        Kind::MainSwitchSmall,
        &[
            (switch(10.0, start, "rating_a = 30"), &[]),
            (switch(10.0, start, "rating_a = 20"), STOP),
            (switch(10.0, start, "rating_a = 20, short_time_a = 30"), &[]),
            (switch(10.0, start, "rating_a = 20, short_time_a = 29"), STOP),
        ],
    );
    let starts = switch(10.0, start, "rating_a = 20, short_time_a = 29");
    says(&starts, Kind::MainSwitchSmall, &["starts bring 30 A", "carries 29 A for a short time"]);
}

/// A battery is parted neither from a running alternator nor from a controller in the sun; what is not there parts nothing.
#[test]
fn what_a_main_switch_parts() {
    let at = |at: &str, more: &str| format!("main_switch = {{ rating_a = 200, at = \"{at}\" }}\n{more}");
    let sun = |at: &str| format!("solar = {{ array_w = 100, at = \"{at}\" }}");
    let (stop_and_caution, none) = (&[Severity::Stop, Severity::Caution][..], "charger.kind = \"none\"\n");
    graded(
        Kind::MainSwitchParts,
        &[
            (at("service battery", ""), CAUTION),
            (at("service battery", &sun("charger")), stop_and_caution),
            (at("service battery", &format!("{none}{}", sun("charger"))), STOP),
            (at("service battery", none), &[]),
            (at("cut-off", &sun("charger")), &[]),
            (at("starter battery", ""), STOP),
            (at("starter battery", "vehicle.alternator_a = 0"), &[]),
        ],
    );
    // Beyond the cut-off it would be parted there too: only where that is not so is the switch to be put there.
    let moved = |more: &str| {
        let found = found_with(&at("service battery", more), Kind::MainSwitchParts);
        found[0].remedies.iter().flat_map(|r| &r.edits).any(|e| e.value == Some(Value::Text("cut-off".into())))
    };
    assert!(moved(&sun("charger")) && moved("") && !moved(&sun("panel")));
    let other = found_with(&at("starter battery", ""), Kind::MainSwitchParts);
    assert!(other[0].remedies.iter().all(|r| r.edits.is_empty()), "{other:?}");
}
