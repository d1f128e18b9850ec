//! Duty, battery, charging, cut-off.

use crate::case::{Case, found_in_days, plan_of, run, text_with};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Edit, FindingKind as Kind, Span, design};
use loomwright::plan::{Value, set};

const FRIDGE: &str = r#"load = [{ name = "fridge", at = "panel", power_w = 40, duty = { share_on = 0.4 } }]"#;

#[test]
fn surroundings() {
    run(&[
        Case {
            kind: Kind::AirContradicts,
            raises: "surroundings.coldest_c = 40",
            quiet: "surroundings.coldest_c = 18",
        },
        Case { kind: Kind::AirContradicts, raises: "surroundings.mean_c = 40", quiet: "surroundings.mean_c = 35" },
        Case { kind: Kind::AirContradicts, raises: "surroundings.mean_c = 4", quiet: "surroundings.mean_c = 5" },
    ]);
}

/// What hangs on the posts has no fuse in the plan.
#[test]
fn leads() {
    run(&[
        Case {
            kind: Kind::LeadsUnplanned,
            raises: r#"mains = { current_a = 10, windows = ["20:00-06:00"], at = "service battery" }"#,
            quiet: r#"mains = { current_a = 10, windows = ["20:00-06:00"], at = "panel" }"#,
        },
        Case {
            kind: Kind::LeadsUnplanned,
            raises: r#"load = [{ name = "pump", at = "service battery", power_w = 40 }]"#,
            quiet: r#"load = [{ name = "pump", at = "panel", power_w = 40 }]"#,
        },
        // The maker's own fuse in its leads.
        Case {
            kind: Kind::LeadsUnplanned,
            raises: r#"load = [{ name = "pump", at = "service battery", power_w = 40, before_cut_off = true }]"#,
            quiet: r#"load = [{ name = "pump", at = "service battery", power_w = 40, before_cut_off = true, tail_fuse_a = 5 }]"#,
        },
    ]);
}

/// With all loads on a reading names no run, but a point that has too little is said so.
#[test]
fn readings() {
    let sized = r#"
        run = [
            { from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" },
            { from = "cut-off", to = "panel", length_m = 1.5, size = "6 mm2" },
        ]
        charger.kind = "none"
        reading = [{ at = "panel", with = "fridge", voltage_v = 13.15, posts_v = 13.20 }]"#;
    run(&[Case {
        kind: Kind::ReadingUnbuilt,
        raises: r#"reading = [{ at = "panel", with = "fridge", voltage_v = 13.15, posts_v = 13.20 }]"#,
        quiet: sized,
    }]);
    run(&[Case {
        kind: Kind::ReadingOutside,
        raises: r#"reading = [{ at = "panel", with = "all loads", voltage_v = 12.60, posts_v = 13.20 }]"#,
        quiet: r#"reading = [{ at = "panel", with = "all loads", voltage_v = 12.95, posts_v = 13.20 }]"#,
    }]);
}

#[test]
fn duty() {
    run(&[
        Case {
            kind: Kind::LoadEmpty,
            raises: r#"load = [{ name = "lamp", at = "panel" }]"#,
            quiet: r#"load = [{ name = "lamp", at = "panel", current_a = 1 }]"#,
        },
        Case {
            kind: Kind::DutyTooLong,
            raises: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { hours_a_day = 5, windows = ["20:00-23:00"] } }]"#,
            quiet: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { hours_a_day = 3, windows = ["20:00-23:00"] } }]"#,
        },
        Case {
            kind: Kind::DutyTooLong,
            raises: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { hours_a_day = 13, when = "night" } }]"#,
            quiet: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { hours_a_day = 12, when = "night" } }]"#,
        },
        Case {
            kind: Kind::DutyNever,
            raises: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { when = "night", windows = ["10:00-12:00"] } }]"#,
            quiet: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { when = "day", windows = ["10:00-12:00"] } }]"#,
        },
        Case {
            kind: Kind::DutyNever,
            raises: r#"
                vehicle.driving = []
                load = [{ name = "seat heater", at = "panel", power_w = 5, duty = { when = "driving" } }]"#,
            quiet: r#"load = [{ name = "seat heater", at = "panel", power_w = 5, duty = { when = "driving" } }]"#,
        },
        Case {
            kind: Kind::InverterMissing,
            raises: r#"load = [{ name = "laptop", inverter = true, power_w = 60, duty = { hours_a_day = 1 } }]"#,
            quiet: r#"
                inverter.rating_w = 300
                load = [{ name = "laptop", inverter = true, power_w = 60, duty = { hours_a_day = 1 } }]"#,
        },
        // 250 W × 6 is 1,500 W; 300 W gives 600 W for a moment, 800 W gives 1,600 W.
        Case {
            kind: Kind::InverterSurge,
            raises: r#"
                inverter.rating_w = 300
                load = [{ name = "grinder", inverter = true, power_w = 250, start = { times = 6, seconds = 0.5 }, duty = { hours_a_day = 0.2 } }]"#,
            quiet: r#"
                inverter.rating_w = 800
                load = [{ name = "grinder", inverter = true, power_w = 250, start = { times = 6, seconds = 0.5 }, duty = { hours_a_day = 0.2 } }]"#,
        },
        Case {
            kind: Kind::InverterSmall,
            raises: r#"
                inverter.rating_w = 100
                load = [{ name = "laptop", inverter = true, count = 2, power_w = 60, duty = { hours_a_day = 1 } }]"#,
            quiet: r#"
                inverter.rating_w = 100
                load = [
                    { name = "laptop", inverter = true, power_w = 60, not_with = "one", duty = { hours_a_day = 1 } },
                    { name = "printer", inverter = true, power_w = 60, not_with = "one", duty = { hours_a_day = 1 } },
                ]"#,
        },
    ]);
}

