//! Where the battery stands, and what opens in the minus alone.

use crate::case::{design_of, found_with, severities, tell_apart};
use loomwright::engine::{FindingKind as Kind, Severity};
use loomwright::plan::Value;

/// IEC 62485-2 table 1: on boost charge free acid gives off 20 mA for each Ah, valve-regulated cells 8 mA; lithium none.
#[test]
fn gas_is_graver_the_more_there_is_and_where_somebody_sleeps() {
    let at = |place: &str, chemistry: &str| {
        severities(
            &format!("service_battery.place = \"{place}\"\nservice_battery.chemistry = \"{chemistry}\""),
            Kind::BatteryGas,
        )
    };
    assert_eq!(at("sleeping-space", "flooded"), [Severity::Stop]);
    for (place, chemistry) in [
        ("sleeping-space", "agm"),
        ("sleeping-space", "gel"),
        ("cabinet", "agm"),
        ("cabinet", "flooded"),
        ("cabin", "flooded"),
        ("under-floor", "flooded"),
    ] {
        assert_eq!(at(place, chemistry), [Severity::Caution], "{chemistry} in {place}");
    }
    for (place, chemistry) in [
        ("cabin", "agm"),
        ("vented-box", "flooded"),
        ("under-deck", "flooded"),
        ("sleeping-space", "lithium-iron-phosphate"),
    ] {
        assert_eq!(at(place, chemistry), [], "{chemistry} in {place}");
    }
}

/// IEC 62485-2: 0.05 x 6 cells x 20 mA/Ah x 100 Ah / 1000 = 0.60 m³/h, through 28 x 0.60 = 16.8 cm²; worked on paper.
#[test]
fn gas_is_told_with_its_air_and_its_openings() {
    let plan = "service_battery = { place = \"cabin\", chemistry = \"flooded\", capacity_ah = 100 }";
    let text = &found_with(plan, Kind::BatteryGas)[0].text;
    assert!(text.contains("0.6 m³/h") && text.contains("16.8 cm²"), "{text}");
}

#[test]
fn outside_it_wants_guards() {
    let all = "\"stones\", \"wash\", \"drain\", \"corrosion\", \"clearance\"";
    let plan = |guards: &str| format!("service_battery.place = \"under-deck\"\nservice_battery.guards = [{guards}]");
    tell_apart(Kind::BatteryExposed, &plan(all), &plan(&format!("{all}, \"heat\"")));
    tell_apart(Kind::BatteryExposed, "service_battery.place = \"load-bed\"", "service_battery.place = \"cabin\"");
}

/// A basket hangs under a deck, whatever is left out.
#[test]
fn a_basket_hangs_outside() {
    let basket = "hold_down = { style = \"strip-basket\", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220 }";
    tell_apart(Kind::BatteryExposed, basket, "");
}

/// The usual 80 °C of an engine bay are beyond what any battery of the catalogue may be used in; what is measured there
/// counts before them.
#[test]
fn an_engine_bay_is_too_hot() {
    let guarded = "service_battery.place = \"engine-bay\"\nservice_battery.guards = [\"wash\", \"heat\"]";
    tell_apart(Kind::TemperatureLimit, guarded, &format!("{guarded}\nservice_battery.hottest_c = 40"));
}

/// Its own air decides where it may be charged: frost outside does not reach into a box that stays warm.
#[test]
fn its_own_air_counts() {
    let cold = "surroundings.coldest_c = -10";
    tell_apart(Kind::ColdCharge, cold, &format!("{cold}\nservice_battery.coldest_c = 2"));
    let warm = design_of(&format!("{cold}\nservice_battery.coldest_c = 2\nservice_battery.capacity_ah = \"left out\""));
    let there = design_of("surroundings.coldest_c = 2\nservice_battery.capacity_ah = \"left out\"");
    assert_eq!(warm.battery.needed, there.battery.needed);
}

