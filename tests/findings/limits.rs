//! What stands exactly at its limit is not beyond it, a hair more is; and the numbers that findings tell are those that
//! paper gives. The limits are those of the catalogue, each with its source there; the rest is arithmetic.

use crate::case::{design_of, found_with, plan_of, severities, text_with};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{FindingKind as Kind, Severity, Subject, design};
use loomwright::plan::{Value, set};

/// A lamp of so many amperes at any voltage, for a moment a day.
pub fn lamp(amps: f64) -> String {
    format!(
        "load = [{{ name = \"lamp\", at = \"panel\", current_a = {amps}, kind = \"constant-current\", duty = {{ hours_a_day = 0.1 }} }}]\n"
    )
}

/// The sound plan's runs with something said of the last two.
pub fn runs(main: &str, last: &str) -> String {
    format!(
        r#"run = [
            {{ from = "starter battery", to = "charger", length_m = 2, insulation = "xlpe-125" }},
            {{ from = "service battery", to = "charger", length_m = 0.5 }},
            {{ from = "service battery", to = "cut-off", length_m = 0.5 {main} }},
            {{ from = "cut-off", to = "panel", length_m = 1.5 {last} }},
        ]
        "#
    )
}

/// The sound plan's feed with another length and size.
fn feed(metres: f64, size: &str) -> String {
    runs("", "").replacen("length_m = 2,", &format!("length_m = {metres}, size = \"{size}\","), 1)
}

/// A basket round a block of 330 × 172 × 220 mm with 5 mm of clearance.
pub fn basket(more: &str) -> String {
    format!(
        r#"
        service_battery.mass_kg = 12
        hold_down = {{ style = "strip-basket", battery_length_mm = 330, battery_width_mm = 172, battery_height_mm = 220, locking = "double-nut", thickness_mm = 6, strip_width_mm = 40, strap_leg_mm = 40, strap_thickness_mm = 4, stud = "M8", studs_along = 2, clearance_mm = 5 }}
        {more}"#
    )
}

#[track_caller]
pub fn graded(kind: Kind, cases: &[(String, &[Severity])]) {
    for (plan, wanted) in cases {
        assert_eq!(severities(plan, kind), *wanted, "{kind:?}: {plan}");
    }
}

pub const STOP: &[Severity] = &[Severity::Stop];
pub const CAUTION: &[Severity] = &[Severity::Caution];

/// All its words and those of its remedies.
#[track_caller]
pub fn told(plan: &str, kind: Kind) -> String {
    let found = found_with(plan, kind);
    assert!(!found.is_empty(), "{kind:?} is not raised by {plan}");
    let words =
        found.iter().flat_map(|f| [f.text.clone()].into_iter().chain(f.remedies.iter().map(|r| r.words.clone())));
    words.collect::<Vec<_>>().join(" | ")
}

#[track_caller]
pub fn says(plan: &str, kind: Kind, words: &[&str]) {
    let told = told(plan, kind);
    assert!(words.iter().all(|w| told.contains(w)), "{told} has not all of {words:?}");
}

/// A number that is offered is enough and no more: with it the finding goes, a step nearer to what is planned it stays.
#[track_caller]
pub fn enough_and_no_more(plan: &str, kind: Kind, key: &str, step: f64) {
    let catalogue = Catalogue::embedded().unwrap();
    let text = text_with(plan);
    let has = |text: &str| design(&plan_of(text, &catalogue), &catalogue).findings.iter().any(|f| f.kind == kind);
    let found = found_with(plan, kind);
    let edits = found.iter().flat_map(|f| &f.remedies).filter(|r| r.edits.len() == 1).map(|r| &r.edits[0]);
    let mut tried = 0;
    for edit in edits.filter(|e| e.place.key == key) {
        let Some(Value::Number(offered)) = edit.value else { panic!("{edit:?}") };
        let with = |number: f64| set(&text, edit.place, Some(&Value::Number(number))).unwrap();
        assert!(!has(&with(offered)), "{kind:?}: {key} = {offered} is not enough");
        assert!(has(&with(offered - step)), "{kind:?}: {key} = {offered} is more than needed");
        tried += 1;
    }
    assert!(tried > 0, "{kind:?}: no number for {key} is offered: {found:#?}");
}