#[test]
fn battery_size() {
    run(&[
        Case {
            kind: Kind::BatterySmall,
            raises: "service_battery.capacity_ah = 40",
            quiet: "service_battery.capacity_ah = 100",
        },
        Case {
            kind: Kind::BatteryNone,
            raises: r#"service_battery = { chemistry = "gel", in_parallel = 1, days_without_charge = 60, capacity_ah = "left out" }"#,
            quiet: r#"service_battery = { chemistry = "gel", in_parallel = 1, days_without_charge = 1, capacity_ah = "left out" }"#,
        },
        // 100 Ah AGM kept at 50 %: 5 A for two days are 240 Ah, for half a day 60 Ah of what age leaves of it.
        Case {
            kind: Kind::PromiseBroken,
            raises: r#"
                service_battery = { capacity_ah = 100, days_without_charge = 2 }
                load = [{ name = "lamp", at = "panel", current_a = 5, kind = "constant-current" }]"#,
            quiet: r#"
                service_battery = { capacity_ah = 100, days_without_charge = 0.2 }
                load = [{ name = "lamp", at = "panel", current_a = 5, kind = "constant-current" }]"#,
        },
        // Driven on Saturdays only: what lasts a day does not last till then.
        Case {
            kind: Kind::UsualWeeks,
            raises: r#"
                service_battery.days_without_charge = 1
                vehicle.driving_days = "sat""#,
            quiet: r#"
                service_battery.days_without_charge = 0.5
                vehicle.driving_days = "every day""#,
        },
        // Every second Saturday leaves a fortnight between drives, which a day's bank does not bridge.
        Case {
            kind: Kind::UsualWeeks,
            raises: r#"
                service_battery.days_without_charge = 1
                vehicle.driving_days = "A: sat""#,
            quiet: r#"
                service_battery.days_without_charge = 0.5
                vehicle.driving_days = "A: mon-sun; B: mon-sun""#,
        },
        // 60 W × (0.3 + 0.02 × 5 K) × 24 h / 13.2 V = 44 Ah a day at the hottest day's 30 °C; 100 Ah old gives 64 Ah.
        Case {
            kind: Kind::HotDays,
            raises: r#"
                service_battery.days_without_charge = 1.5
                load = [{ name = "fridge", at = "panel", power_w = 60, duty = { share_on = 0.3, share_per_k = 0.02 } }]"#,
            quiet: r#"
                service_battery.days_without_charge = 1.5
                load = [{ name = "fridge", at = "panel", power_w = 60, duty = { share_on = 0.3 } }]"#,
        },
        // 1,000 W / 0.9 / 13 V is 85 A and more with the fridge; the bank gives 1 C.
        Case {
            kind: Kind::BatterySmall,
            raises: r#"inverter = { rating_w = 2000, at = "panel" }"#,
            quiet: r#"inverter = { rating_w = 1000, at = "panel" }"#,
        },
        Case { kind: Kind::DepthDeep, raises: "service_battery.depth = 0.95", quiet: "service_battery.depth = 0.8" },
        Case { kind: Kind::DepthDeep, raises: "cut_off.reserve = 0", quiet: "cut_off.reserve = 0.1" },
        Case {
            kind: Kind::DepthDeep,
            raises: "service_battery.depth = 0.8\ncut_off.reserve = 0.4",
            quiet: "service_battery.depth = 0.6\ncut_off.reserve = 0.4",
        },
        Case {
            kind: Kind::FoundTwice,
            raises: "service_battery.tested_ah = 80\nmeasured = [{ year = 2026, month = 3, capacity_ah = 74 }]",
            quiet: "service_battery.tested_ah = 74\nmeasured = [{ year = 2026, month = 3, capacity_ah = 74 }]",
        },
        Case {
            kind: Kind::FoundTwice,
            raises: "service_battery.tested_ah = 80\nmeasured = [{ year = 2026, month = 3, capacity_ah = 74 }]",
            quiet: "measured = [{ year = 2026, month = 3, capacity_ah = 74 }]",
        },
        Case {
            kind: Kind::ParallelMany,
            raises: r#"service_battery = { chemistry = "agm", capacity_ah = 400, in_parallel = 4 }"#,
            quiet: r#"service_battery = { chemistry = "agm", capacity_ah = 300, in_parallel = 3 }"#,
        },
        Case {
            kind: Kind::BlockFuses,
            raises: r#"service_battery = { chemistry = "lithium-iron-phosphate", capacity_ah = 600, in_parallel = 2 }"#,
            quiet: r#"service_battery = { chemistry = "lithium-iron-phosphate", capacity_ah = 500, in_parallel = 2 }"#,
        },
        Case {
            kind: Kind::ParallelAlike,
            raises: r#"service_battery = { chemistry = "agm", capacity_ah = 200, in_parallel = 2 }"#,
            quiet: r#"service_battery = { chemistry = "lithium-iron-phosphate", capacity_ah = 200, in_parallel = 2 }"#,
        },
        Case {
            kind: Kind::ParallelAlike,
            raises: r#"service_battery = { chemistry = "gel", capacity_ah = 300, in_parallel = 3 }"#,
            quiet: r#"service_battery = { chemistry = "gel", capacity_ah = 200, in_parallel = 1 }"#,
        },
        Case {
            kind: Kind::HeaterDraw,
            raises: "surroundings.coldest_c = -5\nservice_battery.heated = true",
            quiet: "surroundings.coldest_c = 5\nservice_battery.heated = true",
        },
        Case {
            kind: Kind::VoltageMisfit,
            raises: r#"service_battery = { chemistry = "lithium-nmc" }"#,
            quiet: r#"service_battery = { chemistry = "agm" }"#,
        },
    ]);
}

