//! The sheet as a whole: findings raised and not, honest verdicts, no figure that is not finite.

use crate::catalogue::Catalogue;
use crate::engine::design;
use crate::engine::judge::finding::{Kind, Severity};
use crate::engine::simulate::test_sheet::result::*;
use crate::engine::simulate::test_sheet::*;
use crate::plan::{Load, Plan, Reading, Run};

fn run(from: &str, to: &str, length: f64) -> Run {
    Run {
        from: from.into(),
        to: to.into(),
        length: Metres::new(length),
        size: Some("6 mm²".into()),
        insulation: "pvc-105".into(),
        surroundings: "cabin".into(),
        ..Run::default()
    }
}

fn load(name: &str, at: &str, power: f64) -> Load {
    Load { name: name.into(), at: at.into(), power: Some(Watts::new(power)), ..Load::default() }
}

/// Battery, cut-off, and two panels behind it.
fn plan() -> Plan {
    Plan {
        loads: vec![load("fridge", "rear", 60.0), load("lamps", "front", 60.0)],
        runs: vec![run("service battery", "cut-off", 1.0), run("cut-off", "rear", 5.0), run("cut-off", "front", 3.0)],
        ..Plan::default()
    }
}

fn catalogue() -> Catalogue {
    Catalogue::embedded().unwrap()
}

fn reading(at: &str, with: &str, current: f64, drop: f64) -> Reading {
    Reading {
        at: at.into(),
        with: with.into(),
        voltage: Some(Volts::new(12.6 - drop)),
        posts: Some(Volts::new(12.6)),
        current: Some(Amps::new(current)),
    }
}

/// Expected resistance of a run, ohms.
fn ohms(plan: &Plan, run: usize) -> f64 {
    design(plan, &catalogue()).test_sheet().runs[run].resistance.likely.get()
}

/// What 10 A give at the ends of both branches, with so much too much in each run.
fn with_readings(excess: [f64; 3]) -> Plan {
    let mut plan = plan();
    let r: Vec<f64> = (0..3).map(|n| ohms(&plan, n) + excess[n]).collect();
    plan.readings = vec![
        reading("cut-off", "fridge", 10.0, 10.0 * r[0]),
        reading("rear", "fridge", 10.0, 10.0 * (r[0] + r[1])),
        reading("front", "lamps", 10.0, 10.0 * (r[0] + r[2])),
    ];
    plan
}

fn raised(plan: &Plan, kind: Kind) -> Option<crate::engine::judge::finding::Finding> {
    design(plan, &catalogue()).findings.into_iter().find(|f| f.kind == kind)
}

#[test]
fn expected_drops_add_up_along_the_way() {
    let plan = plan();
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    let fridge = sheet.tests.iter().find(|t| t.with == "fridge").unwrap();
    let way: Vec<&str> = fridge.points.iter().map(|p| p.point.as_str()).collect();
    assert_eq!(way, ["cut-off", "rear"]);
    let by_hand = fridge.current.get() * (ohms(&plan, 0) + ohms(&plan, 1));
    assert!((fridge.points[1].drop.likely.get() - by_hand).abs() < 1e-9);
    let band = fridge.points[1].drop;
    assert!(band.low < band.likely && band.likely < band.high);
    let sum = fridge.points[1].voltage.likely + band.likely;
    assert!((sum - fridge.posts).abs() < Volts::new(1e-9));
    assert!(sheet.tests.iter().any(|t| t.with == "all loads"));
}

#[test]
fn sound_wiring_is_called_sound() {
    let sheet = design(&with_readings([0.0; 3]), &catalogue()).test_sheet().clone();
    let Verdict::Sound { notices, unseen } = &sheet.service else { panic!("{:?}", sheet.service) };
    assert_eq!(notices.len(), 3);
    assert!(unseen.is_empty() && notices.iter().all(|n| n.1 > Ohms::ZERO && n.1 < Ohms::from_milli(30.0)));
    assert!(sheet.readings.iter().all(|r| r.within == Some(true)));
    assert!(raised(&with_readings([0.0; 3]), Kind::JointBad).is_none());
    assert!(raised(&with_readings([0.0; 3]), Kind::ReadingsContradict).is_none());
}

