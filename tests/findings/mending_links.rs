//! Which links of a hold-down are told, and that the next size in stock that is offered is enough and no more.

use crate::case::{design_of, found_with, plan_of, text_with};
use crate::limits::{STOP, basket, graded};
use crate::told_beside::number;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{FindingKind as Kind, Severity, design};
use loomwright::plan::{Value, set};

/// A basket or tray all of whose sizes are given, some of them otherwise.
fn given(style: &str, other: &[(&str, &str)]) -> String {
    let usual = [
        ("style", style),
        ("battery_length_mm", "330"),
        ("battery_width_mm", "172"),
        ("battery_height_mm", "220"),
        ("locking", "\"double-nut\""),
        ("stud", "\"M8\""),
        ("studs_along", "2"),
        ("strip_width_mm", "40"),
        ("thickness_mm", "4"),
        ("bend_radius_mm", "15"),
        ("strap_leg_mm", "40"),
        ("strap_thickness_mm", "4"),
        ("weld_length_mm", "60"),
        ("weld_throat_mm", "2.5"),
        ("spreader_mm", "80"),
        ("spreader_thickness_mm", "6"),
        ("rod", "\"M8\""),
    ];
    let value =
        |key: &str, usual: &str| other.iter().find(|(k, _)| *k == key).map_or(usual.to_string(), |o| o.1.into());
    let own = usual.iter().map(|(key, usual)| format!("{key} = {}", value(key, usual)));
    let more = other.iter().filter(|(key, _)| !usual.iter().any(|(k, _)| k == key) && *key != "mass");
    let all: Vec<String> = own.chain(more.map(|(k, v)| format!("{k} = {v}"))).collect();
    format!("service_battery.mass_kg = {}\nhold_down = {{ {} }}", value("mass", "60"), all.join(", "))
}

/// What stands in stock beyond a value, by the field.
fn beyond(catalogue: &Catalogue, basket: bool, key: &str, now: &Value) -> Vec<Value> {
    let stock = match key {
        "thickness_mm" if basket => "strip-thickness",
        "thickness_mm" => "sheet-thickness",
        "strip_width_mm" => "strip-width",
        "weld_length_mm" => "weld-length",
        "spreader_mm" => "spreader-side",
        "spreader_thickness_mm" => "spreader-thickness",
        "stud" => {
            let keys = catalogue.studs.iter().map(|stud| Value::Text(stud.key.clone()));
            return keys.skip_while(|key| key != now).skip(1).collect();
        }
        _ => return Vec::new(),
    };
    let Value::Number(now) = now else { panic!("{key} = {now:?}") };
    let sizes = catalogue.stock(stock).unwrap().sizes.iter().map(|size| size.get());
    sizes.filter(|size| size > now).map(Value::Number).collect()
}

/// The size offered holds the link, as much of it used as is told; none of those before it does; where none is offered none
/// would do. Sizes that hold are those of the catalogue's stock.
#[test]
fn the_next_size_in_stock_is_enough_and_no_more() {
    let catalogue = Catalogue::embedded().unwrap();
    let (basket, tray) = ("\"strip-basket\"", "\"tray\"");
    let mut tried = Vec::new();
    for (style, other) in [
        (basket, vec![("thickness_mm", "3"), ("bend_radius_mm", "5")]),
        (basket, vec![("thickness_mm", "3"), ("strip_width_mm", "30"), ("mass", "40")]),
        (basket, vec![("weld_length_mm", "30"), ("mass", "200")]),
        (basket, vec![("strip_width_mm", "30"), ("thickness_mm", "8")]),
        (basket, vec![("strip_width_mm", "30"), ("thickness_mm", "5"), ("mass", "30")]),
        (basket, vec![("spreader_mm", "60"), ("spreader_thickness_mm", "3"), ("deck_thickness_mm", "2")]),
        (basket, vec![("stud", "\"M6\""), ("mass", "250")]),
        (tray, vec![("thickness_mm", "1.5"), ("bend_radius_mm", "3")]),
        (tray, vec![("thickness_mm", "2"), ("mass", "120"), ("stud", "\"M6\"")]),
    ] {
        let text = text_with(&given(style, &other));
        let weak = |text: &str, name: &str| {
            let design = design(&plan_of(text, &catalogue), &catalogue);
            let links = &design.carrier.as_ref().unwrap().strength.as_ref().unwrap().chain.links;
            let link = links.iter().find(|link| link.link.words() == name);
            link.map(|link| link.used)
        };
        for finding in found_with(&given(style, &other), Kind::LinkWeak) {
            let name = finding.text.split(" is used to").next().unwrap().trim_start_matches("the ").to_string();
            let place = finding.place.unwrap();
            let now = other.iter().find(|(key, _)| *key == place.key);
            let now = now.map(|(_, value)| value.to_string()).or_else(|| {
                let usual = given(style, &[]);
                usual.split([',', '{']).find_map(|pair| {
                    Some(pair.trim().split_once(" = ").filter(|(k, _)| *k == place.key)?.1.to_string())
                })
            });
            let Some(now) = now else { continue };
            let now = now.parse().map_or_else(|_| Value::Text(now.trim_matches('"').into()), Value::Number);
            let offered = finding.remedies.iter().find(|r| r.words.contains("in stock would be used to"));
            let wanted = offered.map(|remedy| remedy.edits[0].value.clone().unwrap());
            for larger in beyond(&catalogue, style == basket, place.key, &now) {
                let used = weak(&set(&text, place, Some(&larger)).unwrap(), &name);
                let holds = used.is_some_and(|used| used.get() <= 1.0);
                if Some(&larger) == wanted.as_ref() {
                    let told = number(&offered.unwrap().words, "would be used to") / 100.0;
                    let used = used.unwrap().get();
                    assert!(holds && (told - used).abs() < 0.006, "{name}: {told} told, {used} used with {larger:?}");
                    break;
                }
                assert!(!holds, "{name}: {larger:?} holds before {wanted:?}: {finding:?}");
            }
            tried.push((place.key, wanted.is_some()));
        }
    }
    for key in ["thickness_mm", "strip_width_mm", "weld_length_mm", "spreader_mm", "spreader_thickness_mm", "stud"] {
        assert!(tried.contains(&(key, true)), "{key}: {tried:?}");
    }
}