#[test]
fn battery_limits() {
    run(&[
        Case {
            kind: Kind::ColdCharge,
            raises: "surroundings.coldest_c = -1",
            quiet: "surroundings.coldest_c = -1\nservice_battery.heated = true",
        },
        Case {
            kind: Kind::TemperatureLimit,
            raises: "surroundings.coldest_c = -30",
            quiet: "surroundings.coldest_c = -15",
        },
        Case {
            kind: Kind::TemperatureLimit,
            raises: "surroundings.hottest_c = 50",
            quiet: "surroundings.hottest_c = 44",
        },
        Case {
            kind: Kind::Freezing,
            raises: "surroundings.coldest_c = -30\nservice_battery = { chemistry = \"flooded\", capacity_ah = 225 }",
            quiet: "surroundings.coldest_c = -15\nservice_battery = { chemistry = \"flooded\", capacity_ah = 225 }",
        },
        Case {
            kind: Kind::SurgeDeep,
            raises: r#"
                service_battery.resistance_mohm = 40
                load = [{ name = "winch", at = "panel", power_w = 300, duty = { hours_a_day = 0.1 }, start = { times = 4, seconds = 1 } }]"#,
            quiet: r#"load = [{ name = "winch", at = "panel", power_w = 300, duty = { hours_a_day = 0.1 }, start = { times = 4, seconds = 1 } }]"#,
        },
        Case {
            kind: Kind::BatteryRate,
            raises: r#"load = [{ name = "winch", at = "panel", power_w = 1500, duty = { hours_a_day = 0.1 } }]"#,
            quiet: r#"load = [{ name = "winch", at = "panel", power_w = 1000, duty = { hours_a_day = 0.1 } }]"#,
        },
    ]);
}

