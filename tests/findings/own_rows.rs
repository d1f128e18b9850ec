//! Rows of one's own, as a data sheet has them: what can hardly be is a caution, and the plan that uses it says so.

use crate::case::plan_with;
use loomwright::catalogue::{Catalogue, Given, Layer, OwnFile, OwnKind, own_file};
use loomwright::engine::{Finding, FindingKind as Kind, Severity, design, doubts};
use std::collections::BTreeMap;

/// The file of a row, from what would be typed.
fn row(kind: OwnKind, answers: &[(&str, &str)]) -> OwnFile {
    let catalogue = Catalogue::embedded().unwrap();
    let mut given: BTreeMap<&'static str, Given> = BTreeMap::new();
    for asked in kind.asked() {
        let typed = answers.iter().find(|(key, _)| *key == asked.key).map_or("", |(_, typed)| typed);
        given.extend(asked.read(typed, &catalogue).unwrap().map(|g| (asked.key, g)));
    }
    own_file(kind, &given).unwrap()
}

/// The catalogue with such rows in the user's folder.
fn with(files: &[&OwnFile]) -> Catalogue {
    let files = files.iter().map(|file| (file.name.clone(), file.text.clone())).collect();
    Catalogue::with_layers(&[Layer { origin: "mine".into(), files }]).unwrap()
}

fn battery(capacity: &str, more: &[(&str, &str)]) -> OwnFile {
    let mut answers = vec![("name", "Shelf block"), ("base", "agm"), ("capacity_ah", capacity)];
    answers.extend(more);
    row(OwnKind::Battery, &answers)
}

fn cable(amps: &str) -> OwnFile {
    let size = [("area_mm2", "1"), ("ohm_per_km_20c", "19.5"), ("outside_mm", "2.1"), ("carries_a", amps)];
    let named = [("name", "1 mm² reel"), ("family", "metric")];
    row(OwnKind::Cable, &named.into_iter().chain(size).collect::<Vec<_>>())
}

fn said(kind: OwnKind, file: &OwnFile) -> Vec<String> {
    doubts(&with(&[file]), kind, &file.key).into_iter().map(|d| d.text).collect()
}

/// Ohm's law: 12 V over 0.1 mΩ are 120 kA, out of a block of 10 Ah. A sheet of a sealed block of 100 Ah says 3 to 5 mΩ.
#[test]
fn a_tenth_of_a_milliohm_at_ten_ampere_hours_is_doubted() {
    let doubted = said(OwnKind::Battery, &battery("10 Ah", &[("resistance_mohm", "0.1 mohm")]));
    assert!(
        doubted.len() == 1 && doubted[0].contains("0.1 mΩ at 10 Ah") && doubted[0].contains("120 kA"),
        "{doubted:?}"
    );
    assert_eq!(said(OwnKind::Battery, &battery("100 Ah", &[("resistance_mohm", "4")])), [""; 0]);
}

/// 200 A through 19.5 Ω/km are 780 W in each metre (P = I² R): no cable of 2.1 mm gives that off to still air.
#[test]
fn two_hundred_amperes_on_a_square_millimetre_are_doubted() {
    let doubted = said(OwnKind::Cable, &cable("200 A"));
    assert!(doubted.len() == 1 && doubted[0].contains("200 A") && doubted[0].contains("780 W"), "{doubted:?}");
    assert_eq!(said(OwnKind::Cable, &cable("15 A")), [""; 0]);
}

/// What else a slip of the decimal point makes of a row.
#[test]
fn other_slips_are_doubted() {
    // 1200 Wh in 2.6 kg; a lead cell at 3 V.
    assert!(said(OwnKind::Battery, &battery("100", &[("mass_kg", "2.6")]))[0].contains("Wh/kg"));
    assert!(said(OwnKind::Battery, &battery("100", &[("charge_v", "17.9")]))[0].contains("a cell"));
    let fuse = |breaks: &str| {
        let ratings = [("ratings_a", "60 80 100 A"), ("rated_v", "32"), ("breaks_a", breaks)];
        row(OwnKind::Fuse, &[("name", "My bolt"), ("base", "bolt")].into_iter().chain(ratings).collect::<Vec<_>>())
    };
    assert!(said(OwnKind::Fuse, &fuse("50"))[0].contains("break"));
    assert_eq!(said(OwnKind::Fuse, &fuse("2 kA")), [""; 0]);
    let charger = |takes: &str| {
        let output = [("output_a", "30"), ("charge_v", "14.4"), ("input_a", takes)];
        row(OwnKind::Charger, &[("name", "Thirty"), ("kind", "dc-dc")].into_iter().chain(output).collect::<Vec<_>>())
    };
    // 432 W come out.
    assert!(said(OwnKind::Charger, &charger("25"))[0].contains("432 W"));
    assert_eq!(said(OwnKind::Charger, &charger("40")), [""; 0]);
}