#[test]
fn a_bad_joint_is_named_with_milliohms_and_heat() {
    for bad in 0..3 {
        let mut excess = [0.0; 3];
        excess[bad] = 0.03;
        let plan = with_readings(excess);
        let sheet = design(&plan, &catalogue()).test_sheet().clone();
        let Verdict::Bad { fault, .. } = &sheet.service else { panic!("{bad}: {:?}", sheet.service) };
        assert_eq!(fault.run, bad);
        assert!((fault.excess.get() * 1000.0 - 30.0).abs() < 5.0, "{}", fault.excess);
        let heat = fault.current.get().powi(2) * fault.excess.get();
        assert!((fault.heat.get() - heat).abs() < 1e-9 && !fault.look_at.is_empty());
        let finding = raised(&plan, Kind::JointBad).unwrap();
        assert!(finding.text.contains("mΩ"), "{}", finding.text);
        assert_eq!(finding.severity == Severity::Stop, fault.full_heat.get() >= 2.0);
        assert!((fault.heat.get() - 100.0 * fault.excess.get()).abs() < 1e-9, "10 A were read");
    }
}

/// With the end alone nothing tells trunk from branch; the reading in between would.
#[test]
fn what_cannot_be_told_is_not_told() {
    let mut plan = with_readings([0.0, 0.03, 0.0]);
    assert!(raised(&plan, Kind::JointUnclear).is_none());
    plan.readings.remove(2);
    plan.readings.remove(0);
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    let Verdict::Unclear { candidates, several: false, next: Some(next) } = &sheet.service else {
        panic!("{:?}", sheet.service)
    };
    assert_eq!(candidates.iter().map(|c| c.run).collect::<Vec<_>>(), [0, 1]);
    assert!(next.decides && (next.at == "cut-off" || next.at == "front"), "{next:?}");
    let finding = raised(&plan, Kind::JointUnclear).unwrap();
    assert!(finding.remedies.iter().any(|r| r.words.contains(&next.at)));
    assert!(raised(&plan, Kind::JointBad).is_none());
}

#[test]
fn readings_that_cannot_be_are_a_contradiction() {
    let mut plan = with_readings([0.0; 3]);
    plan.readings[1].voltage = Some(Volts::new(12.9));
    assert!(raised(&plan, Kind::ReadingsContradict).is_some());
}

#[test]
fn readings_that_cannot_be_used_say_why() {
    let sound = with_readings([0.0; 3]);
    assert!(raised(&sound, Kind::ReadingLoose).is_none() && raised(&sound, Kind::ReadingIncomplete).is_none());
    for change in [(|r: &mut Reading| r.at = "nowhere".into()) as fn(&mut Reading), |r| r.with = "toaster".into()] {
        let mut plan = sound.clone();
        change(&mut plan.readings[0]);
        let finding = raised(&plan, Kind::ReadingLoose).unwrap();
        assert!(finding.place.is_some() && finding.text.contains("reading 1"), "{finding:?}");
    }
    for change in [(|r: &mut Reading| r.voltage = None) as fn(&mut Reading), |r| r.posts = None] {
        let mut plan = sound.clone();
        change(&mut plan.readings[0]);
        assert!(raised(&plan, Kind::ReadingIncomplete).is_some());
    }
}

/// With several loads on nobody knows who drew what: a drop out of its band names nobody.
#[test]
fn all_loads_together_are_only_compared() {
    let mut plan = with_readings([0.0; 3]);
    plan.readings = vec![reading("rear", "all loads", 10.0, 2.0)];
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    assert_eq!(sheet.readings[0].state, ReadingState::Compared);
    assert_eq!(sheet.readings[0].within, Some(false));
    assert_eq!(sheet.service, Verdict::Nothing);
}

/// A reading at the posts serves the others with the same load on.
#[test]
fn posts_may_be_a_reading_of_their_own() {
    let mut plan = with_readings([0.0, 0.03, 0.0]);
    for reading in &mut plan.readings {
        reading.posts = None;
    }
    for with in ["fridge", "lamps"] {
        let posts = Reading { at: "service battery".into(), ..reading("", with, 10.0, 0.0) };
        plan.readings.push(Reading { posts: None, ..posts });
    }
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    assert!(matches!(&sheet.service, Verdict::Bad { fault, .. } if fault.run == 1), "{:?}", sheet.service);
    assert_eq!(sheet.readings[3].state, ReadingState::Posts);
}

