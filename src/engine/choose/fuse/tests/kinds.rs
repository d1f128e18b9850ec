//! One test that raises each finding and one that does not.

use crate::engine::choose::fuse::tests::fixture::Bench;
use crate::engine::judge::finding::{Kind, Severity};
use crate::engine::judge::remedy::Edit;
use crate::engine::simulate::circuit::result::FarEnd;
use crate::plan::{ChargerKind, Place, Value};
use crate::quantity::*;

fn edit(place: Place, value: Value) -> Edit {
    Edit { place, value: Some(value) }
}

/// The bench as it is raises nothing but the note on remembered figures and its selectivity is by ratio.
#[test]
fn a_sound_plan_is_quiet() {
    let done = Bench::two_runs().protect();
    let kinds: Vec<Kind> = done.findings.iter().map(|f| f.kind).collect();
    assert_eq!(kinds, [Kind::GateMemory], "{:#?}", done.findings);
    assert_eq!(done.fuse(1).rating, Some(Amps::new(15.0)));
    assert!(done.fuse(1).margins.iter().all(|m| m.holds()), "{:?}", done.fuse(1).margins);
}

#[test]
fn no_rating_between_load_and_cable() {
    let mut bench = Bench::two_runs();
    bench.sizes[1] = 1.0;
    bench.currents[1] = 20.0;
    let done = bench.protect();
    let found = done.raises(Kind::FuseNone, 1, Severity::Stop);
    assert!(!found.remedies[0].edits.is_empty(), "{found:?}");
    assert_eq!(done.fuse(1).rating, None);
    Bench::two_runs().protect().quiet(Kind::FuseNone);
}

#[test]
fn a_given_fuse_above_the_ampacity() {
    let mut bench = Bench::two_runs();
    bench.plan.runs[1].fuse = Some(Amps::new(60.0));
    let done = bench.protect();
    let found = done.raises(Kind::FuseBig, 1, Severity::Stop);
    assert_eq!(found.remedies[0].edits, [edit(Place::run(1, "fuse_a"), Value::Number(15.0))]);
    // The rest of the design stands; none before it is smaller.
    assert_eq!(done.fuse(0).rating, Some(Amps::new(60.0)));
    bench.plan.runs[1].fuse = Some(Amps::new(20.0));
    bench.protect().quiet(Kind::FuseBig);
}

#[test]
fn a_given_fuse_under_the_load() {
    let mut bench = Bench::two_runs();
    bench.plan.runs[1].fuse = Some(Amps::new(5.0));
    bench.protect().raises(Kind::FuseSmall, 1, Severity::Stop);
    // 8 A on 10 A in air of 50 °C: carried, but beyond 80 % of what is left.
    bench.plan.runs[1].fuse = Some(Amps::new(10.0));
    bench.protect().raises(Kind::FuseSmall, 1, Severity::Caution);
    bench.plan.runs[1].fuse = Some(Amps::new(15.0));
    bench.protect().quiet(Kind::FuseSmall);
}

#[test]
fn a_style_that_cannot_break_the_fault() {
    let mut bench = Bench::two_runs();
    bench.battery_mohm = Some((2.0, 25.0));
    bench.plan.runs[0].fuse_style = Some("blade-e".into());
    let done = bench.protect();
    let found = done.raises(Kind::FuseBreaking, 0, Severity::Stop);
    assert!(
        matches!(&found.remedies[0].edits[..], [Edit { value: Some(Value::Text(key)), .. }] if key == "cartridge-t"),
        "{found:?}"
    );
    bench.plan.runs[0].fuse_style = None;
    let done = bench.protect();
    assert_eq!(done.fuse(0).style, "cartridge-t");
    assert!(
        done.findings.iter().all(|f| f.kind != Kind::FuseBreaking || f.subject != crate::engine::installation::subject::Subject::Run(0))
    );
}

/// A fault current that no style of the catalogue breaks: a finding, and the rest stands.
#[test]
fn no_style_with_enough_breaking_capacity() {
    let mut bench = Bench::two_runs();
    bench.battery_mohm = Some((0.4, 25.0));
    let done = bench.protect();
    done.raises(Kind::FuseBreaking, 0, Severity::Stop);
    assert!(done.fuse(0).rating.is_some() && done.fuse(1).rating.is_some());
    Bench::two_runs().protect().quiet(Kind::FuseBreaking);
}