#[test]
fn what_opens_in_the_minus_alone_is_told() {
    let fuse = |minus| {
        format!(
            r#"run = [
                {{ from = "service battery", to = "cut-off", length_m = 0.5, fuse_in_minus = {minus} }},
                {{ from = "cut-off", to = "panel", length_m = 1.5 }},
            ]"#
        )
    };
    tell_apart(Kind::DeviceInMinus, &fuse(true), &fuse(false));
    assert_eq!(severities(&fuse(true), Kind::DeviceInMinus), [Severity::Stop]);
    assert_eq!(severities("cut_off.in_minus = true", Kind::DeviceInMinus), [Severity::Caution]);
    let by_body = r#"
        cut_off.in_minus = true
        run = [
            { from = "service battery", to = "cut-off", length_m = 0.5 },
            { from = "cut-off", to = "panel", length_m = 1.5, return = "chassis" },
        ]"#;
    assert_eq!(severities(by_body, Kind::DeviceInMinus), [Severity::Stop]);
    let switch = |rating| format!("main_switch = {{ rating_a = {rating}, in_minus = true }}");
    tell_apart(Kind::DeviceInMinus, &switch("100"), "main_switch.in_minus = true");
}

/// A radio that bears 14 V stands no charge at 14.2 V; one for 12 and 24 V stands more than the rest.
#[test]
fn what_a_load_bears_counts_before_what_is_usual() {
    let radio = |most: &str, volts: &str| {
        format!(
            r#"
                charger.output_v = {volts}
                load = [{{ name = "radio", at = "panel", power_w = 10, highest_v = {most} }}]"#
        )
    };
    tell_apart(Kind::VoltageHigh, &radio("14", "14.4"), &radio("14.5", "14.4"));
    assert_eq!(severities(&radio("14", "14.4"), Kind::VoltageHigh), [Severity::Stop]);
    tell_apart(Kind::VoltageHigh, &radio("15", "15.4"), &radio("30", "15.4"));
}

/// Worked on paper: 100 Ah behind foam lose 0.6125 W for each kelvin; kept at 5 °C in air of -15 °C that is 12.3 W.
#[test]
fn a_heated_block_is_sized_for_what_it_is_kept_at_and_its_heater_is_a_load() {
    let cold = "surroundings.coldest_c = -15\nsurroundings.daily_swing_k = 0";
    let heated = design_of(&format!("{cold}\nservice_battery.heated = true"));
    let there = design_of("surroundings.coldest_c = 5\nsurroundings.daily_swing_k = 0");
    // What the cold leaves of it is what 5 °C leave; what is asked for grows by the heater alone.
    let ratio = heated.battery.needed / there.battery.needed;
    let by_heater = heated.budget.standing_day / there.budget.standing_day;
    assert!((ratio / by_heater - 1.0).abs() < 0.01, "{ratio} and {by_heater}");
    let bank = heated.battery.bank.as_ref().unwrap().capacity.get();
    let expected = 0.35 * 0.035 / 0.02 * bank / 100.0 * 20.0 * 24.0 / heated.budget.mean_voltage.get();
    assert!((heated.budget.heater.get() - expected).abs() < 0.01, "{}", heated.budget.heater);
    // Its draw is in the days too.
    let used = |d: &loomwright::engine::Design| {
        let span = loomwright::engine::Span { days: 2, first_day: 20, ..Default::default() };
        loomwright::engine::endurance(d, span, &mut loomwright::engine::Notes::unkept()).unwrap().ledger.used.get()
    };
    let plain = design_of(cold);
    let winter = "surroundings = { mean_c = -10, yearly_swing_k = 0, daily_swing_k = 0, coldest_c = -15 }";
    let (with, without) = (design_of(&format!("{winter}\nservice_battery.heated = true")), design_of(winter));
    let per_day = (used(&with) - used(&without)) / 2.0;
    assert!((per_day - 0.6125 * 15.0 * 24.0 / 13.2).abs() < 0.4, "{per_day} Ah a day");
    assert_eq!(plain.budget.heater.get(), 0.0);
}

