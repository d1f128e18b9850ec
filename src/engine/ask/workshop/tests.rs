//! Pieces and parts of a small job, worked by hand.

use crate::catalogue::Catalogue;
use crate::engine::ask::workshop::cut::*;
use crate::engine::ask::workshop::parts::*;
use crate::engine::design::Design;
use crate::engine::installation::Installation;
use crate::engine::simulate::circuit::result::{FuseDesign, RunDesign, SizeRow};
use crate::plan::{Plan, Run};
use crate::quantity::*;

/// One run of 2 m in 10 mm² with a fuse 0.2 m from the battery.
fn small() -> Design {
    let catalogue = Catalogue::embedded().unwrap();
    let run = Run {
        from: "service battery".into(),
        to: "panel".into(),
        length: Metres::new(2.0),
        fuse_distance: Metres::new(0.2),
        ..Run::default()
    };
    let plan = Plan { runs: vec![run], ..Plan::default() };
    let fuse = FuseDesign {
        at: "service battery".into(),
        style: "strip-30".into(),
        style_name: "strip".into(),
        rating: Some(Amps::new(60.0)),
        ..FuseDesign::default()
    };
    let size = SizeRow { label: "10 mm²".into(), ..SizeRow::default() };
    let run = RunDesign { branch: Some(0), size: Some(size), fuses: vec![fuse], ..RunDesign::default() };
    Design { installation: Installation::of(&plan, &catalogue), runs: vec![run], ..Design::default() }
}

#[test]
fn a_fuse_divides_the_positive() {
    let design = small();
    let list = cut_list(&design);
    let said: Vec<String> = list
        .cuts
        .iter()
        .map(|c| format!("{} {} {}→{} {}", c.polarity.word(), c.colour, c.from, c.to, c.length))
        .collect();
    // By hand, 5 % and 2 × 0.1 m, up to the next 0.05 m:
    // 0.2 × 1.05 + 0.2 = 0.41 → 0.45; 1.8 × 1.05 + 0.2 = 2.09 → 2.10; 2 × 1.05 + 0.2 = 2.30.
    assert_eq!(
        said,
        [
            "positive red service battery→fuse 0.45 m",
            "positive red fuse→panel 2.1 m",
            "negative black service battery→panel 2.3 m"
        ]
    );
    assert!(list.working.is_some());
}

/// Slack never carries a fuse past the distance that its rule allows.
#[test]
fn the_piece_to_the_fuse_keeps_the_rule() {
    let mut design = small();
    design.runs[0].fuses[0].within = Metres::new(0.25);
    let list = cut_list(&design);
    assert_eq!(list.cuts[0].to, "fuse");
    assert!((list.cuts[0].length.get() - 0.25).abs() < 1e-9, "{}", list.cuts[0].length);
}

#[test]
fn parts_are_summed_and_rounded_to_packs() {
    let design = small();
    let cuts = cut_list(&design).cuts;
    let parts = parts_list(&design, &cuts);
    let find =
        |what: &str| parts.iter().find(|p| p.what.contains(what)).unwrap_or_else(|| panic!("no {what}: {parts:#?}"));
    // By hand: 0.45 + 2.10 = 2.55 m red, bought as 3 m; 2.30 m black, bought as 3 m.
    assert!((find("red").needed.value - 2.55).abs() < 1e-9);
    assert_eq!(find("red").bought.value, 3.0);
    assert_eq!(find("black").bought.value, 3.0);
    // Six ends, each with 40 mm of sleeve: 0.24 m, one stick.
    let sleeve = find("sleeve");
    assert!((sleeve.needed.value - 0.24).abs() < 1e-9 && sleeve.packs == 1, "{sleeve:?}");
    // One link and one spare.
    assert_eq!(find("Strip fuse-link SF30, bolted 60 A").bought.value, 2.0);
    assert_eq!(find("holder for Strip fuse-link SF30").bought.value, 1.0);
}

#[test]
fn the_body_as_way_back_needs_a_lead_only() {
    let mut design = small();
    design.installation.runs[0].return_path = crate::plan::ReturnPath::Chassis;
    let cuts = cut_list(&design).cuts;
    let last = cuts.last().unwrap();
    assert_eq!((last.from.as_str(), last.to.as_str(), last.along), ("panel", "body by the panel", Metres::new(0.3)));
}