#[test]
fn a_far_end_fault_that_opens_too_late() {
    let mut bench = Bench::two_runs();
    bench.plan.runs[1].length = Metres::new(40.0);
    (bench.plan.runs[0].fuse, bench.plan.runs[0].fuse_style) = (Some(Amps::new(40.0)), Some("blade-e".into()));
    (bench.plan.runs[1].fuse, bench.plan.runs[1].fuse_style) = (Some(Amps::new(10.0)), Some("blade-c".into()));
    bench.plan.runs[1].length = Metres::new(80.0);
    let done = bench.protect();
    let found = done.raises(Kind::FuseFarFault, 1, Severity::Caution);
    // The named size and the named length both mend it.
    let [Edit { value: Some(Value::Text(label)), .. }] = &found.remedies[0].edits[..] else { panic!("{found:?}") };
    let longest = done.fuse(1).longest.unwrap();
    bench.sizes[1] = bench.catalogue.conductor(label).unwrap().area.get();
    bench.protect().quiet(Kind::FuseFarFault);
    bench.sizes[1] = 4.0;
    bench.plan.runs[1].length = longest * 0.999;
    bench.protect().quiet(Kind::FuseFarFault);
    bench.plan.runs[1].length = longest * 1.001;
    // A little longer it takes the time of the gate below, which the cable stands: a note.
    bench.protect().raises(Kind::FuseFarFault, 1, Severity::Note);
}

/// 30 A of the slower style on 2.5 mm²: up to 60 s at twice the rating is more than the cable stands.
#[test]
fn a_far_end_fault_that_the_cable_does_not_stand() {
    let mut bench = Bench::two_runs();
    bench.sizes[1] = 2.5;
    bench.plan.runs[1].length = Metres::new(5.0);
    bench.plan.runs[1].fuse = Some(Amps::new(30.0));
    bench.plan.runs[1].fuse_style = Some("blade-e".into());
    bench.protect().raises(Kind::FuseFarFault, 1, Severity::Caution);
}

/// A current that the link carries for ever never opens it, whatever its gates say.
#[test]
fn a_far_end_fault_under_the_rating_is_a_stop() {
    let mut bench = Bench::two_runs();
    bench.plan.runs[1].length = Metres::new(500.0);
    bench.protect().raises(Kind::FuseFarFault, 1, Severity::Stop);
}

#[test]
fn a_start_that_opens_the_fuse() {
    let mut bench = Bench::two_runs();
    bench.surges[1] = Some((40.0, 2.0));
    bench.plan.runs[1].fuse = Some(Amps::new(15.0));
    bench.protect().raises(Kind::FuseSurge, 1, Severity::Caution);
    bench.plan.runs[1].fuse = Some(Amps::new(60.0));
    bench.protect().quiet(Kind::FuseSurge);
    bench.plan.runs[1].fuse = None;
    bench.surges[1] = Some((16.0, 2.0));
    let done = bench.protect();
    done.quiet(Kind::FuseSurge);
    assert_eq!((done.fuse(1).rating, done.fuse(1).ruling), (Some(Amps::new(20.0)), "start surge"));
}

#[test]
fn two_fuses_that_may_both_open() {
    let mut bench = Bench::two_runs();
    bench.add("panel", "radio", 2.0, 2.5, 2.0);
    bench.battery_mohm = Some((14.0, 25.0));
    bench.plan.runs[0].fuse = Some(Amps::new(20.0));
    bench.currents[0] = 10.0;
    let done = bench.protect();
    let found = done.raises(Kind::FuseSelective, 1, Severity::Caution);
    assert_eq!(found.remedies[0].edits, [edit(Place::run(0, "fuse_a"), Value::Number(30.0))]);
    bench.plan.runs[0].fuse = Some(Amps::new(30.0));
    bench.protect().quiet(Kind::FuseSelective);
    // Left open, it is raised by itself.
    bench.plan.runs[0].fuse = None;
    let done = bench.protect();
    done.quiet(Kind::FuseSelective);
    assert_eq!(done.fuse(0).ruling, "selectivity");
    // On one line that feeds nothing on the way it does not matter which opens.
    let mut line = Bench::two_runs();
    line.plan.runs[0].fuse = Some(Amps::new(20.0));
    line.currents[0] = 10.0;
    line.protect().quiet(Kind::FuseSelective);
}

#[test]
fn a_run_without_a_fuse() {
    // 4 mm² behind a 50 A fuse.
    let mut bench = Bench::two_runs();
    bench.plan.runs[1].own_fuse = false;
    bench.plan.runs[0].fuse = Some(Amps::new(50.0));
    let done = bench.protect();
    let found = done.raises(Kind::FuseMissing, 1, Severity::Stop);
    assert_eq!(found.remedies[0].edits, [edit(Place::run(1, "own_fuse"), Value::Flag(true))]);
    assert!(done.runs[1].fuses.is_empty());
    // The fuse upstream is chosen small enough where the load lets it.
    bench.plan.runs[0].fuse = None;
    bench.currents[0] = 8.0;
    let done = bench.protect();
    done.quiet(Kind::FuseMissing);
    assert!(done.fuse(0).at_most.get() < 50.0);
    // Straight from the battery there is nothing upstream.
    bench.plan.runs[0].own_fuse = false;
    bench.protect().raises(Kind::FuseMissing, 0, Severity::Stop);
}

