//! What mends a plan, tried on plans that were sound before a mistake was planted in them.
//!
//! The sound plan is the proof from outside: so many mistakes can be taken back by so many edits.

use crate::generated_fit_out::fit_out;
use crate::generated_many::plans;
use crate::generated_plan::plan;
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::mend::fewest::{Step, mend};
use loomwright::engine::ask::mend::remedies::remedies;
use loomwright::engine::{Design, Finding, Severity, design};
use loomwright::plan::{Place, Plan, Section, Value, default_example, examples, insert, read, set};
use rand::seq::SliceRandom;
use rand::{Rng, SeedableRng};
use rand_chacha::ChaCha8Rng;
use std::time::{Duration, Instant};

fn read_sound(text: &str, catalogue: &Catalogue) -> Plan {
    let read = read(text, catalogue);
    assert!(read.problems.is_empty(), "{:?}\n{text}", read.problems);
    read.plan
}

/// The lists of loads and runs have one item more each after a lead is planned, so subjects are told by name.
fn about(design: &Design, finding: &Finding) -> (&'static str, String) {
    let words = design.installation.name_of(&finding.subject);
    let name = words.split_once(' ').filter(|(n, _)| n.starts_with('R')).map_or(words.as_str(), |(_, name)| name);
    (finding.kind.key(), name.to_string())
}