#[test]
fn charging() {
    run(&[
        Case {
            kind: Kind::NoCharge,
            raises: r#"charger.kind = "none""#,
            quiet: "charger.kind = \"none\"\nsolar = { array_w = 200, at = \"service battery\" }",
        },
        Case { kind: Kind::NoCharge, raises: "vehicle.driving = []", quiet: "" },
        Case { kind: Kind::ChargerSlow, raises: "charger.current_a = 5", quiet: "charger.current_a = 20" },
        Case { kind: Kind::ChargerFast, raises: "charger.current_a = 60", quiet: "charger.current_a = 50" },
        Case {
            kind: Kind::ChargerFast,
            raises: "mains = { current_a = 80, windows = [\"20:00-22:00\"], at = \"service battery\" }",
            quiet: "mains = { current_a = 30, windows = [\"20:00-22:00\"], at = \"service battery\" }",
        },
        Case {
            kind: Kind::AlternatorShort,
            raises: "vehicle.alternator_a = 50",
            // Even at idle 170 A of rating leave enough.
            quiet: "vehicle.alternator_a = 170",
        },
        Case {
            kind: Kind::ChargerNone,
            raises: r#"
                service_battery = { chemistry = "agm", capacity_ah = 60 }
                vehicle.driving = ["07:00-07:30"]
                charger.current_a = "left out""#,
            quiet: "charger.current_a = \"left out\"",
        },
        Case {
            kind: Kind::VariableAlternator,
            raises: "vehicle.alternator = \"variable\"\ncharger.enable_signal = false",
            quiet: "vehicle.alternator = \"variable\"\ncharger.enable_signal = true",
        },
        Case {
            kind: Kind::VariableAlternator,
            raises: "vehicle.alternator = \"variable\"\ncharger.kind = \"relay\"",
            quiet: "vehicle.alternator = \"variable\"\ncharger.kind = \"dc-dc\"",
        },
        Case {
            kind: Kind::RelayMisfit,
            raises: "charger.kind = \"relay\"",
            quiet: "charger.kind = \"relay\"\nservice_battery.chemistry = \"agm\"",
        },
        Case {
            kind: Kind::ChargerInputLow,
            raises: "vehicle.lowest_v = 11.5\ncharger.lowest_input_v = 11.5",
            quiet: "vehicle.lowest_v = 12.5\ncharger.lowest_input_v = 11.5",
        },
        Case {
            kind: Kind::ChargerBehindCutOff,
            raises: r#"run = [
                { from = "starter battery", to = "charger", length_m = 2 },
                { from = "service battery", to = "cut-off", length_m = 0.5 },
                { from = "cut-off", to = "charger", length_m = 0.5 },
                { from = "cut-off", to = "panel", length_m = 1.5 }]"#,
            quiet: "",
        },
    ]);
}

