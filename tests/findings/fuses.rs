//! Fuses: rating, breaking capacity, far-end faults, rows of fuses, distance.

use crate::case::{Case, design_of, found_with, plan_of, run, text_with};
use loomwright::catalogue::Catalogue;
use loomwright::engine::ask::workshop::parts::Part;
use loomwright::engine::{Edit, Finding, FindingKind as Kind, Severity, Subject, cut_list, design, parts_list};
use loomwright::plan::{Value, set};

/// The runs of the sound plan and one more behind the panel.
const LAMP: &str = r#"
    run = [
        { from = "starter battery", to = "charger", length_m = 2, insulation = "xlpe-125" },
        { from = "service battery", to = "charger", length_m = 0.5 },
        { from = "service battery", to = "cut-off", length_m = 0.5 },
        { from = "cut-off", to = "panel", length_m = 1.5, size = "10 mm²" },
        { from = "panel", to = "lamp", length_m = 4, LAST },
    ]"#;

/// The plan with something said of its last run.
fn last(what: &str) -> String {
    LAMP.replace("LAST", what).replace(
        "{ from = \"panel\", to = \"lamp\", length_m = 4, }",
        "{ from = \"panel\", to = \"lamp\", length_m = 4 }",
    )
}

fn load(amps: f64) -> String {
    format!(
        "load = [{{ name = \"lamp\", at = \"lamp\", current_a = {amps}, drop = \"tolerant\", duty = {{ hours_a_day = 1 }} }}]\n"
    )
}

fn start(times: f64) -> String {
    format!(
        "load = [{{ name = \"lamp\", at = \"lamp\", current_a = 4, drop = \"tolerant\", start = {{ times = {times}, seconds = 1 }}, duty = {{ hours_a_day = 1 }} }}]\n"
    )
}

/// A fuse of 30 A behind one that feeds a radio too.
fn in_a_row(upstream: u32) -> String {
    let radio = r#", { name = "radio", at = "panel", current_a = 1 }]"#;
    let loads = load(8.0).replace("}]", &format!("}}{radio}"));
    let fused = format!("size = \"10 mm²\", fuse_a = {upstream}, fuse_style = \"blade-e\"");
    loads + &last("fuse_a = 30, fuse_style = \"blade-c\", size = \"6 mm²\"").replace("size = \"10 mm²\"", &fused)
}

/// A lamp's lead with such a breaker, behind a fuse of such a rating.
fn behind(style: &str, upstream: u32) -> String {
    let fused = format!("size = \"10 mm²\", fuse_a = {upstream}");
    load(2.0)
        + &last(&format!("fuse_style = \"{style}\", fuse_a = 10, size = \"1.5 mm²\""))
            .replace("size = \"10 mm²\"", &fused)
}

/// The charger's output, which runs both ways, with such a device.
fn charging(style: &str) -> String {
    let own = format!("to = \"charger\", length_m = 0.5, fuse_style = \"{style}\" }}");
    load(2.0) + &last("").replace("to = \"charger\", length_m = 0.5 }", &own)
}

fn leak(text: String) -> &'static str {
    Box::leak(text.into_boxed_str())
}

fn case(kind: Kind, raises: String, quiet: String) -> Case {
    Case { kind, raises: leak(raises), quiet: leak(quiet) }
}

fn cases() -> Vec<Case> {
    let of = |amps: f64, what: &str| load(amps) + &last(what);
    vec![
        case(Kind::FuseNone, of(25.0, "size = \"1 mm²\""), of(2.0, "size = \"2.5 mm²\"")),
        case(Kind::FuseUnmade, of(2.0, "size = \"6 mm²\", fuse_a = 12.3"), of(2.0, "size = \"6 mm²\", fuse_a = 15")),
        case(Kind::FuseBig, of(2.0, "size = \"2.5 mm²\", fuse_a = 60"), of(2.0, "size = \"16 mm²\", fuse_a = 60")),
        case(Kind::FuseSmall, of(9.0, "fuse_a = 5"), of(9.0, "fuse_a = 30")),
        case(
            Kind::FuseBreaking,
            of(2.0, "").replace("size = \"10 mm²\"", "size = \"10 mm²\", fuse_style = \"blade-c\""),
            of(2.0, "").replace("size = \"10 mm²\"", "size = \"10 mm²\", fuse_style = \"cartridge-t\""),
        ),
        case(Kind::FuseFarFault, of(2.0, "size = \"2.5 mm²\", fuse_a = 30, switch_mohm = 150"), of(2.0, "")),
        case(
            Kind::FuseSurge,
            start(10.0) + &last("fuse_a = 30, size = \"10 mm²\""),
            start(5.0) + &last("fuse_a = 30, size = \"10 mm²\""),
        ),
        case(Kind::FuseSelective, in_a_row(40), in_a_row(60)),
        case(
            Kind::FuseMissing,
            of(2.0, "size = \"1 mm²\", own_fuse = false")
                .replace("size = \"10 mm²\"", "size = \"10 mm²\", fuse_a = 60"),
            of(2.0, "size = \"16 mm²\", own_fuse = false")
                .replace("size = \"10 mm²\"", "size = \"10 mm²\", fuse_a = 60"),
        ),
        case(
            Kind::FuseFar,
            of(2.0, "fuse_distance_m = 0.6"),
            of(2.0, "fuse_distance_m = 0.6, surroundings = \"conduit\""),
        ),
        case(Kind::BreakerAlone, behind("breaker-auto", 60), behind("breaker-panel", 60)),
        // Behind a fuse that its cable stands it may close again as it likes.
        case(Kind::BreakerAlone, behind("breaker-held", 60), behind("breaker-held", 10)),
        case(Kind::BreakerPolarity, charging("breaker-marked"), charging("breaker-mag")),
        case(
            Kind::LetThrough,
            of(2.0, "size = \"1 mm²\", fuse_a = 40, fuse_style = \"strip-30\""),
            of(2.0, "size = \"16 mm²\", fuse_a = 40, fuse_style = \"strip-30\""),
        ),
    ]
}