fn how_many(design: &Design, like: &(&'static str, String), severity: Severity) -> usize {
    design.findings.iter().filter(|f| f.severity <= severity && about(design, f) == *like).count()
}

/// Cable before a fuse is part of its run.
fn no_longer_than_the_run(plan: &Plan, finding: &Finding) {
    let Some(place) = finding.place.filter(|p| p.section == Section::Run) else { return };
    for remedy in &finding.remedies {
        let Some((before, _)) = remedy.words.split_once(" m of its own cable") else { continue };
        let metres: f64 = before.rsplit(' ').next().unwrap().parse().unwrap();
        assert!(metres <= plan.runs[place.index].length.get(), "{remedy:?}");
    }
}

/// Each edit of each remedy that is told takes its finding away, or makes it milder, and no new stop comes.
fn all_mend(plan: &Plan, catalogue: &Catalogue, seed: u64) -> (usize, usize, usize) {
    let before = design(plan, catalogue);
    let told = remedies(plan, catalogue, &before, &|| true);
    assert_eq!(told.len(), before.findings.len());
    let (mut shown, mut proposed, mut tried) = (0, 0, 0);
    for (old, new) in before.findings.iter().zip(&told) {
        assert!(!new.remedies.is_empty(), "seed {seed}: {new:?}");
        no_longer_than_the_run(plan, new);
        let harm = old.severity < Severity::Note;
        proposed += usize::from(harm && old.remedies.iter().any(|r| !r.edits.is_empty()));
        tried += usize::from(harm && new.remedies.iter().any(|r| !r.edits.is_empty()));
        for remedy in new.remedies.iter().filter(|r| !r.edits.is_empty()) {
            let put = |plan: Plan, e: &loomwright::engine::Edit| plan.with(e.place, e.value.as_ref()).unwrap();
            let after = design(&remedy.edits.iter().fold(plan.clone(), put), catalogue);
            let like = about(&before, old);
            let (was, is) = (how_many(&before, &like, old.severity), how_many(&after, &like, old.severity));
            assert!(is < was, "seed {seed}: {remedy:?} does not mend {old:?}");
            let more = after.count(Severity::Stop) > before.count(Severity::Stop);
            assert!(!more, "seed {seed}: {remedy:?} brings a stop with {old:?}");
            shown += 1;
        }
    }
    (shown, proposed, tried)
}

/// At least as many stops and cautions have an edit that was tried as had one that was not, which most often mends and
/// sometimes does not.
#[test]
fn every_remedy_that_is_told_mends() {
    let catalogue = Catalogue::embedded().unwrap();
    let count = |plans: &[Plan]| {
        let each = plans.iter().enumerate().map(|(n, plan)| all_mend(plan, &catalogue, n as u64));
        each.fold((0, 0, 0), |a, b| (a.0 + b.0, a.1 + b.1, a.2 + b.2))
    };
    let mistaken: Vec<Plan> = mistaken(&catalogue).take(plans(3) as usize).map(|m| m.plan).collect();
    let strange: Vec<Plan> = (0..plans(2)).map(|seed| plan(seed, 7, true, &catalogue)).collect();
    for (what, plans) in [("with mistakes", mistaken), ("strange", strange)] {
        let (shown, proposed, tried) = count(&plans);
        eprintln!(
            "{} plans {what}: {shown} remedies mend; {tried} stops and cautions have a tried edit, {proposed} had a proposed one",
            plans.len()
        );
        assert!(shown > 0);
        assert!(what == "strange" || tried >= proposed, "{tried} of {proposed}");
    }
}

/// An edit of the plan and the same edit of its text come to the same plan.
#[test]
fn a_plan_is_edited_as_its_text_is() {
    let catalogue = Catalogue::embedded().unwrap();
    for example in examples() {
        let plan = read_sound(example.text, &catalogue);
        let before = design(&plan, &catalogue);
        for edit in before.findings.iter().flat_map(|f| &f.remedies).flat_map(|r| &r.edits) {
            let text = set(example.text, edit.place, edit.value.as_ref()).unwrap();
            assert_eq!(read_sound(&text, &catalogue), plan.with(edit.place, edit.value.as_ref()).unwrap(), "{edit:?}");
        }
    }
}

const MISTAKES: usize = 9;

/// One mistake in the text of a fit-out; `None` where this plan has no room for it.
fn planted(text: &str, which: usize, dice: &mut ChaCha8Rng) -> Option<(Place, String)> {
    let word = |w: &str| Some(Value::Text(w.into()));
    let number = |n: f64| Some(Value::Number(n));
    let run = |n: usize, key: &'static str| Place::run(n, key);
    let (place, value) = match which {
        0 => (run(3, "size"), word(["0.75 mm2", "1 mm2"][dice.random_range(0..2)])),
        1 => (run(2, "size"), word("1.5 mm2")),
        2 => (run(0, "fuse_distance_m"), number(dice.random_range(3..9) as f64)),
        3 => (run(0, "fuse_a"), number([300.0, 400.0][dice.random_range(0..2)])),
        4 => (run(3, "fuse_a"), number(1.0)),
        5 => (Place::of(Section::ServiceBattery, "capacity_ah"), number(dice.random_range(4..9) as f64)),
        6 => (Place::of(Section::CutOff, "cut_v"), number(8.5)),
        7 => (Place::load(0, "at"), word("panle")),
        _ => (run(2, "fuse_style"), word("blade-c")),
    };
    Some((place, set(text, place, value.as_ref()).ok()?))
}

fn stops(design: &Design) -> usize {
    design.count(Severity::Stop)
}

/// A plan with one to three mistakes that must not be built, each planted in a sound one.
struct Mistaken {
    seed: u64,
    text: String,
    plan: Plan,
    places: Vec<Place>,
}

fn mistaken(catalogue: &Catalogue) -> impl Iterator<Item = Mistaken> {
    let how_bad = |text: &str| stops(&design(&read_sound(text, catalogue), catalogue));
    (1..).filter_map(move |seed| {
        let mut text = fit_out(seed);
        let mut bad = how_bad(&text);
        if bad > 0 {
            return None;
        }
        let mut dice = ChaCha8Rng::seed_from_u64(seed);
        let mut kinds: Vec<usize> = (0..MISTAKES).collect();
        kinds.shuffle(&mut dice);
        let count = dice.random_range(1..=3);
        let mut places: Vec<Place> = Vec::new();
        for which in kinds {
            if places.len() == count {
                break;
            }
            let Some((place, with)) = planted(&text, which, &mut dice) else { continue };
            let worse = how_bad(&with);
            if worse > bad {
                (text, bad) = (with, worse);
                places.push(place);
            }
        }
        let plan = read_sound(&text, catalogue);
        (!places.is_empty()).then_some(Mistaken { seed, text, plan, places })
    })
}

/// `LOOMWRIGHT_PLANS` asks for more than the usual draw.
#[test]
fn planted_mistakes_are_mended_by_no_more_edits_than_there_are() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut made, mut edits, mut mistakes, mut longest) = (0, 0, 0, Duration::ZERO);
    let mut wrong = Vec::new();
    for Mistaken { seed, text, plan, places } in mistaken(&catalogue).take(plans(4) as usize) {
        made += 1;
        let before = design(&plan, &catalogue);
        let begun = Instant::now();
        let mended = mend(&plan, &catalogue, &before, Severity::Stop, &|| true);
        longest = longest.max(begun.elapsed());
        let put = |text: String, s: &Step| set(&text, s.edit.place, s.edit.value.as_ref()).unwrap();
        let after = design(&read_sound(&mended.steps.iter().fold(text, put), &catalogue), &catalogue);
        (edits, mistakes) = (edits + mended.steps.len(), mistakes + places.len());
        if stops(&after) > 0 || mended.steps.len() > places.len() {
            let left: Vec<_> =
                after.findings.iter().filter(|f| f.severity == Severity::Stop).map(|f| &f.text).collect();
            let words: Vec<_> = mended.steps.iter().map(|s| &s.words).collect();
            wrong.push(format!("seed {seed}: {places:?} by {words:?}, left {left:?}"));
        }
    }
    eprintln!("{made} plans with {mistakes} mistakes mended by {edits} edits, the slowest in {longest:?}");
    assert!(wrong.is_empty(), "{} of {made}:\n{}", wrong.len(), wrong.join("\n"));
}

