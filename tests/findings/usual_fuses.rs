//! Fuses of usual systems, by value: what a tradesman would fit may be built, what harms is found.

use crate::case::plan_of;
use loomwright::catalogue::Catalogue;
use loomwright::engine::{Design, Finding, FindingKind as Kind, Severity, Subject, design};
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| Catalogue::embedded().unwrap());

fn of(text: &str) -> Design {
    design(&plan_of(text, &CATALOGUE), &CATALOGUE)
}

/// A van with a box of blade fuses 6 m from its bank.
fn van(bank: &str) -> String {
    format!(
        r#"format = 2
surroundings = {{ coldest_c = 0, hottest_c = 40, engine_bay_c = 80 }}
vehicle = {{ alternator_a = 120, driving = ["08:00-10:00"] }}
service_battery = {{ {bank} }}
charger = {{ kind = "dc-dc", current_a = 30 }}
board = [{{ name = "box", style = "blade-c" }}]
run = [
    {{ from = "starter battery", to = "charger", length_m = 5, insulation = "xlpe-125" }},
    {{ from = "service battery", to = "charger", length_m = 0.8 }},
    {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
    {{ from = "cut-off", to = "box", length_m = 6 }},
]
load = [
    {{ name = "fridge", at = "box", power_w = 45, lead_m = 2, duty = {{ hours_a_day = 8 }} }},
    {{ name = "lamps", at = "box", power_w = 10, lead_m = 3, duty = {{ hours_a_day = 4 }} }},
    {{ name = "heater", at = "box", power_w = 30, lead_m = 2, duty = {{ hours_a_day = 6 }} }},
]"#
    )
}

fn of_devices(design: &Design) -> impl Iterator<Item = &Finding> {
    let kinds = [Kind::LetThrough, Kind::SizeNone];
    design.findings.iter().filter(move |f| f.kind.key().starts_with("fuse-") || kinds.contains(&f.kind))
}

fn severity(design: &Design, kind: Kind, run: usize) -> Option<Severity> {
    design.findings.iter().find(|f| f.kind == kind && f.subject == Subject::Run(run)).map(|f| f.severity)
}

/// Banks that are sold every day: devices that are made for each, no stop, and at the posts the high-breaking links
/// that batteries of lithium ask for.
#[test]
fn usual_banks_can_be_built() {
    for bank in [
        "chemistry = \"lithium-iron-phosphate\", capacity_ah = 300",
        "chemistry = \"flooded\", capacity_ah = 225",
        "chemistry = \"agm\", capacity_ah = 400",
    ] {
        let design = of(&van(bank));
        let stops: Vec<_> = of_devices(&design).filter(|f| f.severity == Severity::Stop).collect();
        assert!(stops.is_empty(), "{bank}: {stops:#?}");
        for fuse in design.runs.iter().flat_map(|r| &r.fuses) {
            let style = CATALOGUE.fuse_style(&fuse.style).unwrap();
            assert!(fuse.rating.is_some_and(|r| style.ratings.contains(&r)), "{bank}: {fuse:?}");
        }
        let main = &design.runs[2].fuses[0];
        assert!(main.breaking >= main.likely, "{bank}: {main:?}");
        // A lamp hangs on its own small blade, in thin cable.
        let lamp = &design.runs[5];
        assert!(lamp.fuses[0].style == "blade-c" && lamp.fuses[0].rating.unwrap().get() <= 5.0, "{:?}", lamp.fuses);
        assert_eq!(lamp.size.as_ref().unwrap().label, "1 mm²", "{bank}");
    }
}

/// 4.9 mΩ from the data sheet of a 100 Ah block at some 13 V: 13.0 / 0.0049 = 2.65 kA are likely; the low end of
/// the catalogue, 1.3 mΩ, stays the most, 10 kA. A reading must never license a blade at the post.
#[test]
fn a_resistance_of_the_sheet_says_what_is_likely() {
    let design = of(&van("chemistry = \"agm\", capacity_ah = 100, resistance_mohm = 4.9"));
    let main = &design.runs[2].fuses[0];
    assert!((main.likely.get() - 2650.0).abs() < 80.0, "{}", main.likely);
    assert!(main.prospective.get() > 9000.0, "{}", main.prospective);
    assert!(main.breaking >= main.prospective, "{main:?}");
}

/// A box of blades, each breaking 1 kA, 6 m behind a high-breaking link at a lithium bank: the usual answer. Its feed's
/// blade is backed up, which is a note.
#[test]
fn a_box_of_blades_behind_a_main_fuse_is_a_note() {
    let design = of(&van("chemistry = \"lithium-iron-phosphate\", capacity_ah = 200"));
    let feed = &design.runs[3].fuses[0];
    assert!(feed.breaking < feed.prospective, "{feed:?}");
    assert_eq!(severity(&design, Kind::FuseBreaking, 3), Some(Severity::Note));
    assert!(
        (4..design.runs.len())
            .all(|run| severity(&design, Kind::FuseBreaking, run).is_none_or(|s| s == Severity::Note))
    );
}

/// 120 Ah flooded on a plain relay, 25 mm² over 4 m, fused at both ends, is good practice behind an alternator of
/// fixed voltage. A variable one is caught.
#[test]
fn a_plain_relay_behind_a_usual_alternator_is_no_stop() {
    let relay = |alternator: &str| {
        format!(
            r#"format = 2
surroundings = {{ coldest_c = 0, hottest_c = 35, engine_bay_c = 70 }}
vehicle = {{ driving = ["08:00-12:00"], {alternator} }}
service_battery = {{ chemistry = "flooded", capacity_ah = 120, days_without_charge = 0.5 }}
charger = {{ kind = "relay" }}
run = [
    {{ from = "starter battery", to = "charger", length_m = 4, size = "25 mm²", insulation = "xlpe-125" }},
    {{ from = "service battery", to = "charger", length_m = 0.5, size = "25 mm²" }},
    {{ from = "service battery", to = "cut-off", length_m = 0.5 }},
    {{ from = "cut-off", to = "lamp", length_m = 2 }},
]
load = [{{ name = "lamp", at = "lamp", power_w = 20, duty = {{ hours_a_day = 4 }} }}]"#
        )
    };
    for amps in [55, 70, 90, 120, 150, 180] {
        let design = of(&relay(&format!("alternator_a = {amps}")));
        let stops: Vec<_> = design.findings.iter().filter(|f| f.severity == Severity::Stop).collect();
        assert!(stops.is_empty(), "{amps} A: {stops:#?}");
        assert!(design.runs[..2].iter().all(|r| r.fuses.iter().all(|f| f.rating.is_some()) && !r.fuses.is_empty()));
    }
    let variable = of(&relay("alternator_a = 120, alternator = \"variable\""));
    assert!(variable.findings.iter().any(|f| f.kind == Kind::VariableAlternator && f.severity == Severity::Stop));
}

/// Runs in a row from the service battery with a lamp at each end; the fuses as given, open where 0.
fn row(fuses: &[u32], what: &str) -> String {
    let (mut runs, mut loads) = (String::new(), String::new());
    for (n, fuse) in fuses.iter().enumerate() {
        let from = match n {
            0 => "service battery".to_string(),
            1 => "cut-off".to_string(),
            _ => format!("point {}", n - 1),
        };
        let to = if n == 0 { "cut-off".to_string() } else { format!("point {n}") };
        let given = if *fuse > 0 { format!(", fuse_a = {fuse}, size = \"35 mm²\"") } else { String::new() };
        runs += &format!("    {{ from = \"{from}\", to = \"{to}\", length_m = 1.5{given}{what} }},\n");
        let load = "power_w = 40, drop = \"tolerant\", start = { times = 3, seconds = 1 }";
        loads += &format!("    {{ name = \"{to}\", at = \"{to}\", {load}, duty = {{ hours_a_day = 1 }} }},\n");
    }
    format!(
        "format = 2\nservice_battery = {{ chemistry = \"lithium-iron-phosphate\", capacity_ah = 200 }}\n\
         charger = {{ kind = \"none\" }}\nrun = [\n{runs}]\nload = [\n{loads}]"
    )
}

/// Ratings that rise away from the battery are found where they are given, and not chosen.
#[test]
fn ratings_that_rise_are_found_and_not_chosen() {
    for given in [&[40, 60, 30][..], &[50, 100, 50, 80, 40, 60]] {
        let design = of(&row(given, ""));
        for (run, two) in given.windows(2).enumerate() {
            let found = severity(&design, Kind::FuseSelective, run + 1);
            assert!(two[1] < two[0] || found.is_some(), "{two:?}: {:#?}", design.findings);
        }
        let open = of(&row(&vec![0; given.len()], ""));
        let ratings: Vec<f64> = open.runs.iter().map(|r| r.fuses[0].rating.unwrap().get()).collect();
        assert!(ratings.windows(2).all(|two| two[1] <= two[0]), "{ratings:?}");
        assert!(of_devices(&open).all(|f| f.severity != Severity::Stop), "{:#?}", open.findings);
    }
}

/// A 60 A blade breaks 1 kA. At 200 Ah of lithium up to 27 kA can flow: given there it is a stop, and never chosen.
#[test]
fn a_blade_at_a_lithium_post_is_a_stop() {
    let given = of(&row(&[60, 0, 0], ", fuse_style = \"blade-e\""));
    assert!(given.runs[0].fuses[0].prospective.get() > 26_000.0, "{:?}", given.runs[0].fuses);
    assert_eq!(severity(&given, Kind::FuseBreaking, 0), Some(Severity::Stop));
    let open = of(&row(&[0, 0, 0], ""));
    assert!(open.runs[0].fuses[0].breaking.get() >= 10_000.0, "{:?}", open.runs[0].fuses);
}

/// 165 A for 6 s are 5.5 times a link of 30 A, whose gates let it stay closed for 0.5 s at most from 3.5 times on
/// (blade-c, ISO 8820-3, from memory).
#[test]
fn a_start_that_surely_opens_its_link_is_a_stop() {
    let start = "power_w = 40, drop = \"tolerant\", start = { times = 3, seconds = 1 }";
    let hard = "current_a = 11, drop = \"tolerant\", start = { times = 15, seconds = 6 }";
    let text = row(&[0, 30], "")
        .replace(&format!("at = \"point 1\", {start}"), &format!("at = \"point 1\", {hard}"))
        .replace("size = \"35 mm²\"", "size = \"35 mm²\", fuse_style = \"blade-c\"");
    assert!(text.contains("times = 15"));
    assert_eq!(severity(&of(&text), Kind::FuseSurge, 1), Some(Severity::Stop));
}

/// Three runs in a row without any fuse lack one, at the battery: it is said once.
#[test]
fn a_missing_fuse_is_said_once() {
    let design = of(&row(&[0, 0, 0], ", own_fuse = false"));
    assert_eq!(design.findings.iter().filter(|f| f.kind == Kind::FuseMissing).count(), 1, "{:#?}", design.findings);
}

/// Thin sizes that pass when they are given are not passed over for thicker ones: what is chosen has no more copper.
#[test]
fn no_size_is_kept_for_a_reason_that_has_gone() {
    let sizes = ["2.5 mm²", "1.5 mm²", "2.5 mm²", "1.5 mm²"];
    let open = row(&[0, 0, 0, 0], "");
    let mut given = String::new();
    let mut sizes = sizes.iter();
    for line in open.lines() {
        let size = if line.contains("length_m") { sizes.next() } else { None };
        let with = size.map_or_else(
            || line.to_string(),
            |s| line.replace("length_m = 1.5", &format!("length_m = 1.5, size = \"{s}\"")),
        );
        given += &with;
        given += "\n";
    }
    let (open, given) = (of(&open), of(&given));
    let wrong = |design: &Design| {
        let of = |severity| design.findings.iter().filter(|f| f.severity == severity).count();
        (of(Severity::Stop), of(Severity::Caution))
    };
    assert!(wrong(&open) <= wrong(&given), "{:#?}", open.findings);
    assert!(
        wrong(&open) < wrong(&given) || open.copper.mass <= given.copper.mass,
        "{:?} {:?}",
        open.copper,
        given.copper
    );
}
