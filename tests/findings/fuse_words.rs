//! How grave a fuse that does not fit is, and that what is offered instead is what paper gives.

use crate::case::design_of;
use crate::limits::{lamp, runs};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Finding, FindingKind as Kind, Severity, Subject, design};
use loomwright::plan::read;

fn found(plan: &str, kind: Kind) -> Vec<Finding> {
    design_of(plan).findings.into_iter().filter(|f| f.kind == kind).collect()
}

/// The last run of the sound plan with this said of it.
fn last(amps: f64, what: &str) -> String {
    format!("{}{}", runs(", size = \"16 mm2\"", what), lamp(amps))
}

/// Its words and those of its remedies.
fn told(finding: &Finding) -> String {
    let remedies = finding.remedies.iter().map(|r| r.words.clone());
    [finding.text.clone()].into_iter().chain(remedies).collect::<Vec<_>>().join(" | ")
}

/// The number before a unit that stands behind these words.
#[track_caller]
fn number(text: &str, behind: &str) -> f64 {
    let (_, rest) = text.split_once(behind).unwrap_or_else(|| panic!("`{behind}` is not in {text}"));
    rest.split_whitespace().next().unwrap().parse().unwrap_or_else(|e| panic!("{e}: {rest}"))
}

/// A stop where the load opens it, a caution where it is only loaded by more than eight tenths; in hot air it carries less.
#[test]
fn a_fuse_that_is_too_small() {
    let fuse = |amps: f64, rating: u32, more: &str| {
        let plan = last(amps, &format!(", size = \"6 mm2\", fuse_style = \"blade-c\", fuse_a = {rating}{more}"));
        found(&plan, Kind::FuseSmall).iter().map(|f| f.severity).collect::<Vec<_>>()
    };
    assert_eq!(fuse(9.0, 5, ""), [Severity::Stop]);
    assert_eq!(fuse(9.0, 10, ""), [Severity::Caution]);
    assert_eq!(fuse(9.0, 15, ""), []);
    let style = Catalogue::embedded().unwrap();
    let style = style.fuse_style("blade-c").unwrap();
    let carries = 10.0 * (1.0 - style.lost_per_k * (70.0 - 25.0));
    assert!(carries < 9.9, "{carries}");
    assert_eq!(fuse(carries + 0.05, 10, ", air_c = 70"), [Severity::Stop]);
    assert_eq!(fuse(carries + 0.05, 10, ""), [Severity::Caution]);
}

/// What is offered in its place lies within the cable, is made, and carries eight tenths of it at the most.
#[test]
fn where_no_fuse_fits() {
    let none = found(&last(25.0, ", size = \"1 mm2\""), Kind::FuseNone);
    let text = told(&none[0]);
    let (most, fits) = (number(&text, "the cable for at most "), number(&text, "which a "));
    let catalogue = Catalogue::embedded().unwrap();
    let made = || catalogue.fuse_styles.iter().flat_map(|s| &s.ratings).map(|r| r.get());
    // What is told is rounded.
    assert_eq!(made().filter(|r| *r <= most - 0.05).fold(0.0, f64::max), fits, "{text}");
    let load = number(&text, "bring the steady current down to ");
    assert!(load <= fits * 0.8 + 0.01 && load > fits * 0.6, "{text}");
    // A run that has no size is told that, and not again that it has no fuse; the one before it is.
    let runs: Vec<Subject> = found(&last(350.0, ""), Kind::FuseNone).into_iter().map(|f| f.subject).collect();
    assert!(runs.contains(&Subject::Run(2)) && !runs.contains(&Subject::Run(3)), "{runs:?}");
}

/// The largest blade fuse of type C in the catalogue is 30 A (colour chart in Grainews, How to identify blade fuses, as
/// its row says): nothing on such a board carries more than 24 A at eight tenths of it, and no cable helps. The lead is sized by what it carries, and the lamp beside it is none the worse.
#[test]
fn a_board_whose_style_has_no_such_fuse() {
    let plan = "format = 2\nservice_battery = { chemistry = \"agm\", capacity_ah = 100 }\ncharger = { kind = \"none\" }\n\
                [[board]]\nname = \"panel\"\nstyle = \"blade-c\"\n\
                [[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
                [[run]]\nfrom = \"cut-off\"\nto = \"panel\"\nlength_m = 1\n\
                [[load]]\nname = \"lamp\"\nat = \"panel\"\npower_w = 10\nlead_m = 3\n\
                [[load]]\nname = \"compressor\"\nat = \"panel\"\npower_w = 320\nlead_m = 1\n";
    let catalogue = Catalogue::embedded().unwrap();
    let design = design(&read(plan, &catalogue).plan, &catalogue);
    let stops: Vec<&Finding> =
        design.findings.iter().filter(|f| matches!(f.kind, Kind::FuseNone | Kind::SizeNone)).collect();
    let [none] = stops[..] else { panic!("{stops:?}") };
    let words = told(none);
    assert!(none.kind == Kind::FuseNone && none.subject == Subject::Run(3), "{words}");
    assert!(words.contains("the largest in the catalogue is 30 A") && words.contains("before the board"), "{words}");
    let size = design.runs[3].size.as_ref().unwrap();
    assert!(size.area.get() < 20.0, "{}", size.label);
}