/// A load at 0 V is no sound wiring; what other readings show alive is not where it is open.
#[test]
fn a_dead_point_is_said_to_be_open() {
    let mut plan = with_readings([0.0; 3]);
    plan.readings[1].voltage = Some(Volts::ZERO);
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    let Verdict::Dead(dead) = &sheet.service else { panic!("{:?}", sheet.service) };
    assert_eq!((dead.at.as_str(), dead.runs.as_slice()), ("rear", [1].as_slice()));
    // With a guessed current it is the same.
    plan.readings.iter_mut().for_each(|r| r.current = None);
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    assert!(matches!(&sheet.service, Verdict::Dead(dead) if dead.runs == [1]), "{:?}", sheet.service);
    let finding = raised(&plan, Kind::ReadingsContradict).unwrap();
    assert!(finding.text.contains("open") && finding.text.contains("R2"), "{}", finding.text);
}

/// A battery without voltage, and one whose leads are exchanged.
#[test]
fn an_empty_battery_and_a_reversed_lead_are_told() {
    let mut plan = with_readings([0.0; 3]);
    plan.readings.iter_mut().for_each(|r| (r.posts, r.voltage) = (Some(Volts::ZERO), Some(Volts::ZERO)));
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    assert!(matches!(&sheet.service, Verdict::Dead(dead) if dead.at == "service battery"), "{:?}", sheet.service);
    let mut plan = with_readings([0.0; 3]);
    plan.readings[2].voltage = Some(Volts::new(-12.7));
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    let Verdict::Dead(dead) = &sheet.service else { panic!("{:?}", sheet.service) };
    assert!(dead.words(&[]).contains("exchanged") && dead.at == "front");
    plan.readings[2].voltage = Some(Volts::new(-0.01));
    let finding = raised(&plan, Kind::ReadingsContradict).unwrap();
    assert!(finding.text.contains("open") && !finding.text.contains("exchanged"), "{}", finding.text);
}

/// A row outside its band is never called sound, however little it weighs where the current is only guessed.
#[test]
fn what_lies_outside_is_not_sound() {
    let mut plan = with_readings([0.0; 3]);
    plan.readings.push(reading("rear", "all loads", 10.0, 2.0));
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    assert_eq!(sheet.readings[3].within, Some(false));
    assert_eq!(sheet.service, Verdict::Contradiction);
}

/// By hand: 12 A through the feed lose 12 × R. With the body, bonded to both minus posts, beside its minus cable
/// half of the loop has next to nothing, so half of that is lost: sound, not a contradiction.
#[test]
fn a_bond_beside_the_minus_of_the_feed_is_sound() {
    let mut plan = plan();
    plan.runs.push(run("starter battery", "charger", 4.0));
    plan.runs.push(run("service battery", "charger", 1.0));
    let feed = ohms(&plan, 3);
    let mut read = reading("charger", "charger", 12.0, 12.0 * feed * 0.55);
    read.current = Some(Amps::new(12.0));
    plan.readings = vec![read];
    let sheet = design(&plan, &catalogue()).test_sheet().clone();
    assert!(matches!(sheet.feed, Verdict::Sound { .. }), "{:?}", sheet.feed);
    assert_eq!(sheet.readings[0].within, Some(true));
}

/// Extreme values in range: no panic, nothing that is not finite.
#[test]
fn extreme_readings_stay_finite() {
    let mut plan = with_readings([0.0; 3]);
    for (volts, amps) in [(0.0, 0.0), (20.0, 1000.0), (12.6, 0.0), (0.0, 1000.0)] {
        for reading in &mut plan.readings {
            (reading.voltage, reading.current) = (Some(Volts::new(volts)), Some(Amps::new(amps)));
        }
        let design = design(&plan, &catalogue());
        assert!(design.findings.iter().all(|f| !f.text.contains('–')), "{:?}", design.findings);
        assert!(design.workings().iter().all(|(_, w)| w.result.value.is_finite()));
    }
}