/// A stud that is told of as such, and a floor that is crushed, are not told again as links.
#[test]
fn what_is_told_is_not_told_again() {
    let names = |plan: &str| -> Vec<String> {
        let found = found_with(plan, Kind::LinkWeak).into_iter().map(|f| f.text);
        found.map(|text| text.split(" is used to").next().unwrap().to_string()).collect()
    };
    let thin = given("\"tray\"", &[("stud", "\"M6\""), ("mass", "200"), ("thickness_mm", "6")]);
    assert!(!found_with(&thin, Kind::StudWeak).is_empty());
    assert!(!names(&thin).iter().any(|name| name.starts_with("the stud")), "{:?}", names(&thin));
    let floor = |spacer: &str| {
        given(
            "\"strip-basket\"",
            &[
                ("deck_depth_mm", "32"),
                ("spacer_mm", spacer),
                ("deck_span_mm", "150"),
                ("deck_thickness_mm", "3"),
                ("mass", "120"),
            ],
        )
    };
    let told = |plan: &str| names(plan).iter().any(|name| name.contains("faces of the hollow floor"));
    assert!(!found_with(&floor("25"), Kind::FloorCrushed).is_empty() && !told(&floor("25")));
    // Where its spacers do not crush it but the battery's own weight bends it too far, it is.
    assert!(
        found_with(&floor("31.9"), Kind::FloorCrushed).is_empty() && told(&floor("31.9")),
        "{:?}",
        names(&floor("31.9"))
    );
}

/// Without any clearance wanted a block that just goes in is right, and one that is a hundredth too large is not.
#[test]
fn a_block_that_just_goes_in() {
    let inside = |mm: f64| basket("").replace("clearance_mm = 5", &format!("clearance_mm = 0, length_mm = {mm}"));
    graded(Kind::CarrierTight, &[(inside(330.0), &[]), (inside(329.99), STOP)]);
}

/// The worst hole is the one that is pointed at, and it is opened by half millimetres, enough and no more.
#[test]
fn the_hole_that_is_off() {
    let plan = basket("");
    let studs = design_of(&plan).carrier.unwrap().strength.unwrap().studs;
    for off in 0..studs.len() {
        let place = |(n, s): (usize, (f64, f64))| {
            let x = if n == off { s.0 + 3.0 } else { s.0 };
            format!("[[drilled]]\nstud = {}\nalong_mm = {x:.4}\nacross_mm = {:.4}\n", n + 1, s.1)
        };
        let places = studs.iter().map(|s| (s.along.get(), s.across.get())).enumerate();
        let plan = format!("{plan}\n{}", places.map(place).collect::<String>());
        let found = &found_with(&plan, Kind::BuiltOff)[0];
        assert_eq!(found.place.unwrap().index, off, "{found:?}");
        let built = design_of(&plan).carrier.unwrap().built.unwrap();
        let least = built.holes.iter().find(|hole| hole.stud as usize == off + 1).unwrap().open.unwrap().get();
        let told = number(&found.remedies[1].words, &format!("open the hole of S{} to", off + 1));
        assert!(told >= least && told < least + 0.5 && (told * 2.0).fract() == 0.0, "{told} for {least}");
    }
}

/// A fault that the cable stands until it is opened only burns longer: a note; one that it does not stand so long is a
/// caution.
#[test]
fn a_fault_that_is_opened_late() {
    let plan = |size: &str, mohm: u32| {
        format!(
            r#"
            load = [{{ name = "lamp", at = "panel", current_a = 2, duty = {{ hours_a_day = 1 }} }}]
            run = [
                {{ from = "starter battery", to = "charger", length_m = 2, insulation = "xlpe-125" }},
                {{ from = "service battery", to = "charger", length_m = 0.5 }},
                {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
                {{ from = "cut-off", to = "panel", length_m = 4, size = "{size}", fuse_a = 30, switch_mohm = {mohm} }},
            ]"#
        )
    };
    for (size, mohm, grade) in [("2.5 mm2", 60, Severity::Caution), ("6 mm2", 150, Severity::Note)] {
        let found = &found_with(&plan(size, mohm), Kind::FuseFarFault)[0];
        let (stands, opens) = (number(&found.text, "its cable stands for"), number(&found.text, "fuse may take"));
        assert_eq!(stands > opens, grade == Severity::Note, "{found:?}");
        assert_eq!(found.severity, grade, "{found:?}");
    }
    // As a finding's severity is written everywhere.
    assert_eq!([Severity::Stop, Severity::Caution, Severity::Note].map(Severity::word), ["STOP", "caution", "note"]);
}