/// Whose copper is too thin for it: its own, or that of a run without a fuse of its own.
#[test]
fn a_fuse_that_is_too_big() {
    let own = found(&last(2.0, ", size = \"2.5 mm2\", fuse_a = 60"), Kind::FuseBig);
    assert!(own[0].severity == Severity::Stop && !own[0].text.contains("which has no fuse of its own"), "{own:?}");
    let lead = format!(
        r#"run = [
            {{ from = "service battery", to = "charger", length_m = 0.5 }},
            {{ from = "service battery", to = "cut-off", length_m = 0.5, size = "16 mm2" }},
            {{ from = "cut-off", to = "hub", length_m = 1, size = "16 mm2", fuse_a = 60 }},
            {{ from = "hub", to = "panel", length_m = 1.5, size = "2.5 mm2", own_fuse = false }},
        ]
        {}"#,
        lamp(2.0)
    );
    let theirs = design_of(&lead).findings;
    let about = |f: &&Finding| matches!(f.kind, Kind::FuseBig | Kind::FuseMissing) && f.severity == Severity::Stop;
    assert!(theirs.iter().any(|f| about(&f)), "{theirs:#?}");
}

/// 33 CFR 183.455: within 7 inches of its source, 40 where the cable is enclosed the whole way.
#[test]
fn a_fuse_that_is_too_far_from_its_source() {
    let far = |metres: f64, more: &str| {
        let plan = last(2.0, &format!(", fuse_distance_m = {metres}{more}"));
        found(&plan, Kind::FuseFar).iter().map(told).collect::<Vec<_>>().join(" | ")
    };
    let conduit = ", surroundings = \"conduit\"";
    assert_eq!((far(0.17, ""), far(1.0, conduit)), (String::new(), String::new()));
    assert!(far(0.6, "").contains("or enclose the cable the whole way"));
    assert!(!far(1.5, "").is_empty() && !far(1.5, "").contains("or enclose the cable"), "{}", far(1.5, ""));
    assert!(
        !far(1.5, conduit).is_empty() && !far(1.5, conduit).contains("or enclose the cable"),
        "{}",
        far(1.5, conduit)
    );
}

/// A cable between two sources is fused at both ends (33 CFR 183.455), or one of them burns it.
#[test]
fn a_cable_that_two_sources_feed() {
    let both = |own: bool| {
        format!(
            "mains = {{ current_a = 60, windows = [\"20:00-06:00\"], at = \"panel\" }}\n{}{}",
            runs(", size = \"16 mm2\", fuse_a = 20", &format!(", size = \"1.5 mm2\", own_fuse = {own}")),
            lamp(2.0)
        )
    };
    let missing = |own| found(&both(own), Kind::FuseMissing).iter().map(told).collect::<Vec<_>>().join(" | ");
    assert!(missing(false).contains("is also fed from `panel`"), "{}", missing(false));
    assert!(!missing(true).contains("is also fed from `panel`"), "{}", missing(true));
}

/// I²t ≤ k²S² (IEC 60364-4-43): the copper that is offered stands what comes through, a hundredth less does not.
#[test]
fn what_comes_through_a_fuse() {
    let plan = last(2.0, ", size = \"1 mm2\", fuse_a = 40, fuse_style = \"strip-30\"");
    let through = found(&plan, Kind::LetThrough);
    let text = told(&through[0]);
    let energy = number(&text, "opens: ");
    let k = number(&through[0].rule, "k = ");
    let least = number(&text, "at least ");
    assert!((least * k / energy.sqrt() - 1.0).abs() < 0.01, "{least} mm² for {energy} A²s at {k}: {text}");
}

/// SAE J553 (from memory): type 1 closes again by itself, type 2 once the supply has been off.
#[test]
fn a_breaker_that_closes_again() {
    let alone = |style: &str| {
        let plan = runs(
            ", size = \"16 mm2\", fuse_a = 60",
            &format!(", size = \"1.5 mm2\", fuse_a = 10, fuse_style = \"{style}\""),
        );
        let found = found(&format!("{plan}{}", lamp(2.0)), Kind::BreakerAlone);
        found.iter().map(told).collect::<Vec<_>>().join(" | ")
    };
    assert!(alone("breaker-auto").contains("by itself while the fault stands"), "{}", alone("breaker-auto"));
    assert!(alone("breaker-held").contains("by itself once the supply has been off"), "{}", alone("breaker-held"));
    assert_eq!(alone("breaker-panel"), "");
}
