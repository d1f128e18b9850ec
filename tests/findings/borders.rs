//! The borders between stop, caution and nothing that other rules mostly hide, and what is told beside a finding whose
//! severity stands anyway. Limits are those of the catalogue or our own, named beside them; the rest is arithmetic.

use crate::case::{design_of, found_with, plan_of, text_with};
use crate::cited::TRAY;
use crate::limits::{CAUTION, STOP, graded, lamp, runs, says, told};
use crate::sources::{CATALOGUE, PROFILES};
use crate::told_beside::number;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{FindingKind as Kind, Severity, design};
use loomwright::quantity::Volts;

/// 1 C of LFP (its profile): 102 A ask for 102 Ah. A twentieth under that is our own border, and no trial of days makes a
/// current milder: 100 Ah are enough for a caution up to 105.2 A.
#[test]
fn a_twentieth_short_of_a_current() {
    let amps = |amps: f64| lamp(amps);
    let small = Kind::BatterySmall;
    graded(small, &[(amps(100.0), &[]), (amps(102.0), CAUTION), (amps(105.0), CAUTION), (amps(105.5), STOP)]);
}

/// Days are offered down to a tenth of one, which is the least that a plan takes.
#[test]
fn days_that_are_too_few_to_plan_are_not_offered() {
    let mut seen = [0; 2];
    for tenth in 30..=60 {
        let plan = format!("service_battery.capacity_ah = {}", f64::from(tenth) / 10.0);
        let design = design_of(&plan);
        let bears = f64::from(tenth) / 10.0 / design.battery.needed.get();
        let days = (design.installation.days_without_charge.get() * bears * 100.0).floor() / 100.0;
        let offered = told(&plan, Kind::BatterySmall).contains("or plan ");
        assert_eq!(offered, days >= 0.1, "{plan}: {days} d");
        seen[usize::from(offered)] += usize::from((0.08..0.13).contains(&days));
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
}

/// Where the summer rules it is the summer's day that is told.
#[test]
fn the_day_that_rules_is_told() {
    let air = |mean: i32, coldest: i32, hottest: i32| {
        format!(
            "surroundings = {{ mean_c = {mean}, coldest_c = {coldest}, hottest_c = {hottest} }}\n\
             service_battery = {{ capacity_ah = 20, depth = 0.8 }}\n\
             load = [{{ name = \"fridge\", at = \"panel\", power_w = 40, duty = {{ share_on = 0.4, share_per_k = 0.02 }} }}]"
        )
    };
    let mut ruled = Vec::new();
    for (mean, coldest, hottest) in [(26, 20, 45), (0, 0, 20)] {
        let plan = air(mean, coldest, hottest);
        let design = design_of(&plan);
        let [standing, summer] = [design.budget.standing_day, design.budget.summer_day].map(|day| day.to_string());
        assert_ne!(standing, summer);
        let by = format!("{:?}", design.battery.ruling.unwrap());
        let day = if by == "SummerDays" { summer } else { standing };
        says(&plan, Kind::BatterySmall, &[&format!("of the {day} on a day")]);
        ruled.push(by);
    }
    assert!(ruled.contains(&"SummerDays".to_string()) && ruled[0] != ruled[1], "{ruled:?}");
}

/// Of 150 W × 25 A × 1.56 = 39 A (NFPA 70, 690.9, from memory): a device of just so much is enough. 16 AWG carries 25 A at
/// 105 °C (33 CFR 183.425 Table 5): behind a device of 25 A it is thick enough.
#[test]
fn a_device_and_a_cable_of_just_so_much() {
    let solar = |short: f64, device: f64, size: &str| {
        format!(
            "solar = {{ array_w = 150, sun_hours = 4, panel_short_a = {short}, cable_m = 1, cable_size = \"{size}\", device_a = {device}, cable_air_c = 30 }}"
        )
    };
    let device = |amps: f64| solar(25.0, amps, "16 mm²");
    graded(Kind::ArrayDevice, &[(device(39.0), &[]), (device(38.9), CAUTION)]);
    let cable = |amps: f64| solar(10.0, amps, "16 AWG");
    graded(Kind::ArrayCable, &[(cable(25.0), &[]), (cable(25.1), STOP)]);
}

/// What the hot alternator feeds is the most, and just that is none too much.
#[test]
fn a_charger_of_just_what_the_alternator_feeds() {
    let plan = |alternator: f64, amps: f64| {
        format!("vehicle = {{ idling = 0, alternator_a = {alternator} }}\ncharger.current_a = {amps}")
    };
    let feeds = |alternator: f64| {
        let design = design_of(&plan(alternator, 40.0));
        let bounds: Vec<f64> = design.charger.bounds.alternator().map(|bound| bound.amps.get()).collect();
        // What it feeds while it idles counts only where it idles.
        bounds.into_iter().fold(0.0, f64::max)
    };
    let most = feeds(80.0);
    assert!((10.0..40.0).contains(&most), "{most}");
    graded(Kind::AlternatorShort, &[(plan(80.0, most), &[]), (plan(80.0, most + 0.01), STOP)]);
    // What is to spare grows evenly with the alternator: one that feeds 0.75 A leaves a charger of half an ampere.
    let (low, high) = (feeds(60.0), feeds(80.0));
    let little = 60.0 + 20.0 * (0.75 - low) / (high - low);
    assert!((feeds(little) - 0.75).abs() < 0.2, "{}", feeds(little));
    says(&plan(little, 20.0), Kind::AlternatorShort, &["a charger of 0.5 A stays within it"]);
    let less = 60.0 + 20.0 * (0.3 - low) / (high - low);
    assert!(!told(&plan(less, 20.0), Kind::AlternatorShort).contains("stays within it"));
}

/// AGM takes 0.3 of its capacity for hours (its profile); twice its capacity for the minutes of a rush is our own
/// border, and lithium bears no rush at all.
#[test]
fn what_a_relay_lets_rush_into_a_battery() {
    let relay = |ah: f64, chemistry: &str, more: &str| {
        let feed = runs("", "").replace("length_m = 2,", "length_m = 2, size = \"50 mm2\",");
        format!(
            "service_battery = {{ chemistry = \"{chemistry}\", capacity_ah = {ah}, depth = 0.5 }}\ncharger = {{ kind = \"relay\", current_a = \"left out\" }}\n{feed}{more}"
        )
    };
    let mut seen = [0; 2];
    let mut largest = (0.0, 0.0, 0.0);
    for ah in [12, 16, 20, 24, 28, 32, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500, 700, 1000].map(f64::from) {
        let found = found_with(&relay(ah, "agm", ""), Kind::ChargerFast);
        let Some(finding) = found.first() else { continue };
        let (first, most) = (number(&finding.text, "planned depth"), number(&finding.text, "takes"));
        assert!(first > most, "{finding:?}");
        assert!(finding.text.contains(&format!("{:.1} C", first / ah)), "{finding:?}");
        let stop = first > 2.0 * ah;
        assert_eq!(finding.severity == Severity::Stop, stop, "{first} A into {ah} Ah");
        seen[usize::from(stop)] += 1;
        largest = (ah, first, most);
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
    let (ah, first, most) = largest;
    assert!(most < 0.35 * ah && first < 1.5 * most, "{largest:?}: told only where it is far more than is taken");
    // A lithium block that the same current is far less for.
    let lithium = found_with(&relay(100.0, "lithium-iron-phosphate", ""), Kind::ChargerFast);
    assert!(lithium.iter().all(|f| f.severity == Severity::Stop) && !lithium.is_empty(), "{lithium:?}");
    assert!(number(&lithium[0].text, "planned depth") < 200.0, "{lithium:?}");
}

/// Whoever plans to empty it has nothing put back by a voltage below all of its curve.
#[test]
fn a_charge_voltage_that_puts_nothing_back() {
    let plan = |volts: f64| {
        format!(
            "service_battery = {{ chemistry = \"agm\", depth = 1.0 }}\ncut_off.reserve = 0.0\ncharger.output_v = {volts}"
        )
    };
    let grade = |volts: f64| {
        let found = design_of(&plan(volts)).findings.into_iter().find(|f| f.kind == Kind::ChargeVoltageLow);
        found.map(|f| f.severity)
    };
    assert_eq!((grade(11.0), grade(13.0)), (Some(Severity::Stop), Some(Severity::Caution)));
}

/// It is the first AC load that is there at all which is named.
#[test]
fn the_load_that_needs_an_inverter() {
    let with = |count: u32| {
        format!(
            r#"load = [
                {{ name = "lamp", at = "panel", power_w = 5, duty = {{ hours_a_day = 1 }} }},
                {{ name = "kettle", inverter = true, count = {count}, power_w = 60, duty = {{ hours_a_day = 0.1 }} }},
                {{ name = "laptop", inverter = true, power_w = 60, duty = {{ hours_a_day = 0.1 }} }},
            ]"#
        )
    };
    says(&with(0), Kind::InverterMissing, &["laptop needs an inverter"]);
    says(&with(1), Kind::InverterMissing, &["kettle needs an inverter"]);
    let none = with(0).replace(
        "power_w = 60, duty = { hours_a_day = 0.1 } },\n            ]",
        "count = 0, power_w = 60 },\n            ]",
    );
    graded(Kind::InverterMissing, &[(none, &[])]);
}

/// What goes on being drawn behind an open cut-off is told by what draws the most: a load, the idle inverter, or the rest.
#[test]
fn what_is_to_be_put_behind_the_cut_off() {
    let plan = |watts: f64, idle: f64, standing: f64| {
        format!(
            "inverter = {{ rating_w = 300, at = \"service battery\", idle_w = {idle}, hours_a_day = 24 }}\n\
             cut_off.standing_draw_a = {standing}\n\
             load = [{{ name = \"alarm\", at = \"service battery\", power_w = {watts}, before_cut_off = true }}]"
        )
    };
    says(&plan(24.0, 6.0, 0.01), Kind::StandingDraw, &["put alarm behind the cut-off"]);
    says(
        &plan(6.0, 18.0, 0.01),
        Kind::StandingDraw,
        &["put the inverter, which takes", "a day idle, behind the cut-off"],
    );
    // The voltage of harm is cited where it decides: no battery of the shipped profiles rests so low before it is empty.
    let alarm = r#"load = [{ name = "alarm", at = "service battery", power_w = 24, before_cut_off = true }]"#;
    let plan = text_with(&format!("service_battery.chemistry = \"agm\"\ncut_off.reserve = 0.5\n{alarm}"));
    let rule = |catalogue: &Catalogue| {
        let found = design(&plan_of(&plan, catalogue), catalogue).findings;
        found.iter().find(|f| f.kind == Kind::StandingDraw).unwrap().rule.clone()
    };
    let higher = PROFILES.with(&["agm.low.damage_v"], 1.14).unwrap();
    assert!(rule(&CATALOGUE).starts_with("harm begins where it is empty"), "{}", rule(&CATALOGUE));
    assert!(rule(&higher).starts_with("harm begins at 11.97 V: <agm.low.damage_v>"), "{}", rule(&higher));
    let rest = "cut_off.standing_draw_a = 1.5";
    let told = told(rest, Kind::StandingDraw);
    assert!(told.contains("or keep more than") && !told.contains("inverter"), "{told}");
}

/// Charging comes within 0.05 V of the setting, or it may not close (common practice); a step of the device above the
/// cut there is always one that closes it.
#[test]
fn where_charging_only_just_closes_it() {
    let cut_off = design_of("").cut_off;
    let (cut, charging) = (cut_off.cut.get(), cut_off.charging.get());
    let set = |again: f64| format!("cut_off = {{ cut_v = {cut}, reconnect_v = {again:.4} }}");
    graded(
        Kind::ReconnectHigh,
        &[(set(charging - 0.06), &[]), (set(charging - 0.04), CAUTION), (set(charging), CAUTION)],
    );
    let mut seen = [0; 3];
    for hundredths in 0..=24 {
        let output = 13.2 + 0.02 * f64::from(hundredths);
        let plan = format!("charger.output_v = {output:.2}\ncut_off = {{ cut_v = 13.2, reconnect_v = 14.4 }}");
        let out = design_of(&plan).cut_off;
        let found = found_with(&plan, Kind::ReconnectHigh);
        let over = out.charging.get() - out.cut.get();
        // The device's step is a tenth of a volt; within a hair of the border either may be.
        if (over - 0.1).abs() < 0.002 || (over - 0.2).abs() < 0.002 {
            continue;
        }
        let stop = over < 0.1;
        assert_eq!(found[0].severity == Severity::Stop, stop, "{over} V above the cut: {found:?}");
        let n = if stop { 0 } else { 1 + usize::from(over > 0.2) };
        seen[n] += 1;
        if n == 1 {
            let good = Volts::new(13.3);
            assert!(found[0].remedies[0].words.contains(&format!("reconnect at {good}")), "{found:?}");
        }
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
}

/// Inside measures less the battery's are whole numbers of millimetres, and so is the play that is allowed: just that is no
/// finding, half a millimetre more is one.
#[test]
fn room_to_move_of_just_what_is_allowed() {
    let play = CATALOGUE.rules.play.value.get();
    let tray = |key: &str, inside: f64| TRAY.replace("locking =", &format!("{key} = {inside}, locking ="));
    for (key, battery) in [("length_mm", 330.0), ("width_mm", 172.0)] {
        graded(Kind::CarrierLoose, &[(tray(key, battery + play), &[]), (tray(key, battery + play + 0.5), CAUTION)]);
    }
}

/// Set above all that the posts rebound to, the two settings alone decide: closing where it opens chatters.
#[test]
fn closing_just_where_it_opens() {
    let set = |again: f64| format!("cut_off = {{ cut_v = 14, reconnect_v = {again} }}");
    assert!(design_of(&set(14.0)).cut_off.rebound < Volts::new(14.0));
    graded(Kind::CutOffChatter, &[(set(14.0), STOP), (set(14.1), &[])]);
}