/// LFP gives 1 C and takes 0.5 C (its profile): 100 A and 50 A of 100 Ah.
#[test]
fn currents_of_the_battery() {
    let rate = |amps: f64, more: &str| format!("{}{more}", lamp(amps));
    graded(Kind::BatteryRate, &[(rate(100.0, ""), &[]), (rate(100.5, ""), STOP)]);
    let own = "service_battery.gives_a = 50";
    graded(Kind::BatteryRate, &[(rate(50.0, own), &[]), (rate(50.5, own), STOP)]);
    says(&rate(60.0, own), Kind::BatteryRate, &["a battery that gives 60 A, or 10 A less at a time"]);
    says(&rate(110.0, ""), Kind::BatteryRate, &["gives 100 A at most", "110 Ah or more", "or 10 A less at a time"]);
    enough_and_no_more(&rate(110.0, ""), Kind::BatteryRate, "capacity_ah", 1.0);
    let charger = |amps: f64, more: &str| format!("charger.current_a = {amps}\n{more}");
    graded(Kind::ChargerFast, &[(charger(50.0, ""), &[]), (charger(50.5, ""), STOP)]);
    let takes = "service_battery.takes_a = 20";
    graded(Kind::ChargerFast, &[(charger(20.0, takes), &[]), (charger(20.5, takes), STOP)]);
    says(&charger(60.0, ""), Kind::ChargerFast, &["the charger gives 60 A", "takes 50 A", "50 A or less", "120 Ah"]);
    let mains = |amps: f64| format!("mains = {{ current_a = {amps}, windows = [\"20:00-22:00\"], at = \"panel\" }}");
    graded(Kind::ChargerFast, &[(mains(50.0), &[]), (mains(50.5), STOP)]);
    says(&mains(80.0), Kind::ChargerFast, &["the mains charger gives 80 A", "160 Ah"]);
    // As much as the charger: it is the charger that is named.
    says(&format!("charger.current_a = 60\n{}", mains(60.0)), Kind::ChargerFast, &["the charger gives 60 A"]);
    for plan in [charger(60.0, ""), mains(80.0)] {
        let found = found_with(&plan, Kind::ChargerFast);
        assert_eq!(found[0].place.unwrap().key, "current_a");
    }
    // The number that is offered for the current is the most, a tenth more is too much: the step goes the other way.
    enough_and_no_more(&charger(60.0, ""), Kind::ChargerFast, "current_a", -0.1);
    enough_and_no_more(&charger(60.0, ""), Kind::ChargerFast, "capacity_ah", 1.0);
}

/// LFP: used from -20 to 60 °C, charged from 0 to 45 °C (its profile).
#[test]
fn temperatures_of_the_battery() {
    let air = |key: &str, celsius: f64| format!("surroundings.{key} = {celsius}");
    let cold = |celsius: f64| format!("{}\ncharger.kind = \"none\"", air("coldest_c", celsius));
    graded(Kind::TemperatureLimit, &[(cold(-20.0), &[]), (cold(-20.5), STOP)]);
    let hot = |celsius: f64| air("hottest_c", celsius);
    graded(Kind::TemperatureLimit, &[(hot(45.0), &[]), (hot(45.5), CAUTION), (hot(60.0), CAUTION), (hot(60.5), STOP)]);
    // What charges it makes no odds: the engine, the sun or the mains; where nothing does there is nothing to forbid.
    graded(
        Kind::ColdCharge,
        &[
            (air("coldest_c", 0.0), &[]),
            (air("coldest_c", -0.5), STOP),
            (cold(-5.0), &[]),
            (format!("{}\nsolar.array_w = 100", cold(-5.0)), STOP),
            (format!("{}\nmains = {{ current_a = 10, windows = [\"20:00-22:00\"] }}", cold(-5.0)), STOP),
        ],
    );
    // What is offered instead may be charged in that cold.
    let plan = air("coldest_c", -5.0);
    let catalogue = Catalogue::embedded().unwrap();
    let found = found_with(&plan, Kind::ColdCharge);
    let other = found[0].remedies.iter().flat_map(|r| &r.edits).find(|e| e.place.key == "chemistry").unwrap();
    let Some(Value::Text(other)) = &other.value else { panic!("{other:?}") };
    let other = catalogue.chemistries.iter().find(|c| c.key == *other).unwrap();
    assert!(other.limits.charge_min.get() <= -5.0, "{}", other.key);
    // Lithium for lithium: what is nearest to what was wanted.
    let nmc = found_with("service_battery.chemistry = \"lithium-nmc\"", Kind::VoltageMisfit);
    let offered = nmc[0].remedies[0].edits[0].value.clone();
    assert_eq!(offered, Some(Value::Text("lithium-iron-phosphate".into())));
}