/// Fourier's law on paper, 0.6125 W for each kelvin and 100 Ah: a free bank gives what its loads and its own pad ask for, and
/// the trials, which reckon with the pad of the bank that they try, agree. A bank without room for its own pad is told.
#[test]
fn a_free_bank_has_the_pad_of_its_own_size() {
    for (loads, coldest) in [(20.0, -5.0_f64), (60.0, -5.0), (120.0, -10.0), (200.0, -10.0), (60.0, -20.0)] {
        let plan = format!(
            r#"service_battery = {{ chemistry = "lithium-iron-phosphate", heated = true, kept_at_c = 5, capacity_ah = "left out", days_without_charge = 1 }}
            surroundings = {{ coldest_c = {coldest}, daily_swing_k = 0 }}
            load = [{{ name = "heating fan", at = "panel", power_w = {loads}, duty = {{ hours_a_day = 12 }} }}]"#
        );
        let design = design_of(&plan);
        let (bank, day) = (design.battery.bank.as_ref().unwrap(), &design.budget);
        let pad = 0.6125 * bank.capacity.get() / 100.0 * (5.0 - coldest) * 24.0;
        assert!((day.heater.get() - pad / day.mean_voltage.get()).abs() < 0.01, "{plan}: {}", day.heater);
        assert!(design.battery.needed <= bank.capacity, "{plan}: {} of {}", design.battery.needed, bank.capacity);
        assert!(design.promise.held(), "{plan}: {:?}", design.findings);
        assert!(design.findings.iter().all(|f| f.kind != Kind::PromiseBroken));
        // Of a bank that is half as large it is said what lasts, and that does.
        let given = |capacity: f64| plan.replace(r#""left out""#, &format!("{capacity}"));
        let small = design_of(&given(bank.capacity.get() / 2.0));
        let lasts = small.findings.iter().filter(|f| f.kind == Kind::PromiseBroken).flat_map(|f| &f.remedies);
        let lasts = lasts.filter(|r| r.words.ends_with("last that long")).flat_map(|r| &r.edits);
        let said = lasts.filter_map(|edit| match edit.value {
            Some(Value::Number(capacity)) => Some(capacity),
            _ => None,
        });
        for capacity in said {
            assert!(design_of(&given(capacity)).promise.held(), "{plan}: {capacity} Ah");
        }
    }
}

/// A pad too weak for the cold does not make it fit to be charged.
#[test]
fn a_heater_that_is_too_weak_is_told() {
    let pad =
        |watts: u32| format!("surroundings.coldest_c = -15\nservice_battery = {{ heated = true, heater_w = {watts} }}");
    tell_apart(Kind::ColdCharge, &pad(5), &pad(15));
    tell_apart(Kind::HeaterDraw, &pad(15), &pad(5));
}

#[test]
fn blocks_that_differ_are_told() {
    let blocks = |second: &str| {
        format!(
            "service_battery = {{ chemistry = \"agm\", capacity_ah = \"left out\" }}\nblock = [{{ capacity_ah = 100 }}, {{ {second} }}]"
        )
    };
    let alike = blocks("capacity_ah = 100");
    for (second, severity) in [
        ("capacity_ah = 100, chemistry = \"lithium-iron-phosphate\"", Severity::Stop),
        ("capacity_ah = 80", Severity::Caution),
        ("capacity_ah = 100, age_y = 3", Severity::Caution),
    ] {
        tell_apart(Kind::BlocksMixed, &blocks(second), &alike);
        assert_eq!(severities(&blocks(second), Kind::BlocksMixed), [severity], "{second}");
    }
    let bank = design_of(&alike).battery.bank.unwrap();
    assert_eq!((bank.capacity.get(), bank.blocks), (200.0, 2));
}

/// What its own protection lets pass counts before what its kind gives.
#[test]
fn the_limits_on_its_label_count() {
    let winch = r#"load = [{ name = "winch", at = "panel", power_w = 600, duty = { hours_a_day = 0.1 } }]"#;
    let gives = |amps: u32| format!("service_battery.gives_a = {amps}\n{winch}");
    tell_apart(Kind::BatteryRate, &gives(40), &gives(80));
    tell_apart(Kind::ChargerFast, "service_battery.takes_a = 15", "service_battery.takes_a = 25");
}