/// Without cautions either: after it there are no more than the plan had before anything was planted in it.
#[test]
fn cautions_are_mended_too_where_they_are_asked_for() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut wrong = Vec::new();
    let (mut made, mut cautions, mut left) = (0, 0, 0);
    for Mistaken { seed, text, plan, places } in mistaken(&catalogue).take(plans(2) as usize) {
        made += 1;
        let sound = design(&read_sound(&fit_out(seed), &catalogue), &catalogue);
        let before = design(&plan, &catalogue);
        let mended = mend(&plan, &catalogue, &before, Severity::Caution, &|| true);
        let put = |text: String, s: &Step| set(&text, s.edit.place, s.edit.value.as_ref()).unwrap();
        let after = design(&read_sound(&mended.steps.iter().fold(text, put), &catalogue), &catalogue);
        let now = after.count(Severity::Caution);
        (cautions, left) = (cautions + before.count(Severity::Caution), left + now);
        if stops(&after) > 0 || now > sound.count(Severity::Caution) {
            let still: Vec<_> =
                after.findings.iter().filter(|f| f.severity < Severity::Note).map(|f| &f.text).collect();
            let steps: Vec<_> = mended.steps.iter().map(|s| &s.words).collect();
            wrong.push(format!("seed {seed}: {places:?}, by {steps:?}, left {still:?}"));
        }
    }
    eprintln!("{made} plans with {cautions} cautions, {left} left");
    assert!(wrong.is_empty(), "{} of {made}:\n{}", wrong.len(), wrong.join("\n"));
}

/// Sixty runs with three mistakes, by no more edits than mistakes.
#[test]
fn a_plan_of_sixty_runs_is_mended() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut text = default_example().text.to_string();
    for board in 0..3 {
        let length = 2 + board;
        text += &format!("\n[[board]]\nname = \"board {board}\"\nstyle = \"blade-c\"\n[[run]]\nfrom = \"cut-off\"\n");
        text += &format!("to = \"board {board}\"\nlength_m = {length}\n");
    }
    for lead in 0..42 {
        let (at, power, length) = (lead % 3, 3 + lead % 20, 1 + lead % 4);
        text += &format!("\n[[load]]\nname = \"load {lead}\"\nat = \"board {at}\"\npower_w = {power}\n");
        text += &format!("lead_m = {length}\nduty = {{ hours_a_day = 0.2 }}\n");
    }
    let sound = design(&read_sound(&text, &catalogue), &catalogue);
    assert_eq!(sound.runs.len(), 60);
    let faults = [
        (Place::run(0, "fuse_distance_m"), Value::Number(4.0)),
        (Place::run(1, "size"), Value::Text("1.5 mm2".into())),
        (Place::of(Section::CutOff, "cut_v"), Value::Number(9.5)),
    ];
    let put = |text: String, (place, value): &(Place, Value)| set(&text, *place, Some(value)).unwrap();
    let plan = read_sound(&faults.iter().fold(text, put), &catalogue);
    let before = design(&plan, &catalogue);
    assert!(stops(&before) > stops(&sound));
    let begun = Instant::now();
    let mended = mend(&plan, &catalogue, &before, Severity::Stop, &|| true);
    eprintln!("60 runs mended in {:?}: {:#?}", begun.elapsed(), mended.steps);
    let with = mended.steps.iter().try_fold(plan.clone(), |p, s| p.with(s.edit.place, s.edit.value.as_ref()));
    assert_eq!(stops(&design(&with.unwrap(), &catalogue)), 0, "{:#?}", mended.left);
    assert!(mended.steps.len() <= 3 + stops(&sound), "{:#?}", mended.steps);
}