/// No row that comes with the program is doubted.
#[test]
fn built_in_rows_are_beyond_doubt() {
    let all = Catalogue::embedded().unwrap();
    let batteries = all.chemistries.iter().map(|c| (OwnKind::Battery, c.key.clone()));
    let fuses = all.fuse_styles.iter().map(|f| (OwnKind::Fuse, f.key.clone()));
    let cables = all.conductors.iter().map(|c| (OwnKind::Cable, c.label.clone()));
    for (kind, key) in batteries.chain(fuses).chain(cables) {
        assert_eq!(doubts(&all, kind, &key), [], "{key}");
    }
}

fn found(changes: &str, catalogue: &Catalogue) -> Vec<Finding> {
    let plan = plan_with(changes, catalogue);
    design(&plan, catalogue).findings.into_iter().filter(|f| f.kind == Kind::RowDoubtful).collect()
}

/// The plan that uses such a row says so, once for each row; the row is used all the same, on the safe side.
#[test]
fn a_plan_with_a_doubtful_row_is_cautioned() {
    let (slip, sound) = (battery("10", &[("resistance_mohm", "0.1")]), battery("100", &[("resistance_mohm", "4")]));
    let uses = "service_battery = { chemistry = \"shelf-block\", capacity_ah = 100 }";
    let raised = found(uses, &with(&[&slip]));
    assert_eq!(raised.iter().map(|f| f.severity).collect::<Vec<_>>(), [Severity::Caution], "{raised:?}");
    assert!(raised[0].place.is_some_and(|p| p.key == "chemistry") && !raised[0].rule.is_empty(), "{raised:?}");
    assert!(raised[0].remedies[0].words.contains("shelf-block"));
    assert_eq!(found(uses, &with(&[&sound])), []);
    assert_eq!(found("", &with(&[&slip])), []);
    let on_it = "starter_battery.chemistry = \"shelf-block\"";
    assert_eq!(found(on_it, &with(&[&slip])).len(), 1);
}

/// What the sheet says comes through to the numbers, and the rest is the built-in row's with its sources.
#[test]
fn a_row_of_ones_own_counts_as_its_sheet_says() {
    let block = battery("80 Ah", &[("takes_a", "16 A"), ("gives_a", "80"), ("charge_v", "14.6 V"), ("mass_kg", "24")]);
    let all = with(&[&block]);
    let (own, agm) = (all.chemistry("shelf-block").unwrap(), all.chemistry("agm").unwrap());
    assert_eq!(own.blocks.sizes.iter().map(|s| s.get()).collect::<Vec<_>>(), [80.0]);
    assert_eq!((own.blocks.mass_100ah.get(), own.charge.max_c, own.rate.max_c), (30.0, 0.2, 1.0));
    assert_eq!(
        (own.charge.absorption.get(), own.charge.from.absorption.words()),
        (14.6, "data sheet (entered by you)".into())
    );
    assert_eq!(own.charge.from.v_per_k, agm.charge.from.v_per_k);
    assert_eq!(own.resting.words(), agm.resting.words());
    // A maker's current counts where it is less than the table gives, and nowhere else.
    let base = |amps: &str| {
        let all = with(&[&cable(amps)]);
        let reel = all.conductor("1 mm² reel").unwrap();
        all.ampacity.base_of(reel, reel_column(&all)).unwrap().value.get()
    };
    assert_eq!(base("6"), 6.0);
    assert_eq!(base("200"), base("100"));
}

fn reel_column(all: &Catalogue) -> loomwright::quantity::Celsius {
    all.insulation("pvc-105").unwrap().column
}