#[test]
fn charge_voltage() {
    run(&[
        Case { kind: Kind::ChargeVoltage, raises: "charger.output_v = 16.0", quiet: "charger.output_v = 14.2" },
        Case {
            kind: Kind::ChargeVoltage,
            raises: "service_battery.chemistry = \"gel\"\ncharger.output_v = 14.8",
            quiet: "service_battery.chemistry = \"gel\"\ncharger.output_v = 14.1",
        },
    ]);
}

#[test]
fn cut_off_settings() {
    run(&[
        Case { kind: Kind::CutOffRange, raises: "cut_off.highest_v = 12.0", quiet: "cut_off.highest_v = 14.0" },
        Case { kind: Kind::CutOffLow, raises: "cut_off.cut_v = 9.9", quiet: "cut_off.cut_v = 13.0" },
        Case {
            kind: Kind::CutOffLow,
            raises: "service_battery.chemistry = \"agm\"\ncut_off.cut_v = 11.8",
            quiet: "service_battery.chemistry = \"agm\"\ncut_off.cut_v = 12.3",
        },
        Case {
            kind: Kind::CutOffSurge,
            raises: r#"
                cut_off.delay_s = 1
                load = [{ name = "winch", at = "panel", power_w = 300, duty = { hours_a_day = 0.1 }, start = { times = 4, seconds = 2 } }]"#,
            quiet: r#"
                cut_off.delay_s = 5
                load = [{ name = "winch", at = "panel", power_w = 300, duty = { hours_a_day = 0.1 }, start = { times = 4, seconds = 2 } }]"#,
        },
        Case { kind: Kind::CutOffChatter, raises: "cut_off.reconnect_v = 12.7", quiet: "cut_off.reconnect_v = 13.3" },
        Case { kind: Kind::ReconnectHigh, raises: "cut_off.reconnect_v = 14.3", quiet: "cut_off.reconnect_v = 13.3" },
        Case {
            kind: Kind::CutOffOrder,
            raises: r#"load = [{ name = "radio", at = "panel", power_w = 40, own_cut_v = 13.2 }]"#,
            quiet: r#"load = [{ name = "radio", at = "panel", power_w = 40, own_cut_v = 11.0 }]"#,
        },
        Case { kind: Kind::CutOffFlat, raises: "cut_off.reserve = 0.55", quiet: "cut_off.reserve = 0.2" },
    ]);
}