/// A size or a bank that is kept, and a use that asks for more: nothing mends it, and both are named.
#[test]
fn demands_that_exclude_each_other_are_named() {
    let catalogue = Catalogue::embedded().unwrap();
    let (mut made, mut seed) = (0, 1000);
    let mut wrong = Vec::new();
    while made < plans(4).min(200) {
        seed += 1;
        let sound = fit_out(seed);
        if stops(&design(&read_sound(&sound, &catalogue), &catalogue)) > 0 {
            continue;
        }
        let kept = |text: &str, place: Place, value: Value| {
            let text = set(text, place, Some(&value)).unwrap();
            set(&text, Place { key: "keep", ..place }, Some(&Value::Flag(true))).unwrap()
        };
        let (place, text) = if seed % 2 == 0 {
            let text = insert(
                &sound,
                Section::Load,
                usize::MAX,
                &[
                    ("name", Value::Text("oven".into())),
                    ("at", Value::Text("panel".into())),
                    ("power_w", Value::Number(500.0)),
                    ("duty.hours_a_day", Value::Number(0.1)),
                ],
            );
            let place = Place::run(3, "size");
            (place, kept(&text.unwrap(), place, Value::Text("2.5 mm2".into())))
        } else {
            let place = Place::of(Section::ServiceBattery, "capacity_ah");
            (place, kept(&sound, place, Value::Number(5.0)))
        };
        let plan = read_sound(&text, &catalogue);
        let before = design(&plan, &catalogue);
        if stops(&before) == 0 {
            continue;
        }
        made += 1;
        let mended = mend(&plan, &catalogue, &before, Severity::Stop, &|| true);
        let touched =
            mended.steps.iter().any(|s| s.edit.place.section == place.section && s.edit.place.index == place.index);
        let named = mended.left.iter().any(|e| {
            let kept = |d: &&loomwright::engine::Demand| d.given_up.as_ref().is_some_and(|(p, _)| *p == place);
            e.demands.len() >= 2 && e.demands.iter().any(|d| kept(&d)) && e.demands.iter().any(|d| !kept(&d))
        });
        if touched || !named {
            let says: Vec<_> = mended.left.iter().map(|e| e.sentence()).collect();
            wrong.push(format!("seed {seed}: {place:?} {touched} {says:#?}"));
        }
    }
    assert!(wrong.is_empty(), "{} of {made}:\n{}", wrong.len(), wrong.join("\n"));
}

