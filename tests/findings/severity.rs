//! How grave a finding is goes by what it harms: people first, then a battery or a start, then the promise, then money.

use crate::case::{design_of, severities};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{FindingKind as Kind, Harm, Severity, design};
use loomwright::plan::{examples, read};

/// Fire, gas, shock and a falling mass; a ruined battery and a lost start; what the plan promises; money.
#[test]
fn each_kind_harms_what_it_harms() {
    for (harm, kinds) in [
        (
            Harm::People,
            &[
                Kind::FuseMissing,
                Kind::FuseBreaking,
                Kind::AmpacityLow,
                Kind::ColdCharge,
                Kind::StudWeak,
                Kind::JointBad,
            ][..],
        ),
        (Harm::Battery, &[Kind::StarterLow, Kind::CutOffLow, Kind::Freezing, Kind::StandingDraw]),
        (Harm::Promise, &[Kind::PromiseBroken, Kind::UsualWeeks, Kind::DropHigh, Kind::CutOffEarly]),
        (Harm::Money, &[Kind::SizesMany]),
    ] {
        for kind in kinds {
            assert_eq!(kind.harm(), harm, "{kind:?}");
        }
    }
    assert!(Harm::People < Harm::Battery && Harm::Battery < Harm::Promise && Harm::Promise < Harm::Money);
}

/// By severity, then by harm, what stands on every plan last.
#[test]
fn findings_come_worst_first() {
    let catalogue = Catalogue::embedded().unwrap();
    for example in examples() {
        let found = design(&read(example.text, &catalogue).plan, &catalogue).findings;
        let ranks: Vec<_> = found.iter().map(|f| (f.severity, f.everywhere(), f.kind.harm())).collect();
        assert!(ranks.is_sorted(), "{}: {ranks:?}", example.name);
        assert!(found.iter().any(|f| f.kind == Kind::GateMemory && f.everywhere()), "{}", example.name);
    }
}

const LAMP: &str = "charger.kind = \"none\"\ncut_off.cut_v = 12.9\n";

/// A load acts on the voltage at its own terminals: what is lost on the way there counts.
#[test]
fn the_order_counts_what_is_lost_on_the_way() {
    let lamp = |own: f64, metres: f64| {
        format!(
            "{LAMP}load = [{{ name = \"lamp\", at = \"panel\", current_a = 10, own_cut_v = {own}, duty = {{ hours_a_day = 1 }} }}]\n\
             run = [{{ from = \"service battery\", to = \"cut-off\", length_m = 0.5 }}, \
             {{ from = \"cut-off\", to = \"panel\", length_m = {metres}, size = \"4 mm2\" }}]"
        )
    };
    // 10 A over 2 x 3 m of 4 mm² lose some 0.3 V: 12.65 V there are 12.95 V where the cut-off senses.
    assert_eq!(severities(&lamp(12.65, 3.0), Kind::CutOffOrder), [Severity::Note]);
    assert_eq!(severities(&lamp(12.0, 3.0), Kind::CutOffOrder), []);
    assert_eq!(severities(&lamp(12.5, 0.2), Kind::CutOffOrder), []);
}

/// What must stay on and goes off by itself first is a caution.
#[test]
fn a_load_that_must_stay_on_and_goes_off_first_is_a_caution() {
    let alarm = |own: f64| {
        format!(
            "{LAMP}load = [{{ name = \"alarm\", at = \"service battery\", current_a = 0.1, before_cut_off = true, tail_fuse_a = 2, \
             own_cut_v = {own} }}]"
        )
    };
    assert_eq!(severities(&alarm(13.1), Kind::CutOffOrder), [Severity::Caution]);
    assert_eq!(severities(&alarm(11.0), Kind::CutOffOrder), []);
}

/// An inverter at the posts goes by its own cut: below the reserve it is a caution.
#[test]
fn an_inverter_at_the_posts_must_leave_the_reserve() {
    let inverter = |at: &str, own: f64| {
        let agm = "service_battery = { chemistry = \"agm\", capacity_ah = 100 }";
        format!("{agm}\ninverter = {{ rating_w = 300, at = \"{at}\", own_cut_v = {own} }}")
    };
    assert_eq!(severities(&inverter("service battery", 10.5), Kind::CutOffOrder), [Severity::Caution]);
    assert_eq!(severities(&inverter("service battery", 12.9), Kind::CutOffOrder), []);
    assert_eq!(severities(&inverter("panel", 10.5), Kind::CutOffOrder), []);
}

/// 0.06 C on AGM is said with the hours of driving that it takes; a charger as the battery likes it is not.
#[test]
fn a_gentle_charger_is_said_with_its_hours() {
    let charger = |amps: f64| {
        format!("service_battery = {{ chemistry = \"agm\", capacity_ah = 200 }}\ncharger.current_a = {amps}")
    };
    let found = crate::case::found_with(&charger(12.0), Kind::ChargerGentle);
    assert!(found.len() == 1 && found[0].severity == Severity::Note, "{found:?}");
    assert!(found[0].text.contains("of driving bring it from"), "{found:?}");
    assert_eq!(severities(&charger(40.0), Kind::ChargerGentle), []);
}

/// A bank that is small by its sizing and lasts the days when they are tried is no stop; one that does not is.
#[test]
fn a_bank_that_lasts_is_no_stop() {
    let mut seen = [false; 2];
    for capacity in (20..120).step_by(5) {
        let design = design_of(&format!("service_battery.capacity_ah = {capacity}"));
        let small = design.findings.iter().find(|f| f.kind == Kind::BatterySmall);
        if let Some(small) = small {
            let held = design.promise.held() && design.promise.unusual().is_none();
            assert!(
                !(held && small.severity == Severity::Stop && small.text.contains("days without charge")),
                "{small:?}"
            );
            assert!(held || design.findings.iter().any(|f| f.severity == Severity::Stop), "{small:?}");
            seen[usize::from(held)] = true;
        }
    }
    assert_eq!(seen, [true, true]);
}