#[test]
fn each_kind_is_raised_and_not() {
    run(&cases());
}

/// The note on remembered figures ends only when the user's own figures replace them (see the engine's own
/// tests); without any run there is no fuse to speak of.
#[test]
fn remembered_figures_are_noted() {
    run(&[Case { kind: Kind::GateMemory, raises: "", quiet: "run = []\nload = []" }]);
}

/// Each edit that a finding offers, made, ends that finding.
#[test]
fn what_is_offered_mends() {
    let catalogue = Catalogue::embedded().unwrap();
    let mut made = 0;
    for case in cases() {
        let text = text_with(case.raises);
        let found = |text: &str| {
            let all = design(&plan_of(text, &catalogue), &catalogue).findings;
            all.into_iter().filter(|f| f.kind == case.kind).collect::<Vec<_>>()
        };
        let has = |text: &str, subject: &Subject| found(text).iter().any(|f| f.subject == *subject);
        for finding in found(&text) {
            for Edit { place, value } in finding.remedies.iter().flat_map(|r| r.edits.clone()) {
                let mended = set(&text, place, value.as_ref()).unwrap();
                assert!(!has(&mended, &finding.subject), "{value:?} at {place:?} does not mend {finding:#?}");
                made += 1;
            }
        }
    }
    assert!(made >= 8, "only {made} edits offered");
}

/// 13.4 V over the profile's 0.5 mΩ for 400 Ah is 26.8 kA, more than any link breaks. A measured resistance does not
/// end that: it may have been read on a cold battery or a bad clamp, and the safer of both counts.
#[test]
fn a_measured_resistance_does_not_end_a_stop() {
    let measured = "service_battery.capacity_ah = 400\nservice_battery.resistance_mohm = 1.5";
    for raises in ["service_battery.capacity_ah = 400", measured] {
        run(&[Case { kind: Kind::FuseBreaking, raises, quiet: "service_battery.capacity_ah = 100" }]);
    }
}

/// Two blocks of 280 Ah of lithium: no device breaks what both may give, nor what one may give at the most; one at
/// each block breaks what it is likely to give (half of 30.5 kA), and that is a caution instead of a stop (ABYC E-11
/// of July 2025, 11.10.1.4.1, read in a quotation, asks for them above 500 Ah).
#[test]
fn fuses_at_large_blocks_make_a_stop_a_caution() {
    let bank = "service_battery = { chemistry = \"lithium-iron-phosphate\", capacity_ah = 560, in_parallel = 2";
    let worst = |bank: &str| {
        let found = found_with(bank, Kind::FuseBreaking);
        found.iter().filter(|f| f.text.contains("short circuit at `service battery`")).map(|f| f.severity).min()
    };
    assert_eq!(worst(&format!("{bank} }}")), Some(Severity::Stop));
    assert_eq!(worst(&format!("{bank}, block_fuse_a = 400 }}")), Some(Severity::Caution));
    let blocks = found_with(&format!("{bank}, block_fuse_a = 400 }}"), Kind::BlockFuses);
    assert!(blocks[0].text.contains("the likely, not the most"), "{}", blocks[0].text);
}

/// One block of 400 Ah of lithium gives 20 kA and more: two with a device each are offered, and with those edits what
/// was a stop is a caution (class T breaks 20 kA: UL 248-15, from memory).
#[test]
fn blocks_with_a_device_each_are_offered_where_no_device_breaks_the_bank() {
    let bank = "service_battery.capacity_ah = 400";
    let stop = |f: &&Finding| f.severity == Severity::Stop;
    let found = found_with(bank, Kind::FuseBreaking);
    let remedy = found.iter().filter(stop).flat_map(|f| &f.remedies).find(|r| r.edits.len() == 2).unwrap();
    let number = |key: &str| match remedy.edits.iter().find(|e| e.place.key == key).map(|e| &e.value) {
        Some(Some(Value::Number(n))) => *n,
        other => panic!("{key}: {other:?}"),
    };
    let blocks = format!(
        "{bank}\nservice_battery.in_parallel = {}\nservice_battery.block_fuse_a = {}",
        number("in_parallel"),
        number("block_fuse_a")
    );
    let after = found_with(&blocks, Kind::FuseBreaking);
    assert!(!after.is_empty() && after.iter().all(|f| f.severity != Severity::Stop), "{after:#?}");
}

/// The fuses of the blocks of a bank are bought too, with a holder each and a spare.
#[test]
fn fuses_of_blocks_are_on_the_parts_list() {
    let bank = "service_battery = { chemistry = \"agm\", capacity_ah = 200, in_parallel = 2";
    let parts = |bank: &str| {
        let design = design_of(bank);
        parts_list(&design, &cut_list(&design).cuts)
    };
    let (with, without) = (parts(&format!("{bank}, block_fuse_a = 225 }}")), parts(&format!("{bank} }}")));
    let of_blocks = |p: &&Part| p.group == "fuse" && p.what.contains(" 225 A");
    assert_eq!(with.iter().find(of_blocks).map(|p| p.needed.value), Some(3.0), "two and a spare: {with:#?}");
    assert!(!without.iter().any(|p| of_blocks(&p)), "{without:#?}");
    let holders = |parts: &[Part]| parts.iter().filter(|p| p.group == "holder").map(|p| p.needed.value).sum::<f64>();
    assert_eq!(holders(&with) - holders(&without), 2.0);
}