#[test]
fn cut_off_wiring() {
    run(&[
        Case { kind: Kind::CutOffRating, raises: "cut_off.rating_a = 2", quiet: "" },
        // 10 A carry what flows, but the fuse before it lets more through.
        Case { kind: Kind::CutOffRating, raises: "cut_off.rating_a = 10", quiet: "" },
        Case {
            kind: Kind::CutOffEarly,
            raises: r#"
                service_battery.chemistry = "agm"
                load = [{ name = "heater", at = "panel", power_w = 400, duty = { hours_a_day = 0.5 } }, { name = "fridge", at = "panel", power_w = 40, duty = { share_on = 0.4 } }]"#,
            quiet: FRIDGE,
        },
        Case {
            kind: Kind::CutOffMissing,
            raises: r#"load = [{ name = "fridge", at = "service battery", power_w = 40 }]"#,
            quiet: r#"load = [{ name = "fridge", at = "service battery", power_w = 40, before_cut_off = true }]"#,
        },
        Case {
            kind: Kind::PreCharge,
            raises: r#"inverter = { rating_w = 300, at = "panel" }"#,
            quiet: r#"inverter = { rating_w = 300, at = "panel", pre_charged = true }"#,
        },
        // No contact of the plan closes onto what hangs on the posts.
        Case {
            kind: Kind::PreCharge,
            raises: r#"inverter = { rating_w = 300, at = "cut-off" }"#,
            quiet: r#"inverter = { rating_w = 300, at = "service battery" }"#,
        },
        Case {
            kind: Kind::MainsNever,
            raises: r#"mains = { current_a = 10, windows = ["20:00-06:00"] }"#,
            quiet: r#"mains = { current_a = 10, windows = ["20:00-06:00"], days = "sat" }"#,
        },
        Case { kind: Kind::MainsNever, raises: r#"mains = { current_a = 10, days = "sat" }"#, quiet: "" },
        Case {
            kind: Kind::CutOffChatter,
            raises: r#"cut_off = { acts_by = "charge", opens_at = 0.4, closes_at = 0.4 }"#,
            quiet: r#"cut_off = { acts_by = "charge", opens_at = 0.4, closes_at = 0.41 }"#,
        },
        Case {
            kind: Kind::StandingDraw,
            raises: r#"load = [{ name = "fridge", at = "service battery", power_w = 40, before_cut_off = true }]"#,
            quiet: FRIDGE,
        },
        Case {
            kind: Kind::StarterLow,
            raises: "charger = { enable_signal = false, releases_v = 11.0 }",
            quiet: "charger = { enable_signal = false, releases_v = 12.8 }",
        },
        Case {
            kind: Kind::StarterLow,
            raises: "charger = { enable_signal = false, engages_v = 12.5 }",
            quiet: "charger = { enable_signal = false, engages_v = 13.3 }",
        },
    ]);
}

#[test]
fn days_of_use() {
    let month = Span { days: 28, ..Span::default() };
    let (no_sun, little) = ("vehicle.driving = []", "charger.current_a = 5");
    assert_eq!(found_in_days(no_sun, month, Kind::EnduranceCut).len(), 1);
    assert!(found_in_days("", month, Kind::EnduranceCut).is_empty());
    // Driving a little every day puts back less than is used, so it drifts down before it is cut.
    let slowly = Span { days: 21, ..month };
    let small = "vehicle.driving = [\"07:00-08:50\"]\nservice_battery.capacity_ah = 1000\ncharger.current_a = 10";
    assert_eq!(found_in_days(small, slowly, Kind::EnduranceDrift).len(), 1);
    assert!(found_in_days("", slowly, Kind::EnduranceDrift).is_empty());
    assert!(found_in_days(little, Span { days: 7, ..month }, Kind::EnduranceDrift).is_empty(), "a week does not tell");
}

/// By hand: 26 W at some 12.4 V are 2.1 A; over the 22 hours without the engine 46 Ah, to put back. The sun stores
/// 230 W × 3 h × 0.7 / 14.4 V / 1.2 = 28 Ah, two hours of 10 A less 2.1 A over 1.2 another 13 Ah: 5 Ah are missing, and
/// (46 - 28) × 1.2 / 2 h + 2.1 A are 13 A. Without the sun it would be 46 × 1.2 / 2 h + 2.1 A, 30 A.
#[test]
fn what_is_offered_for_a_slow_charger_counts_the_sun_and_mends() {
    let catalogue = Catalogue::embedded().unwrap();
    let text = text_with(
        r#"
        surroundings.hottest_c = 40
        vehicle.driving = ["08:00-10:00"]
        service_battery = { chemistry = "agm", capacity_ah = 300 }
        charger.current_a = 10
        solar = { array_w = 230, sun_hours = 3, at = "panel" }
        load = [{ name = "logger", at = "panel", power_w = 26 }]"#,
    );
    let slow = |text: &str| {
        let all = design(&plan_of(text, &catalogue), &catalogue).findings;
        all.into_iter().find(|f| f.kind == Kind::ChargerSlow)
    };
    let found = slow(&text).expect("too little comes in");
    let Edit { place, value } =
        found.remedies.iter().find_map(|r| r.edits.first().cloned()).expect("a charger is offered");
    assert_eq!(place.key, "current_a");
    let Some(Value::Number(amps)) = value else { panic!("{value:?}") };
    assert!((12.0..=15.0).contains(&amps), "{amps} A");
    assert!(slow(&set(&text, place, value.as_ref()).unwrap()).is_none(), "{amps} A do not mend it");
}
