//! What is told beside a finding that stands anyway: which remedy, whose source, what number.

use crate::case::{FRONT, design_of, found_with, severities};
use crate::limits::{CAUTION, STOP, basket, enough_and_no_more, graded, lamp, runs, says, told};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{CutOffQuestion, Finding, FindingKind as Kind, Severity, cut_off_question};
use loomwright::plan::Value;
use loomwright::quantity::{AmpHours, Amps, Volts};

/// The first number behind some words.
#[track_caller]
pub fn number(text: &str, words: &str) -> f64 {
    let (_, behind) = text.split_once(words).unwrap_or_else(|| panic!("{words} is not in {text}"));
    let digits: String = behind.trim_start().chars().take_while(|c| c.is_ascii_digit() || *c == '.').collect();
    digits.parse().unwrap_or_else(|e| panic!("{e} behind {words} in {text}"))
}

/// Findings of a kind whose sources are not looked at.
fn raised(plan: &str, kind: Kind) -> Vec<Finding> {
    design_of(plan).findings.into_iter().filter(|f| f.kind == kind).collect()
}

/// Its own electronics are named where there are any, and of the charge that it may stand at what the plan gives itself is
/// no source of the catalogue's.
#[test]
fn what_standing_is_held_against() {
    let catalogue = Catalogue::embedded().unwrap();
    let low = |key: &str| catalogue.chemistry(key).unwrap().low.from.clone();
    let rule = |plan: &str| {
        let found = found_with(plan, Kind::LeftStanding);
        found.first().unwrap_or_else(|| panic!("nothing is told of {plan}")).rule.clone()
    };
    let lithium = rule("standing.days = 400");
    assert!(lithium.contains(&low("lithium-iron-phosphate").own_draw.words()), "{lithium}");
    // 0.03 A are 65 Ah in three months: of 200 Ah of AGM less than the half that is kept is left.
    let agm = |more: &str| {
        format!(
            "service_battery = {{ chemistry = \"agm\", capacity_ah = 130 }}\ncut_off.standing_draw_a = 0.03\n{more}"
        )
    };
    let [kept, stands] = [low("agm").reserve.words(), low("agm").stand_above.words()];
    assert_ne!(kept, stands);
    graded(Kind::LeftStanding, &[(agm(""), CAUTION)]);
    let own = rule(&agm(""));
    assert!(own.contains(&kept) && !own.contains(&stands), "{own}");
    let given = rule(&agm("cut_off.reserve = 0.5"));
    assert!(!given.contains(&kept) && !given.contains(&stands), "{given}");
    let days = rule(&agm("standing.days = 90"));
    assert!(days.contains(&stands) && !days.contains(&kept), "{days}");
}

