//! Boards and the leads of the loads that hang on them.

use crate::case::{design_of, found_with, severities, tell_apart};
use loomwright::engine::{FindingKind as Kind, Severity};
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
    for (place, _) in found.iter().flat_map(|f| &f.remedies).filter_map(|r| r.edit.as_ref()) {
        assert_eq!(place.section, Section::Load, "{place:?}");
    }
}