/// 15 A over 9 m of 2.5 mm² on AGM: a larger size is offered, and no cut-off that the battery cannot hold.
#[test]
fn a_thin_long_cable_is_mended_by_its_size() {
    let catalogue = Catalogue::embedded().unwrap();
    let text = "format = 2\n[service_battery]\nchemistry = \"agm\"\n[charger]\nkind = \"none\"\n\
        [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
        [[run]]\nfrom = \"cut-off\"\nto = \"lamp\"\nlength_m = 9\nsize = \"2.5 mm2\"\n\
        [[load]]\nname = \"lamp\"\nat = \"lamp\"\ncurrent_a = 15\ndrop = \"critical\"\nlowest_v = 11\n";
    let plan = read_sound(text, &catalogue);
    let before = design(&plan, &catalogue);
    let told = remedies(&plan, &catalogue, &before, &|| true);
    let drop = told.iter().find(|f| f.kind.key() == "drop-high").unwrap();
    let sizes = drop.remedies.iter().flat_map(|r| &r.edits).filter(|e| e.place == Place::run(1, "size"));
    let offered: Vec<Value> = sizes.filter_map(|e| e.value.clone()).collect();
    // Every size tried one by one: the smallest with which as few stops are left as with any.
    let all: Vec<String> = before.runs[1].sizes.iter().map(|s| s.label.clone()).collect();
    let left = |label: &String| stops(&design(&read_sound(&text.replace("2.5 mm2", label), &catalogue), &catalogue));
    let fewest = all.iter().map(left).min().unwrap();
    let smallest = all.iter().find(|label| left(label) == fewest).unwrap();
    assert!(offered.contains(&Value::Text(smallest.clone())), "{offered:?}, by trying all {smallest}");
    assert!(told.iter().flat_map(|f| &f.remedies).flat_map(|r| &r.edits).all(|e| e.place.key != "cut_v"), "{told:#?}");
    all_mend(&plan, &catalogue, 0);
}

/// An array on the posts, where no leads are planned: connected without a fuse of its own nothing guards them, so both
/// are offered together. 60 W are 5 A at 12 V, of which a fuse that carries it for ever at 80 % has 6.25 A: the next that
/// is made as a blade has 7.5 A (ISO 8820-3).
#[test]
fn a_source_on_the_posts_is_connected_with_a_fuse_of_its_own() {
    let catalogue = Catalogue::embedded().unwrap();
    let text = "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n[solar]\narray_w = 60\n\
        [[run]]\nfrom = \"starter battery\"\nto = \"charger\"\nlength_m = 4\n\
        [[run]]\nfrom = \"service battery\"\nto = \"charger\"\nlength_m = 0.8\n\
        [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
        [[run]]\nfrom = \"cut-off\"\nto = \"lamp\"\nlength_m = 3\n\
        [[load]]\nname = \"lamp\"\nat = \"lamp\"\npower_w = 8\nduty = { hours_a_day = 4 }\n";
    let plan = read_sound(text, &catalogue);
    let told = remedies(&plan, &catalogue, &design(&plan, &catalogue), &|| true);
    let leads = told.iter().find(|f| f.kind.key() == "leads-unplanned").unwrap();
    let fuse = Place::of(Section::Solar, "tail_fuse_a");
    let remedy = leads.remedies.iter().find(|r| r.edits.iter().any(|e| e.place == fuse)).unwrap();
    let value = |key: &str| remedy.edits.iter().find(|e| e.place.key == key).and_then(|e| e.value.clone());
    assert_eq!(value("tail_fuse_a"), Some(Value::Number(7.5)), "{leads:#?}");
    // Behind the cut-off it could not charge what that has parted.
    assert_eq!(value("at"), Some(Value::Text("charger".into())), "{leads:#?}");
    all_mend(&plan, &catalogue, 0);
}

#[test]
fn the_example_with_three_faults_is_mended_by_three_edits() {
    let catalogue = Catalogue::embedded().unwrap();
    let faults = [
        (Place::run(0, "fuse_distance_m"), Value::Number(4.0)),
        (Place::run(1, "size"), Value::Text("1.5 mm2".into())),
        (Place::of(Section::CutOff, "cut_v"), Value::Number(9.5)),
    ];
    let put = |text: String, (place, value): &(Place, Value)| set(&text, *place, Some(value)).unwrap();
    let text = faults.iter().fold(default_example().text.to_string(), put);
    let plan = read_sound(&text, &catalogue);
    let sound = design(&read_sound(default_example().text, &catalogue), &catalogue);
    let before = design(&plan, &catalogue);
    assert!(stops(&before) > stops(&sound));
    let begun = Instant::now();
    let mended = mend(&plan, &catalogue, &before, Severity::Stop, &|| true);
    let took = begun.elapsed();
    eprintln!("mended in {took:?}: {:#?}", mended.steps);
    assert!(mended.steps.len() <= 3 + stops(&sound), "{:#?}", mended.steps);
}
