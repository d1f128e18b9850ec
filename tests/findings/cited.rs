//! Which limits must a finding of each kind cite, and which plan raises it?

use loomwright::engine::FindingKind as Kind;

/// What a kind that can stop a plan holds it against: the values by the ends of their names, and changes of the
/// sound plan that raise it. Kinds that are not here hold a plan against itself, a law of physics or a rule without
/// a number.
pub const LIMITS: &[(Kind, &[&str], &str)] = &[
    (Kind::BatterySmall, &["life.depth", "life.end_of_life", "cold.capacity"], "service_battery.capacity_ah = 40"),
    (
        Kind::BatterySmall,
        &["rate.max_c"],
        r#"load = [{ name = "winch", at = "panel", power_w = 1500, duty = { hours_a_day = 0.1 } }]"#,
    ),
    (
        Kind::BatterySmall,
        &["charge.max_c"],
        r#"mains = { current_a = 80, windows = ["20:00-22:00"], at = "service battery" }"#,
    ),
    (
        Kind::BatterySmall,
        &["life.depth", "life.end_of_life", "cold.capacity", "rate.peukert", "rate.rated_h"],
        "service_battery = { chemistry = \"agm\", capacity_ah = 20, days_without_charge = 0.3 }\ncharger.current_a = \"left out\"",
    ),
    (
        Kind::BatteryNone,
        &["blocks.sizes_ah"],
        r#"service_battery = { chemistry = "gel", in_parallel = 1, days_without_charge = 60, capacity_ah = "left out" }"#,
    ),
    (Kind::BatteryRate, &["rate.max_c"], r#"load = [{ name = "winch", at = "panel", power_w = 1500 }]"#),
    (
        Kind::BatteryRate,
        &["rate.max_short_c"],
        r#"load = [{ name = "winch", at = "panel", power_w = 1000, start = { times = 5, seconds = 1 } }]"#,
    ),
    (Kind::ColdCharge, &["limits.charge_min_c"], "surroundings.coldest_c = -1"),
    (Kind::TemperatureLimit, &["limits.discharge_min_c"], "surroundings.coldest_c = -30"),
    (Kind::TemperatureLimit, &["limits.discharge_max_c"], "surroundings = { hottest_c = 62, mean_c = 30 }"),
    (
        Kind::BatteryGas,
        &["charge.gas_ma_per_ah"],
        "service_battery = { place = \"sleeping-space\", chemistry = \"flooded\" }",
    ),
    (Kind::LeftStanding, &["life.self_discharge_month"], "service_battery.chemistry = \"agm\"\nstanding.days = 400"),
    (Kind::LeftStanding, &["life.self_discharge_month", "low.own_draw_a"], "standing.days = 200"),
    (
        Kind::LeftStanding,
        &["life.self_discharge_month", "cold.freezing"],
        "service_battery.chemistry = \"flooded\"\nstanding = { days = 40, charge = 0.3, disconnected = true, coldest_c = -30 }",
    ),
    (Kind::VoltageMisfit, &["resting.soc_v"], r#"service_battery = { chemistry = "lithium-nmc" }"#),
    (Kind::ChargeVoltage, &["charge.max_v"], "charger.output_v = 15"),
    (Kind::ChargeVoltageLow, &["resting.soc_v", "resting.other_soc_v"], "charger.output_v = 12.5"),
    (Kind::ChargerFast, &["charge.max_c"], "charger.current_a = 60"),
    (Kind::ChargerInputLow, &["charger-input-low-v"], "vehicle.lowest_v = 11"),
    (
        Kind::VariableAlternator,
        &["variable-alternator-low-v"],
        "vehicle.alternator = \"variable\"\ncharger.enable_signal = false",
    ),
    (
        Kind::RelayMisfit,
        &["charge.absorption_v", "charge-below-v"],
        r#"
            charger.kind = "relay"
            vehicle.alternator_v = 13.9
            service_battery.chemistry = "flooded""#,
    ),
    (Kind::CutOffLow, &["low.damage_v"], "cut_off.cut_v = 9.9"),
    (Kind::CutOffChatter, &["resting.soc_v", "resting.other_soc_v"], "cut_off.reconnect_v = 12.7"),
    (Kind::ReconnectHigh, &["charge.absorption_v"], "cut_off.cut_v = 14.2\nsurroundings.hottest_c = 25"),
    (
        Kind::ReconnectHigh,
        &["charge.absorption_v", "charge.v_per_k"],
        "service_battery.chemistry = \"agm\"\ncut_off.cut_v = 14.2",
    ),
    (
        Kind::CutOffRating,
        &["devices.cut_offs.sizes_a"],
        r#"load = [{ name = "melter", at = "panel", power_w = 12000 }]"#,
    ),
    (Kind::StarterLow, &["resting.soc_v"], "charger = { enable_signal = false, releases_v = 11.5 }"),
    (
        Kind::DropHigh,
        &[".limit"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 9, size = "1 mm²" }]"#,
    ),
    (
        Kind::SizeNone,
        &[".limit"],
        r#"
            load = [{ name = "heater", at = "panel", power_w = 300, drop = "tolerant" }]
            run = [{ from = "service battery", to = "panel", length_m = 300 }]"#,
    ),
    (Kind::SizeNone, &["ampacity.row"], r#"load = [{ name = "melter", at = "panel", power_w = 12000 }]"#),
    (
        Kind::AmpacityLow,
        &["ampacity.row"],
        r#"
            load = [{ name = "heater", at = "panel", power_w = 300 }]
            run = [{ from = "service battery", to = "panel", length_m = 1, size = "1 mm²" }]"#,
    ),
    (
        Kind::AmpacityLow,
        &[".max_c"],
        r#"
            load = [{ name = "pump", at = "panel", current_a = 8, duty = { hours_a_day = 1 }, start = { times = 6, seconds = 20 } }]
            run = [{ from = "service battery", to = "panel", length_m = 1, size = "1.5 mm²" }]"#,
    ),
    (
        Kind::FuseSurge,
        &["gates"],
        r#"
            load = [{ name = "pump", at = "panel", current_a = 8, duty = { hours_a_day = 1 }, start = { times = 20, seconds = 60 } }]
            run = [{ from = "service battery", to = "panel", length_m = 1, size = "1.5 mm²" }]"#,
    ),
    // Some of its pulses are ridden through, not all: then the share of the opening time counts too.
    (
        Kind::FuseSurge,
        &["gates", "start-pulse-share"],
        r#"
            load = [{ name = "pump", at = "panel", current_a = 4, kind = "constant-current", start = { times = 4, seconds = 20 }, duty = { hours_a_day = 0.1 } }]
            run = [{ from = "service battery", to = "panel", length_m = 1, size = "6 mm²", fuse_a = 7.5, fuse_style = "blade-c" }]"#,
    ),
    (
        Kind::InsulationHot,
        &[".max_c"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 1, air_c = 70, insulation = "pvc-60" }]"#,
    ),
    (
        Kind::PlugSmall,
        &[".largest_mm2"],
        r#"
            plug = [{ name = "hitch" }]
            run = [
                { from = "starter battery", to = "hitch", length_m = 2, size = "16 mm2" },
                { from = "hitch", to = "charger", length_m = 1, size = "16 mm2" },
                { from = "service battery", to = "charger", length_m = 0.5 },
                { from = "service battery", to = "panel", length_m = 1.5 },
            ]"#,
    ),
    (
        Kind::PlugSmall,
        &[".most_a"],
        r#"
            plug = [{ name = "hitch" }]
            run = [
                { from = "starter battery", to = "hitch", length_m = 2, size = "2.5 mm2", fuse_a = 30 },
                { from = "hitch", to = "charger", length_m = 1, size = "2.5 mm2" },
                { from = "service battery", to = "charger", length_m = 0.5 },
                { from = "service battery", to = "panel", length_m = 1.5 },
            ]"#,
    ),
    (Kind::BondThin, &[".adiabatic_k"], r#"bond = { size = "0.5 mm2" }"#),
    (
        Kind::BondThin,
        &[".adiabatic_k"],
        r#"
            bond = { size = "35 mm2" }
            load = [{ name = "winch", at = "panel", current_a = 200 }]
            run = [{ from = "service battery", to = "panel", length_m = 1, return = "chassis" }]"#,
    ),
    (
        Kind::FuseNone,
        &["fuse-loading", "ampacity.row"],
        r#"
            load = [{ name = "lamp", at = "panel", current_a = 25 }]
            run = [{ from = "service battery", to = "panel", length_m = 1, size = "1 mm²" }]"#,
    ),
    (
        Kind::FuseUnmade,
        &[".ratings_a"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 1, size = "6 mm²", fuse_a = 22 }]"#,
    ),
    (
        Kind::FuseBig,
        &["ampacity-fuse-share", "ampacity.row"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 1, size = "2.5 mm²", fuse_a = 60 }]"#,
    ),
    (
        Kind::FuseSmall,
        &["fuse-loading", "lost_per_k"],
        r#"
            load = [{ name = "lamp", at = "panel", current_a = 9 }]
            run = [{ from = "service battery", to = "panel", length_m = 1, fuse_a = 5 }]"#,
    ),
    (
        Kind::FuseBreaking,
        &[".breaking.amps"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 0.2, fuse_style = "blade-c" }]"#,
    ),
    (
        Kind::FuseFarFault,
        &["fault-open-s"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 40, size = "1.5 mm²", fuse_a = 15 }]"#,
    ),
    (
        Kind::FuseMissing,
        &["ampacity.row"],
        r#"
            run = [
                { from = "service battery", to = "cut-off", length_m = 1, size = "16 mm²", fuse_a = 80 },
                { from = "cut-off", to = "panel", length_m = 1, size = "1 mm²", own_fuse = false }]"#,
    ),
    (
        Kind::FuseFar,
        &[".bare_m"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 4, fuse_distance_m = 0.5 }]"#,
    ),
    (
        Kind::LetThrough,
        &["adiabatic_k", "gates"],
        r#"run = [{ from = "service battery", to = "panel", length_m = 0.3, size = "1 mm²", fuse_style = "strip-30", fuse_a = 30 }]"#,
    ),
    (
        Kind::PanelFuses,
        &["adiabatic_k", "gates"],
        r#"
            charger.kind = "none"
            run = [
                { from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm²" },
                { from = "cut-off", to = "panel", length_m = 1.5, size = "16 mm²", fuse_a = 60 }]"#,
    ),
    (
        Kind::LeadsUnplanned,
        &[".bare_m"],
        r#"load = [{ name = "pump", at = "service battery", power_w = 40, before_cut_off = true }]"#,
    ),
    (
        Kind::StudWeak,
        &[".along_g", ".proof_mpa", ".tensile_mpa", ".shear_share", "bolt-partial-factor"],
        "service_battery.mass_kg = 400",
    ),
    (
        Kind::StripWeak,
        &[".along_g", "strip-yield-mpa"],
        r#"
            service_battery.mass_kg = 30
            hold_down = { style = "strip-basket", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, thickness_mm = 0.5, strip_width_mm = 12, stud = "M8", studs_along = 2, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".across_g", "strip-yield-mpa", "metal-partial-factor"],
        r#"
            service_battery.mass_kg = 30
            hold_down = { style = "strip-basket", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", "strip-yield-mpa", "metal-partial-factor"],
        r#"
            service_battery.mass_kg = 40
            hold_down = { style = "tray", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".vertical_g", "strip-yield-mpa", "metal-partial-factor"],
        r#"
            service_battery.mass_kg = 40
            hold_down = { style = "tray", shock = "heavy-vehicle-crash", battery_length_mm = 600, battery_width_mm = 500, battery_height_mm = 120, thickness_mm = 1, stud = "M8", studs_along = 2, strip_width_mm = 40, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".vertical_g", "lid-pressure-mpa"],
        r#"
            service_battery.mass_kg = 600
            hold_down = { style = "tray", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", "strip-tensile-mpa", "weld-correlation", "bolt-partial-factor"],
        r#"
            service_battery.mass_kg = 60
            hold_down = { style = "strip-basket", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, weld_length_mm = 5, weld_throat_mm = 1, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", "strip-tensile-mpa", "bolt-partial-factor"],
        r#"
            service_battery.mass_kg = 200
            hold_down = { style = "tray", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, thickness_mm = 1, stud = "M8", studs_along = 2, strip_width_mm = 40, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", "plywood-bending-mpa", "plywood-partial-factor"],
        r#"
            service_battery.mass_kg = 60
            hold_down = { style = "tray", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, deck = "plywood", deck_thickness_mm = 5, stud = "M8", studs_along = 2, strip_width_mm = 40, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", "plywood-crush-mpa", "plywood-partial-factor"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "tray", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, deck = "plywood", deck_thickness_mm = 27, stud = "M8", studs_along = 2, strip_width_mm = 40, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 40, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", ".tensile_mpa", ".shear_share", "bolt-partial-factor"],
        r#"
            service_battery.mass_kg = 10
            mounted = [{ device = "charger", mass_kg = 100, on_hold_down = false }]
            hold_down = { style = "tray", deck_thickness_mm = 12, battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::WeldUnmade,
        &["weld-least-mm"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "strip-basket", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, weld_length_mm = 20, weld_throat_mm = 2, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::WeldUnmade,
        &["weld-throat-share"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "strip-basket", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, weld_length_mm = 60, weld_throat_mm = 4, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, spreader_mm = 80, spreader_thickness_mm = 6 }"#,
    ),
    (
        Kind::FloorCrushed,
        &["strip-yield-mpa", "metal-partial-factor", "steel-modulus-mpa"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "tray", deck_depth_mm = 30, spacer_mm = 25, deck_thickness_mm = 2, battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6, rod = "M8" }"#,
    ),
    (
        Kind::FloorCrushed,
        &["aluminium-proof-mpa", "metal-partial-factor", "aluminium-modulus-mpa"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "tray", deck = "aluminium-sheet", deck_depth_mm = 30, spacer_mm = 25, deck_thickness_mm = 2, battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 120, spreader_thickness_mm = 6, rod = "M8" }"#,
    ),
    (
        Kind::FloorCrushed,
        &["plywood-bending-mpa", "plywood-partial-factor", "plywood-modulus-mpa"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "tray", deck = "plywood", deck_depth_mm = 30, spacer_mm = 25, deck_thickness_mm = 6, deck_span_mm = 200, battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6, rod = "M8" }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", ".yield_mpa", "metal-partial-factor"],
        r#"
            service_battery.mass_kg = 60
            hold_down = { style = "tray", rod_foot = "hook", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6, rod = "M6" }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", "strip-yield-mpa", "metal-partial-factor", "steel-modulus-mpa"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "tray", deck = "steel-sheet", deck_depth_mm = 30, deck_rib_mm = 0.2, deck_thickness_mm = 2, battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6, rod = "M8" }"#,
    ),
    (
        Kind::LinkWeak,
        &[".along_g", "aluminium-proof-mpa", "metal-partial-factor", "aluminium-modulus-mpa"],
        r#"
            service_battery.mass_kg = 10
            hold_down = { style = "tray", deck = "aluminium-sheet", deck_depth_mm = 30, deck_rib_mm = 0.2, deck_thickness_mm = 2, battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6, rod = "M8" }"#,
    ),
    (Kind::GroundNear, &["ground-at-stops-mm"], "beneath.ground_mm = 60\nbeneath.travel_mm = 70"),
    (Kind::GroundNear, &["ground-at-stops-mm", "spring-travel-mm"], "beneath.ground_mm = 60"),
    (Kind::TooNear, &["exhaust-bare-mm"], "beneath.exhaust_mm = 100"),
    (Kind::TooNear, &["exhaust-shielded-mm"], "beneath.exhaust_mm = 50\nbeneath.shield = true"),
    (Kind::TooNear, &["moving-near-mm"], "beneath.lines_mm = 10"),
    (
        Kind::HoldDownWeak,
        &[".along_g", ".proof_mpa", ".tensile_mpa", "bolt-partial-factor"],
        "service_battery.mass_kg = 600",
    ),
    (
        Kind::JointBad,
        &["joint-heat-w"],
        r#"
            load = [{ name = "heater", at = "panel", power_w = 150, kind = "resistance" }]
            run = [{ from = "service battery", to = "panel", length_m = 1, size = "16 mm²", fuse_a = 30 }]
            reading = [
                { at = "panel", with = "heater", voltage_v = 11.9, posts_v = 12.9, current_a = 12 },
                { at = "panel", with = "heater", voltage_v = 11.9, posts_v = 12.9, current_a = 12 }]"#,
    ),
];

/// Every plan of the table has something that holds its battery, of sizes that do not change with it.
pub const TRAY: &str = r#"
    hold_down = { style = "tray", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, locking = "double-nut", stud = "M8", studs_along = 2, strip_width_mm = 40, thickness_mm = 4, bend_radius_mm = 6, strap_leg_mm = 40, strap_thickness_mm = 4, weld_length_mm = 80, spreader_mm = 80, spreader_thickness_mm = 6, rod = "M8" }
"#;