#[test]
fn solar_that_joins_behind_the_fuse_counts() {
    let mut bench = Bench::two_runs();
    bench.plan.runs[0].fuse = Some(Amps::new(30.0));
    bench.currents[0] = 8.0;
    bench.plan.runs[1].own_fuse = false;
    bench.protect().quiet(Kind::FuseMissing);
    bench.plan.solar.array = Watts::new(300.0);
    bench.plan.solar.at = "panel".into();
    bench.protect().raises(Kind::FuseMissing, 1, Severity::Stop);
}

#[test]
fn a_fuse_far_from_its_source() {
    let mut bench = Bench::two_runs();
    bench.plan.runs[1].fuse_distance = Metres::new(0.5);
    let done = bench.protect();
    let found = done.raises(Kind::FuseFar, 1, Severity::Stop);
    assert_eq!(found.remedies.len(), 2);
    bench.plan.runs[1].surroundings = "loom-tube".into();
    bench.protect().quiet(Kind::FuseFar);
    bench.plan.runs[1].fuse_distance = Metres::new(1.2);
    bench.protect().raises(Kind::FuseFar, 1, Severity::Stop);
}

/// A 60 A link may take seconds at a current that 1 mm² does not stand for so long.
#[test]
fn more_comes_through_than_the_cable_stands() {
    let mut bench = Bench::two_runs();
    bench.sizes[1] = 1.0;
    bench.plan.runs[1].length = Metres::new(1.0);
    bench.plan.runs[1].fuse = Some(Amps::new(40.0));
    bench.plan.runs[1].fuse_style = Some("strip-30".into());
    let found = bench.protect();
    let found = found.raises(Kind::LetThrough, 1, Severity::Stop);
    assert!(!found.remedies[0].edits.is_empty());
    bench.sizes[1] = 10.0;
    bench.protect().quiet(Kind::LetThrough);
}

/// Both batteries on one relay: each cable is fused at its battery, and guarded at the relay by the other's fuse.
#[test]
fn a_cable_between_two_batteries_is_fused_at_both_ends() {
    let mut bench = Bench::empty();
    bench.plan.charger.kind = ChargerKind::Relay;
    bench.add("service battery", "charger", 1.0, 16.0, 40.0);
    bench.add("starter battery", "charger", 4.0, 16.0, 40.0);
    let done = bench.protect();
    assert_eq!((done.fuse(0).at.as_str(), done.fuse(1).at.as_str()), ("service battery", "starter battery"));
    assert_eq!(done.runs[0].far_end, FarEnd::Guarded { run: 1, rating: done.fuse(1).rating.unwrap() });
    done.quiet(Kind::FuseMissing);
    // Thin cable behind a thick one: its far end needs a fuse of its own.
    bench.sizes[0] = 4.0;
    bench.currents[0] = 20.0;
    let done = bench.protect();
    assert_eq!(done.runs[0].far_end, FarEnd::Fused);
    let ends: Vec<&str> = done.runs[0].fuses.iter().map(|f| f.at.as_str()).collect();
    assert_eq!(ends, ["service battery", "charger"]);
    // And when it may not have one, that is a stop.
    bench.plan.runs[0].own_fuse = false;
    assert_eq!(bench.protect().runs[0].far_end, FarEnd::Open);
    bench.protect().raises(Kind::FuseMissing, 0, Severity::Stop);
}

#[test]
fn a_charger_that_limits_itself_needs_no_fuse_at_its_end() {
    let mut bench = Bench::two_runs();
    bench.add("service battery", "charger", 1.0, 10.0, 30.0);
    bench.charger_a = 30.0;
    let done = bench.protect();
    assert_eq!(done.runs[2].far_end, FarEnd::Limited(Amps::new(37.5)));
    assert_eq!(done.runs[2].fuses.len(), 1);
    assert_eq!(done.runs[1].far_end, FarEnd::Dead);
    // More than the cable carries: a fuse there too.
    bench.charger_a = 100.0;
    let done = bench.protect();
    assert_eq!(done.runs[2].far_end, FarEnd::Fused);
    assert!(done.runs[2].fuses[1].far_end);
}

/// A user's own gates, read on the part, end the note; the embedded ones are from memory.
#[test]
fn remembered_gates_are_noted_and_the_users_own_are_not() {
    let done = Bench::two_runs().protect();
    let note = done.finding(Kind::GateMemory).unwrap();
    assert_eq!(note.severity, Severity::Note);
    assert!(note.remedies[0].words.contains("styles"));
    let mut bench = Bench::two_runs();
    for style in &mut bench.catalogue.fuse_styles {
        style.from.gates.how = crate::catalogue::How::User;
        for row in &mut style.breaking {
            row.from.amps.how = crate::catalogue::How::User;
        }
    }
    bench.protect().quiet(Kind::GateMemory);
}