/// A twentieth short is a caution (our own border); what is offered is in proportion to what is needed.
#[test]
fn a_battery_that_is_too_small() {
    let with = |ah: f64| format!("service_battery.capacity_ah = {ah:.3}");
    // What is needed depends a little on what is there; where the trial of its days holds all the same, it is a caution.
    let mut seen = [0; 4];
    for ah in (40..=60).map(f64::from) {
        let design = design_of(&with(ah));
        let short = 1.0 - ah / design.battery.needed.get();
        let breaks = design.findings.iter().any(|f| f.kind == Kind::PromiseBroken);
        let (n, wanted): (usize, &[Severity]) = match short {
            short if short <= 0.0 => (0, &[]),
            short if short < 0.05 => (1, CAUTION),
            _ if !breaks => (2, CAUTION),
            _ => (3, STOP),
        };
        seen[n] += 1;
        assert_eq!(severities(&with(ah), Kind::BatterySmall), wanted, "{ah} Ah are short by {short}");
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
    let small = design_of(&with(40.0));
    let (day, needed) = (small.budget.standing_day, small.battery.needed.get());
    let bears = day * (40.0 / needed);
    says(&with(40.0), Kind::BatterySmall, &[&format!("or use at most {bears} of the {day} on a day")]);
    // A hundredth of a day more would be too long.
    enough_and_no_more(&with(40.0), Kind::BatterySmall, "days_without_charge", -0.02);
    let found = found_with(&with(40.0), Kind::BatterySmall);
    let block = found[0].remedies.iter().flat_map(|r| &r.edits).find(|e| e.place.key == "capacity_ah").unwrap();
    assert!(matches!(block.value, Some(Value::Number(ah)) if ah >= needed), "{block:?}");
    assert!(!told(&with(40.0), Kind::BatterySmall).contains("inverter's rating"));
    // 2,000 W ask for 193 Ah where 100 Ah are: the share of the rating that they bear.
    let inverter = "inverter = { rating_w = 2000, at = \"panel\" }";
    let most = loomwright::quantity::Watts::new(2000.0 * 100.0 / design_of(inverter).battery.needed.get());
    let told = told(inverter, Kind::BatterySmall);
    assert!(told.contains(&format!("more than {most} of the inverter's rating")), "{told}");
    assert!(!told.contains("without charge"), "{told}");
    // One block of 200 Ah is the largest of gel in its profile's list.
    let gel = "service_battery = { chemistry = \"gel\", in_parallel = 2, days_without_charge = 60, capacity_ah = \"left out\" }";
    let catalogue = Catalogue::embedded().unwrap();
    let largest = catalogue.chemistries.iter().find(|c| c.key == "gel").unwrap();
    let largest = largest.blocks.sizes.iter().map(|s| s.get()).fold(0.0, f64::max);
    says(gel, Kind::BatteryNone, &[&format!("make {}", loomwright::quantity::AmpHours::new(2.0 * largest))]);
}

/// Blocks a year apart in age are not alike, half a year apart they are (common practice, no source).
#[test]
fn blocks_that_differ_a_little() {
    let blocks = |second: &str| {
        format!(
            "service_battery = {{ chemistry = \"agm\", capacity_ah = \"left out\" }}\nblock = [{{ capacity_ah = 100, age_y = 2 }}, {{ {second} }}]"
        )
    };
    graded(
        Kind::BlocksMixed,
        &[
            (blocks("capacity_ah = 100, age_y = 2.5"), &[]),
            (blocks("capacity_ah = 100, age_y = 1.5"), &[]),
            (blocks("capacity_ah = 100, age_y = 2.6"), CAUTION),
        ],
    );
}

/// Half of what is wanted is nothing once bushes give: 300 mm from an exhaust, 150 mm with a plate, 50 mm from lines;
/// 50 mm above the ground with the springs on their stops (the catalogue's rules).
#[test]
fn what_hangs_beneath() {
    let near = |what: &str| basket(&format!("beneath = {{ {what} }}"));
    graded(
        Kind::TooNear,
        &[
            (near("exhaust_mm = 150"), CAUTION),
            (near("exhaust_mm = 149"), STOP),
            (near("exhaust_mm = 75, shield = true"), CAUTION),
            (near("exhaust_mm = 74, shield = true"), STOP),
            (near("lines_mm = 50"), &[]),
            (near("lines_mm = 25"), CAUTION),
            (near("lines_mm = 24"), STOP),
        ],
    );
    // A plate helps against heat alone, where there is none yet, and where it is enough.
    let plate = |what: &str| {
        let found = found_with(&near(what), Kind::TooNear);
        found[0].remedies.iter().flat_map(|r| &r.edits).any(|e| e.place.key == "shield")
    };
    assert!(plate("exhaust_mm = 160") && plate("exhaust_mm = 150"));
    for what in ["exhaust_mm = 140", "exhaust_mm = 140, shield = true", "lines_mm = 40", "tyre_mm = 40"] {
        assert!(!plate(what), "{what}");
    }
    says(&near("exhaust_mm = 160"), Kind::TooNear, &["move it away by 140 mm"]);
    graded(
        Kind::GroundNear,
        &[
            (near("ground_mm = 130, travel_mm = 80"), &[]),
            (near("ground_mm = 81, travel_mm = 80"), CAUTION),
            (near("ground_mm = 80, travel_mm = 80"), STOP),
        ],
    );
    says(&near("ground_mm = 81, travel_mm = 80"), Kind::GroundNear, &["only 1 mm are left", "higher by 49 mm"]);
    says(&near("ground_mm = 80, travel_mm = 80"), Kind::GroundNear, &["it strikes", "higher by 50 mm"]);
}

/// 330 × 172 × 220 mm with 5 mm all round want 340 × 182 mm and 225 mm of height inside.
#[test]
fn what_was_built_otherwise() {
    let built = |what: &str| basket(&format!("as_built = {{ {what} }}"));
    graded(
        Kind::BuiltOff,
        &[
            (built("length_mm = 340"), &[]),
            (built("width_mm = 182"), &[]),
            (built("width_mm = 181"), CAUTION),
            (built("width_mm = 172"), CAUTION),
            (built("width_mm = 171"), STOP),
            (built("length_mm = 330"), CAUTION),
            (built("length_mm = 329"), STOP),
        ],
    );
    // Twice 5 mm off the inside is what still fits with its clearance.
    says(&built("length_mm = 335"), Kind::BuiltOff, &["2.5 mm of clearance are left along", "325 mm or less along"]);
    says(&built("width_mm = 180"), Kind::BuiltOff, &["4 mm of clearance are left across", "170 mm or less across"]);
    says(&built("height_mm = 200"), Kind::BuiltOff, &["20 mm too little above", "195 mm or less above"]);
    says(&built("width_mm = 171"), Kind::BuiltOff, &["1 mm too little across"]);
}

/// A bar of 30 A bears 30 A, and a fuse of 40 A is more than it bears; a bar of 40 A bears that too.
#[test]
fn the_bar_of_a_board() {
    let bar = |rating: f64| {
        format!(
            "board = [{{ name = \"panel\", kind = \"fuse-box\", rating_a = {rating} }}]\n{}{}",
            lamp(30.0),
            runs(", size = \"16 mm2\"", ", size = \"10 mm2\", fuse_a = 40")
        )
    };
    graded(Kind::BoardRating, &[(bar(29.9), STOP), (bar(30.0), CAUTION), (bar(39.9), CAUTION), (bar(40.0), &[])]);
    says(&bar(29.9), Kind::BoardRating, &["30 A may flow", "carries 30 A or more"]);
    says(&bar(35.0), Kind::BoardRating, &["the 40 A fuse", "carries 40 A or more"]);
}

/// As thick as the largest positive is thick enough; where nothing is fed there is no bond to judge.
#[test]
fn the_bond_to_the_body() {
    let main = ", size = \"16 mm2\", fuse_a = 30, fuse_style = \"cartridge-t\"";
    let bond = |size: &str| format!("{}bond = {{ size = \"{size}\" }}", runs(main, ""));
    graded(Kind::BondThin, &[(bond("16 mm2"), &[]), (bond("10 mm2"), CAUTION), ("run = []".into(), &[])]);
    let on_post = "vehicle = { minus_sensor = true, minus_on_post = true }";
    let stop = found_with(on_post, Kind::MinusSensor);
    assert_eq!(stop[0].place.unwrap().key, "minus_on_post");
    assert_eq!(stop[0].remedies[0].edits[0].value, Some(Value::Flag(false)));
    let note = found_with("vehicle = { minus_sensor = true }", Kind::MinusSensor);
    assert_eq!(note[0].place.unwrap().key, "minus_sensor");
}

/// 22 V open at 25 °C are 8 % more at 5 °C (0.4 % for each kelvin, from memory): 23.76 V, so two in a row stay below 50 V;
/// a single one is too much for 23 V, and nothing can be taken away from it.
#[test]
fn panels_in_a_row() {
    let solar = |in_series: u32, limit: f64| {
        format!(
            "solar = {{ array_w = 300, at = \"service battery\", in_series = {in_series}, panel_open_v = 22, controller_limit_v = {limit} }}"
        )
    };
    graded(Kind::ArrayVoltage, &[(solar(2, 47.6), &[]), (solar(2, 47.5), STOP)]);
    says(&solar(3, 50.0), Kind::ArrayVoltage, &["71.28 V", "2 in series"]);
    says(&solar(2, 24.0), Kind::ArrayVoltage, &["1 in series"]);
    assert!(!told(&solar(1, 23.0), Kind::ArrayVoltage).contains("in series"));
    // NFPA 70, 690.8 (from memory): 10.5 A × 1.25 × 1.25 = 16.4 A by the table, whatever smaller device guards it.
    let cable = |size: &str| {
        format!(
            "solar = {{ array_w = 150, sun_hours = 4, panel_short_a = 10.5, cable_m = 5, cable_size = \"{size}\", device_a = 10, cable_air_c = 30 }}"
        )
    };
    graded(Kind::ArrayCable, &[(cable("0.75 mm²"), STOP), (cable("1 mm²"), &[])]);
    says(&cable("0.75 mm²"), Kind::ArrayCable, &["by the table, 16.4 A are needed", "1 mm² is enough"]);
    // 20 strings of 9 A: 281 A, for which no device is made, so they are to be parted.
    let many = "solar = { array_w = 150, sun_hours = 4, panel_short_a = 9, cable_m = 5, strings = 20 }";
    says(many, Kind::ArrayDevice, &["281 A", "a controller of its own for some of the strings"]);
}

/// Power through a resistance is at most V² / 4R: 12 V over 1.5 Ω pass 24 W. What is offered instead is enough.
#[test]
fn a_feed_that_is_too_long() {
    let charger = "charger = { current_a = 20, lowest_input_v = 11.5 }\nvehicle.lowest_v = 12.0\n";
    let long = format!("{charger}{}", feed(80.0, "2.5 mm2"));
    let collapse = found_with(&long, Kind::Collapse);
    let own = collapse.iter().find(|f| f.subject == Subject::Charger).unwrap();
    assert_eq!(own.severity, Severity::Stop);
    let ohms = design_of(&long).charger.feed.get();
    let most = loomwright::quantity::Watts::new(12.0 * 12.0 / 4.0 / ohms);
    assert!(own.text.contains(&format!("can pass {most} at most")), "{}", own.text);
    // 14.2 V × 20 A over its efficiency at 11.5 V, with 0.5 V to lose; the resistance that loses no more.
    let short = format!("{charger}{}", feed(2.0, "2.5 mm2"));
    let wanted = |plan: &str| {
        let design = design_of(plan);
        let input = design.charger.output_highest.get() * 20.0 / design.installation.charger.efficiency.get() / 11.5;
        format!("a feed of {} or less keeps its input above 11.50 V", loomwright::quantity::Ohms::new(0.5 / input))
    };
    for (plan, kind) in [(&long, Kind::Collapse), (&short, Kind::ChargerInputLow)] {
        says(plan, kind, &[&wanted(plan)]);
    }
    enough_and_no_more(&short, Kind::ChargerInputLow, "current_a", -0.6);
    // No cable helps where the battery itself stands no higher.
    for volts in ["12.0", "12.5"] {
        let none = format!("charger = {{ current_a = 20, lowest_input_v = {volts} }}\nvehicle.lowest_v = 12.0");
        says(&none, Kind::ChargerInputLow, &["no cable helps"]);
    }
}

/// LFP stands 14.6 V and floats at 13.4 V (its profile); AGM on the alternator 14.8 V, and 0.5 V more for a while.
#[test]
fn charge_voltages() {
    let charger = |volts: f64| format!("charger.output_v = {volts}");
    graded(Kind::ChargeVoltage, &[(charger(14.6), &[]), (charger(14.61), STOP)]);
    graded(Kind::ChargeVoltageLow, &[(charger(13.4), &[]), (charger(13.39), CAUTION)]);
    let alternator = |volts: f64| format!("vehicle.alternator_v = {volts}");
    graded(
        Kind::ChargeVoltage,
        &[
            (alternator(14.8), &[]),
            (alternator(14.81), CAUTION),
            (alternator(15.3), CAUTION),
            (alternator(15.31), STOP),
        ],
    );
    // A relay passes on what the alternator gives: gel stands 14.4 V, the AGM at the engine 14.8 V.
    let relay = |volts: f64| {
        format!("charger.kind = \"relay\"\nservice_battery.chemistry = \"gel\"\nvehicle.alternator_v = {volts}")
    };
    graded(Kind::ChargeVoltage, &[(relay(14.4), &[]), (relay(14.5), STOP)]);
    says(&relay(14.5), Kind::ChargeVoltage, &["the relay passes on the alternator's 14.50 V"]);
    // What is offered for the starter battery stands what the alternator gives.
    let catalogue = Catalogue::embedded().unwrap();
    let offered = |volts: f64| {
        let found = found_with(&alternator(volts), Kind::ChargeVoltage);
        let mut edits = found.iter().flat_map(|f| &f.remedies).flat_map(|r| &r.edits);
        edits.find(|e| e.place.key == "chemistry").map(|e| e.value.clone())
    };
    let Some(Some(Value::Text(other))) = offered(14.9) else { panic!("nothing is offered") };
    assert!(catalogue.chemistry(&other).unwrap().charge.max.get() >= 14.9, "{other}");
    assert_eq!(offered(15.6), None, "no lead-acid of the catalogue stands 15.6 V");
}

/// 50 mm² carry 245 A here: 260 A by the body are too much for it, however little its fuse lets through.
#[test]
fn what_comes_back_by_the_bond() {
    let runs = runs(", size = \"95 mm2\"", ", return = \"chassis\", size = \"95 mm2\"");
    let plan = format!("{runs}{}bond = {{ size = \"50 mm2\" }}", lamp(260.0));
    let found = design_of(&plan).findings.into_iter().find(|f| f.kind == Kind::BondThin).unwrap();
    assert!(found.severity == Severity::Stop && found.text.contains("the bond of 50 mm² carries"), "{found:?}");
    assert!(found.text.contains("260 A may come back through the body"), "{found:?}");
}

/// What an alternator has to spare is the most; short of it while it idles for less than three tenths of the drive is no
/// matter (our own border).
#[test]
fn what_the_alternator_feeds() {
    let plan = |amps: u32, idling: f64| {
        format!("vehicle = {{ idling = {idling}, alternator_a = {amps} }}\ncharger.current_a = 30")
    };
    const NOTE: &[Severity] = &[Severity::Note];
    graded(
        Kind::AlternatorShort,
        &[(plan(120, 0.25), &[]), (plan(120, 0.3), &[]), (plan(120, 0.31), NOTE), (plan(70, 0.2), STOP)],
    );
    enough_and_no_more(&plan(70, 0.0), Kind::AlternatorShort, "current_a", -0.6);
    let bare = |what: &str, kind: &str| {
        let found = found_with(what, Kind::NoCharge);
        assert!(found[0].text.contains(kind), "{found:?}");
        found[0].place.unwrap().key
    };
    assert_eq!(bare("charger.kind = \"none\"", "no charger, no solar, no mains"), "kind");
    assert_eq!(bare("vehicle.driving = []", "no driving is planned"), "driving");
    // Gel gives half a C (its profile): 60 A ask for 120 Ah.
    let gel = format!("service_battery = {{ chemistry = \"gel\", capacity_ah = 100 }}\n{}", lamp(60.0));
    says(&gel, Kind::BatteryRate, &["gives 50 A at most", "120 Ah or more"]);
}

/// Inside 340 × 182 × 225 mm for a block of 330 × 172 × 220 mm with 5 mm of clearance; it may move 10 mm at the most (the
/// catalogue's rule): to and fro between two sides, up under one.
#[test]
fn the_room_inside_a_basket() {
    let inside =
        |key: &str, mm: f64| basket("").replace("clearance_mm = 5", &format!("clearance_mm = 5, {key} = {mm}"));
    for (key, wanted, side, lost) in [
        ("length_mm", 340.0, "along", "4.5 mm"),
        ("width_mm", 182.0, "across", "4.5 mm"),
        ("height_mm", 225.0, "above", "4 mm"),
    ] {
        let block = if key == "height_mm" { wanted - 5.0 } else { wanted - 10.0 };
        graded(
            Kind::CarrierTight,
            &[
                (inside(key, wanted), &[]),
                (inside(key, wanted - 1.0), CAUTION),
                (inside(key, block), CAUTION),
                (inside(key, block - 1.0), STOP),
            ],
        );
        let words = [format!("only {lost} of clearance {side}"), format!("{wanted} mm inside would do")];
        says(&inside(key, wanted - 1.0), Kind::CarrierTight, &[&words[0], &words[1]]);
        enough_and_no_more(&inside(key, wanted - 1.0), Kind::CarrierTight, key, 1.0);
        graded(Kind::CarrierLoose, &[(inside(key, block + 10.0), &[]), (inside(key, block + 11.0), CAUTION)]);
        let moves = [format!("can move 15 mm {side}"), "pad it out by 5 mm or more".to_string()];
        says(&inside(key, block + 15.0), Kind::CarrierLoose, &[&moves[0], &moves[1]]);
    }
    let high = design_of(&basket("")).carrier.unwrap().shape.unwrap().outside_height.get();
    let free = |mm: f64| inside("free_height_mm", mm);
    graded(Kind::HeightShort, &[(free(high), &[]), (free(high - 0.5), STOP)]);
    says(&free(high - 3.0), Kind::HeightShort, &["3 mm more than is free", "a battery lower by 3 mm"]);
    // Plain steel bends round its own thickness, here 6 mm (common practice).
    let bent = |mm: f64| inside("bend_radius_mm", mm);
    graded(Kind::BendTight, &[(bent(6.0), &[]), (bent(5.9), CAUTION)]);
    enough_and_no_more(&bent(4.0), Kind::BendTight, "bend_radius_mm", 0.1);
}

/// A cabinet's welds burn through thin sheet as a strap's do.
#[test]
fn the_welds_of_a_cabinet() {
    let cabinet = |throat: f64| {
        let plan = basket("").replace("\"strip-basket\"", "\"cabinet\"");
        let (before, after) = plan.split_once("thickness_mm = 6").unwrap();
        let (_, after) = after.split_once("studs_along = 2").unwrap();
        format!("{before}weld_throat_mm = {throat}{after}")
    };
    graded(Kind::WeldUnmade, &[(cabinet(6.0), STOP), (cabinet(1.0), &[])]);
}

/// Strips of 6 mm below and above make 12 mm more than the inside: 228 mm fill a room of 240 mm. And 10.5 A × 1.25 = 13.1 A
/// flow in the hot cable of panels, which 1 mm² bears at 60 °C and no longer at 80 °C.
#[test]
fn what_is_too_high_and_too_hot() {
    let built = |mm: u32| {
        let plan = basket("").replace("clearance_mm = 5", "clearance_mm = 5, free_height_mm = 240");
        format!("{plan}\nas_built.height_mm = {mm}")
    };
    graded(Kind::BuiltOff, &[(built(228), &[]), (built(229), STOP), (built(235), STOP)]);
    says(&built(235), Kind::BuiltOff, &["7 mm higher than the room", "a spacer of 7 mm"]);
    let cable = |air: u32| {
        format!(
            "solar = {{ array_w = 150, sun_hours = 4, panel_short_a = 10.5, cable_m = 5, cable_size = \"1 mm²\", device_a = 10, cable_air_c = {air} }}"
        )
    };
    graded(Kind::ArrayCable, &[(cable(60), &[]), (cable(80), STOP)]);
    says(&cable(80), Kind::ArrayCable, &["in 80 °C, 13.1 A are needed"]);
}