/// What mends a lost start: less of a charger where that takes the starts, a drive in time where there is time.
#[test]
fn what_mends_a_lost_start() {
    let mut seen = [0; 4];
    // Three quarters of its rating are there hot, idling or not: what is to spare beyond 40 A.
    for alternator in [40.0, 53.6, 54.0, 54.4, 54.8, 60.0, 70.0] {
        let plan = format!(
            "vehicle = {{ alternator_a = {alternator}, own_draw_a = 40, idle_share = 0.75 }}\ncharger.current_a = 40\n\
             service_battery.capacity_ah = 300\n\
             load = [{{ name = \"pump\", at = \"panel\", power_w = 100, duty = {{ hours_a_day = 24 }} }}]"
        );
        let found = found_with(&plan, Kind::StartLost);
        let Some(finding) = found.first() else { continue };
        let design = design_of(&plan);
        let most = design.charger.bounds.alternator().map(|b| b.amps.get()).fold(f64::MAX, f64::min);
        let less = finding.text.contains("in a usual week") && design.charger.steady.get() > most && most >= 0.5;
        let words = told(&plan, Kind::StartLost);
        assert_eq!(words.contains("leaves the starter battery alone"), less, "{plan}: {most} A");
        if less {
            let half = (most * 2.0).floor() / 2.0;
            assert!(words.contains(&format!("a charger of {} leaves", Amps::new(half))), "{words}");
        }
        assert!(!words.contains("let the service battery feed"), "{words}");
        seen[usize::from(less)] += 1;
    }
    for (amps, days) in [(2.5, true), (30.0, false), (60.0, false)] {
        let plan = format!(
            r#"
            load = [
                {{ name = "lamp", at = "panel", power_w = 10 }},
                {{ name = "fridge", at = "front", current_a = {amps}, kind = "constant-current" }},
            ]
            {FRONT}"#
        );
        let words = told(&plan, Kind::StartLost);
        assert!(words.contains("let the service battery feed fridge, behind its cut-off"), "{words}");
        let lasts = design_of(&plan).charger.starts_for.map_or(0.0, |days| days.get());
        assert_eq!(lasts >= 0.1, days, "{amps} A: {lasts} d");
        assert_eq!(words.contains("of parking"), days, "{words}");
        seen[2 + usize::from(days)] += 1;
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
}

/// Above 25 °C a fuse carries less than its rating, so what is offered is less than the share of it that is to be used.
#[test]
fn what_a_fuse_in_warm_air_is_to_carry() {
    let of = |amps: f64, what: &str| format!("{}{}", lamp(amps), runs("", what));
    let small = of(9.0, ", size = \"6 mm2\", fuse_a = 10");
    let found = &found_with(&small, Kind::FuseSmall)[0];
    let words = told(&small, Kind::FuseSmall);
    let share = number(&found.rule, "steady current ≤") / 100.0;
    assert!(number(&words, "steady current down to") < 10.0 * share, "{words}");
    let least = number(&words, "is less than the");
    assert!(number(&words, "take a") >= least, "{words}");
    // Where it flows all of its rating it may open, and more opens it: at 25 °C, ten kelvin above the air, nothing is lost.
    let cool = |amps: f64| {
        format!("surroundings = {{ hottest_c = 15, mean_c = 10 }}\n{}", of(amps, ", size = \"6 mm2\", fuse_a = 10"))
    };
    graded(Kind::FuseSmall, &[(cool(10.0), CAUTION), (cool(10.1), STOP)]);
    // 16 AWG carries 25 A at 105 °C (33 CFR 183.425 Table 5), and a fuse of 25 A is none too much for it.
    let none = format!("surroundings = {{ hottest_c = 30, mean_c = 10 }}\n{}", of(24.0, ", size = \"16 AWG\""));
    says(&none, Kind::FuseNone, &["which a 25 A fuse carries"]);
}

/// A start that opens a fuse for certain, and one that may.
#[test]
fn what_is_told_of_a_start() {
    let start = |times: f64, seconds: f64, what: &str| {
        format!(
            "load = [{{ name = \"pump\", at = \"panel\", current_a = 4, kind = \"constant-current\", start = {{ times = {times}, seconds = {seconds} }}, duty = {{ hours_a_day = 0.1 }} }}]\n{}",
            runs("", what)
        )
    };
    let mut seen = [0; 3];
    for (times, seconds) in [(3.0, 1.0), (5.0, 1.0), (8.0, 1.0), (12.0, 2.0), (20.0, 5.0), (20.0, 20.0)] {
        let plan = start(times, seconds, ", size = \"6 mm2\", fuse_a = 7.5, fuse_style = \"blade-c\"");
        let found = raised(&plan, Kind::FuseSurge);
        let Some(finding) = found.first() else { continue };
        let stop = finding.severity == Severity::Stop;
        seen[usize::from(stop)] += 1;
        let opens = if stop { "opens the 7.5 A fuse" } else { "may open the 7.5 A fuse" };
        assert!(finding.text.contains(opens), "{finding:?}");
        let sure = number(&finding.text, "only sure to stand that for");
        assert_eq!(finding.rule.contains("each start uses at most"), sure > 0.0, "{finding:?}");
        let words = format!("{:?}", finding.remedies);
        assert!(number(&words, "a soft start that stays under") < 7.5, "warm air: {words}");
        // What is offered fits into the cable, or comes with one that it fits into.
        for remedy in found[0].remedies.iter().filter(|r| r.words.contains("lets it pass")) {
            let ampacity = design_of(&plan).runs[3].size.as_ref().unwrap().ampacity.get();
            match (&remedy.edits[0].value, remedy.edits[0].place.key) {
                (Some(Value::Number(rating)), "fuse_a") => {
                    assert!(*rating <= ampacity, "{remedy:?}");
                    seen[2] += 1;
                }
                (_, key) => {
                    assert_eq!(key, "size");
                    assert!(number(&remedy.words, "carries") > ampacity, "{remedy:?}");
                }
            }
        }
        assert!(found[0].remedies.iter().any(|r| r.words.contains("lets it pass")), "{found:#?}");
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
}

/// Leads that are not planned: one load may be called by its point, several want a board, a board's own get their cables.
#[test]
fn what_mends_leads_that_nobody_planned() {
    let plan = |loads: &str, more: &str| {
        format!(
            r#"
            {more}
            load = [{loads}]
            run = [
                {{ from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" }},
                {{ from = "cut-off", to = "panel", length_m = 1.5, size = "16 mm2", fuse_a = 60 }},
            ]
            charger.kind = "none""#
        )
    };
    let lamp = r#"{ name = "lamp", at = "panel", power_w = 8 }"#;
    let radio = r#"{ name = "radio", at = "panel", power_w = 20 }"#;
    let both = format!("{lamp}, {radio}");
    let board = r#"board = [{ name = "panel", kind = "bus-bar", rating_a = 100 }]"#;
    let one = told(&plan(lamp, ""), Kind::PanelFuses);
    assert!(one.contains("or call the point `lamp`") && !one.contains("a board of"), "{one}");
    let two = told(&plan(&both, ""), Kind::PanelFuses);
    assert!(two.contains("or make `panel` a board of 2 ways") && !two.contains("call the point"), "{two}");
    let fitted = severities(&plan(&both, board), Kind::PanelFuses);
    if !fitted.is_empty() {
        assert!(!told(&plan(&both, board), Kind::PanelFuses).contains("a board of"));
    }
    // A mains charger alone there is no load to be called by its point.
    let mains = "mains = { current_a = 5, windows = [\"20:00-22:00\"], days = \"every day\", at = \"panel\" }";
    let fused = r#"{ name = "lamp", at = "panel", power_w = 8, tail_fuse_a = 3 }"#;
    let source = told(&plan(fused, mains), Kind::PanelFuses);
    assert!(!source.contains("call the point") && !source.contains("a board of"), "{source}");
    // A fuse that opens before the thin cable comes to harm is a caution, one that may not a stop.
    for (what, grade) in [("20, fuse_style = \"blade-c\"", Severity::Caution), ("60", Severity::Stop)] {
        let plan = plan(lamp, "").replace("fuse_a = 60", &format!("fuse_a = {what}"));
        let found = &raised(&plan, Kind::PanelFuses)[0];
        let stands = number(&found.text, "it stands that for");
        assert!(found.severity == grade && stands > 0.0, "{found:?}");
        assert_eq!(found.text.contains("is ended within"), grade == Severity::Caution, "{found:?}");
    }
}

/// Where a step above what it needs is beyond what charging reaches, a lighter load or a switch is told instead.
#[test]
fn what_mends_a_cut_off_that_chatters() {
    let mut seen = [0; 2];
    for tenth in 0..=20 {
        let output = 13.3 + 0.05 * f64::from(tenth);
        let plan = format!("charger.output_v = {output:.2}\ncut_off = {{ cut_v = 13.2, reconnect_v = 13.2 }}");
        let found = found_with(&plan, Kind::CutOffChatter);
        let out = design_of(&plan).cut_off;
        let room = out.charging.get() - (out.cut + out.hysteresis_needed).get();
        if (room - 0.05).abs() < 0.002 {
            continue;
        }
        let step = found[0].remedies.iter().any(|r| r.words.contains("reconnect at"));
        assert_eq!(step, room > 0.05, "{room}: {found:?}");
        seen[usize::from(step)] += usize::from(room.abs() < 0.2);
    }
    assert!(seen.iter().all(|n| *n > 0), "{seen:?}");
}

/// AGM is harmed at 10.5 V (its profile): what is offered lies a tenth above, even where nothing is to be kept.
#[test]
fn what_is_offered_lies_above_harm() {
    let plan = "service_battery.chemistry = \"agm\"\ncut_off = { cut_v = 10.4, reserve = 0.0 }";
    let found = raised(plan, Kind::CutOffLow);
    let edits = found.iter().flat_map(|f| &f.remedies).flat_map(|r| &r.edits);
    let offered: Vec<f64> = edits
        .filter(|e| e.place.key == "cut_v")
        .filter_map(|e| match e.value {
            Some(Value::Number(n)) => Some(n),
            _ => None,
        })
        .collect();
    assert!(!offered.is_empty() && offered.iter().all(|volts| *volts >= 10.6 - 1e-9), "{offered:?}");
    let catalogue = Catalogue::embedded().unwrap();
    let asked = |at: f64| {
        let (capacity, current) = (AmpHours::new(100.0), Amps::new(8.0));
        let at = Some(Volts::new(at));
        let question = CutOffQuestion { chemistry: "agm".into(), capacity, current, at, ..Default::default() };
        let found = cut_off_question(&catalogue, &question).unwrap().findings;
        found.into_iter().find(|f| f.kind == Kind::CutOffLow).unwrap()
    };
    assert!(asked(10.4).remedies[0].words.contains("no lower than 10.60 V"), "{:?}", asked(10.4));
    let under = asked(11.9).text;
    let (at, short) = (number(&under, "acts at"), number(&under, "%, "));
    assert!((at + short - 50.0).abs() < 0.11, "{under}");
}

/// A run of its own from the posts to the inverter is led from the cut-off instead; what hangs further on is fed from there.
#[test]
fn where_an_inverter_is_to_be_fed_from() {
    let plan = |between: &str| {
        format!(
            r#"
            inverter = {{ rating_w = 300, at = "inverter", idle_w = 10, hours_a_day = 24 }}
            run = [
                {{ from = "starter battery", to = "charger", length_m = 2 }},
                {{ from = "service battery", to = "charger", length_m = 0.5 }},
                {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
                {{ from = "cut-off", to = "panel", length_m = 1.5 }},
                {between}
            ]"#
        )
    };
    let own = plan(r#"{ from = "service battery", to = "inverter", length_m = 1 }"#);
    says(&own, Kind::CutOffMissing, &["from `cut-off` instead"]);
    let far = plan(
        r#"{ from = "service battery", to = "bar", length_m = 1 }, { from = "bar", to = "inverter", length_m = 1 }"#,
    );
    let words = told(&far, Kind::CutOffMissing);
    assert!(words.contains("feed it from a point beyond the cut-off") && !words.contains("instead"), "{words}");
}

/// A switch before panels that are not there parts nothing.
#[test]
fn a_controller_without_panels_loses_no_battery() {
    let plan = |watts: u32| {
        format!(
            "solar = {{ array_w = {watts}, at = \"panel\", sun_hours = 4 }}\nmain_switch = {{ rating_a = 100, at = \"cut-off\" }}"
        )
    };
    graded(Kind::MainSwitchParts, &[(plan(100), STOP), (plan(0), &[])]);
}

/// A block that just goes in has no clearance; one that does not lacks so much.
#[test]
fn what_is_told_of_a_tight_basket() {
    let inside =
        |key: &str, mm: f64| basket("").replace("clearance_mm = 5", &format!("clearance_mm = 5, {key} = {mm}"));
    says(&inside("length_mm", 330.0), Kind::CarrierTight, &["only 0 mm of clearance along"]);
    says(&inside("length_mm", 329.0), Kind::CarrierTight, &["does not go in: 0.5 mm too little at each side along"]);
}

/// Nothing is welded to a basket without straps.
#[test]
fn a_basket_without_straps_has_no_welds() {
    let weld = |straps: u32| {
        let more = format!("clearance_mm = 5, straps = {straps}, weld_length_mm = 300");
        basket("").replace("clearance_mm = 5", &more)
    };
    graded(Kind::WeldUnmade, &[(weld(2), STOP), (weld(0), &[])]);
}

/// Half a millimetre shorter than the floor is deep (common practice): of 32 mm 31.5. A floor that is crushed is told once,
/// and a spacer as long as is offered crushes it no more.
#[test]
fn what_mends_a_spacer() {
    let floor = |spacer: f64| {
        let more = format!("clearance_mm = 5, deck_depth_mm = 32, spacer_mm = {spacer}");
        basket("").replace("clearance_mm = 5", &more)
    };
    says(&floor(32.0), Kind::SpacerLoose, &["31.5 mm: 0.5 mm shorter than the floor"]);
    says(&floor(25.0), Kind::FloorCrushed, &["faces 7 mm together"]);
    enough_and_no_more(&floor(25.0), Kind::FloorCrushed, "spacer_mm", 0.5);
    let links = |plan: &str| {
        let found = found_with(plan, Kind::LinkWeak);
        found.into_iter().map(|f| f.text).collect::<Vec<_>>().join(" | ")
    };
    assert!(!links(&floor(25.0)).contains("the faces of the hollow floor is used"), "{}", links(&floor(25.0)));
}
