//! Boards and the leads of the loads that hang on them.

use crate::case::{design_of, found_with, severities, tell_apart};
use loomwright::engine::{Edit, FindingKind as Kind, Severity};
use loomwright::plan::{Place, Section};

/// A fridge and a lamp, each with its own cable from the board.
const LOADS: &str = r#"
load = [
    { name = "fridge", at = "panel", power_w = 40, lead_m = 1.5 },
    { name = "lamp", at = "panel", power_w = 8, lead_m = 3 },
]
"#;

fn with_board(board: &str) -> String {
    format!("{LOADS}\nboard = [{{ name = \"panel\", {board} }}]")
}

#[test]
fn a_board_has_a_way_for_each_circuit_and_a_bar_that_bears_them() {
    tell_apart(Kind::BoardWays, &with_board("ways = 1"), &with_board("ways = 2"));
    tell_apart(Kind::BoardRating, &with_board("rating_a = 2"), &with_board("rating_a = 100"));
    tell_apart(Kind::BoardLoose, r#"board = [{ name = "nowhere" }]"#, r#"board = [{ name = "panel" }]"#);
    // 4 A flow, the fuse before the bar is larger than its 5 A.
    assert_eq!(severities(&with_board("rating_a = 5"), Kind::BoardRating), [Severity::Caution]);
}

/// 8 W at 12 V are 0.67 A: 3 m of 1 mm² out and back are 6 × 19.5 = 117 mΩ (IEC 60228 class 5), 0.08 V of the 0.6 V
/// that an ordinary load may lose; 1 mm² is the smallest that is laid (ISO 10133, 7.7).
#[test]
fn a_lamp_three_metres_from_its_board_hangs_on_a_thin_lead_with_a_small_fuse() {
    let design = design_of(&with_board("style = \"blade-c\""));
    let lamp = design.installation.lead_of(1).unwrap();
    let lead = &design.runs[lamp];
    assert_eq!(lead.size.as_ref().unwrap().label, "1 mm²");
    let fuse = &lead.fuses[0];
    assert!(fuse.rating.unwrap().get() <= 5.0 && fuse.style == "blade-c", "{fuse:?}");
    // What the lamp gets is what is left at the end of its lead.
    assert_eq!(design.loads[1].voltage.unwrap(), lead.settled.far);
    assert!(lead.settled.far < lead.settled.near);
}

/// What is wrong with a lead is mended where its load is entered.
#[test]
fn a_lead_is_mended_with_its_load() {
    let thin = LOADS.replace("lead_m = 1.5", "lead_m = 1.5, lead_size = \"0.75 mm2\", lead_fuse_a = 30");
    let found = found_with(&format!("{thin}\nboard = [{{ name = \"panel\" }}]"), Kind::FuseBig);
    let place = found[0].place.unwrap();
    assert_eq!(place, Place::load(0, "lead_fuse_a"));
    for Edit { place, .. } in found.iter().flat_map(|f| &f.remedies).flat_map(|r| &r.edits) {
        assert_eq!(place.section, Section::Load, "{place:?}");
    }
}

/// Loads that share a way have one device: they cannot ask for two.
#[test]
fn a_way_has_one_fuse() {
    let with = |radio: u32| {
        format!(
            r#"
load = [
    {{ name = "lamp", at = "panel", power_w = 8, lead_m = 3, way = "front", lead_fuse_a = 5 }},
    {{ name = "radio", at = "panel", power_w = 20, lead_m = 1, way = "front", lead_fuse_a = {radio} }},
]
board = [{{ name = "panel" }}]"#
        )
    };
    tell_apart(Kind::WayFuses, &with(10), &with(5));
    let found = &found_with(&with(10), Kind::WayFuses)[0];
    assert!(found.text.contains("lamp asks for 5 A and radio for 10 A"), "{}", found.text);
}

/// A load without a lead hangs on its point by a cable that nobody planned.
///
/// A 60 A device before the panel: 1 mm² of 70 °C PVC carries well under that (33 CFR 183.425 gives 18 AWG, 0.82 mm²,
/// 10 A and 16 AWG, 1.31 mm², 15 A in the 60 °C column), so a lamp's cable would burn before it opens.
#[test]
fn a_cable_nobody_planned_is_held_against_the_device_before_it() {
    let run = |fuse: u32| {
        format!(
            r#"
run = [
    {{ from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" }},
    {{ from = "cut-off", to = "panel", length_m = 1.5, size = "16 mm2", fuse_a = {fuse} }},
]
charger.kind = "none""#
        )
    };
    let lamp = |more: &str| format!("load = [{{ name = \"lamp\", at = \"panel\", power_w = 8{more} }}]\n{}", run(60));
    let quiet = |more: &str| assert_eq!(severities(&lamp(more), Kind::PanelFuses), [], "{more}");
    // One alone counts too.
    assert_eq!(severities(&lamp(""), Kind::PanelFuses), [Severity::Stop]);
    quiet(", lead_m = 2");
    quiet(", tail_fuse_a = 3");
    // Where the run ends on its own terminals nothing is missing.
    let own = lamp("").replace("\"panel\"", "\"lamp\"");
    assert_eq!(severities(&own, Kind::PanelFuses), []);
    // Of several the one whose cable would burn is named, and how long it stands.
    let many = format!(
        "load = [{{ name = \"heater\", at = \"panel\", power_w = 400 }}, {{ name = \"lamp\", at = \"panel\", power_w = 8 }}]\n{}",
        run(60)
    );
    let found = found_with(&many, Kind::PanelFuses);
    assert!(
        found.len() == 1 && found[0].text.contains("its 2 loads") && found[0].text.contains("of lamp"),
        "{found:#?}"
    );
    // Behind a small device every cable bears it: good to know, no more.
    let small = format!(
        "load = [{{ name = \"radio\", at = \"panel\", power_w = 20 }}, {{ name = \"lamp\", at = \"panel\", power_w = 8 }}]\n{}",
        run(5)
    );
    assert_eq!(severities(&small, Kind::PanelFuses), [Severity::Note]);
}

/// What charges hangs on a point by leads of its own as a load does.
#[test]
fn leads_of_a_mains_charger_are_held_against_the_device_before_it() {
    let mains = |at: &str| {
        format!(
            r#"
mains = {{ current_a = 5, windows = ["20:00-06:00"], at = "{at}" }}
charger.kind = "none"
run = [
    {{ from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" }},
    {{ from = "cut-off", to = "panel", length_m = 1.5, size = "16 mm2", fuse_a = 60 }},
    {{ from = "cut-off", to = "mains charger", length_m = 1.5 }},
]"#
        )
    };
    let named = |at: &str| {
        let found = found_with(&mains(at), Kind::PanelFuses);
        found.into_iter().filter(|f| f.text.contains("hang on it") || f.text.contains("the mains charger")).count()
    };
    assert_eq!(named("panel"), 1);
    // Alone at the end of a run of its own nothing is missing.
    assert_eq!(named("mains charger"), 0);
}

/// The fuse in an appliance's own leads is held against what it draws, what a usual lead bears, and what the posts give.
///
/// A blade breaks 1 kA (ISO 8820-3:2015); 100 Ah of lithium give more. 60 A guard no lead of a 48 W lamp: 33 CFR 183.425
/// allows 18 AWG, 0.82 mm², 10 A in the 60 °C column. 125 % of the normal current: NEETS Module 3.
#[test]
fn the_fuse_in_an_appliances_own_leads_is_checked() {
    let lamp = |at: &str, fuse: f64| {
        format!(
            r#"
charger.kind = "none"
load = [{{ name = "lamp", at = "{at}", power_w = 48, before_cut_off = {}, tail_fuse_a = {fuse} }}]
run = [
    {{ from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" }},
    {{ from = "cut-off", to = "panel", length_m = 1.5, size = "16 mm2", fuse_a = 60 }},
]"#,
            at == "service battery"
        )
    };
    tell_apart(Kind::TailFuse, &lamp("panel", 60.0), &lamp("panel", 7.5));
    let words = |at: &str, fuse: f64| -> Vec<String> {
        found_with(&lamp(at, fuse), Kind::TailFuse).into_iter().map(|f| f.text).collect()
    };
    assert!(words("panel", 60.0)[0].contains("guards no lead as thin as"), "{:?}", words("panel", 60.0));
    assert!(words("panel", 3.0)[0].contains("carries 2.4 A for ever"), "{:?}", words("panel", 3.0));
    let posts = words("service battery", 7.5);
    assert!(posts.len() == 1 && posts[0].contains("breaks 1000 A"), "{posts:?}");
}
