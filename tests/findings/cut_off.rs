//! The cut-off question: what it speaks against, and which step it takes.

use loomwright::catalogue::Catalogue;
use loomwright::engine::{CutOffQuestion, FindingKind as Kind, Severity, cut_off_question};
use loomwright::quantity::{AmpHours, Amps, Share, Volts};

/// The bare question says so where no setting makes it good.
#[test]
fn cut_off_question_speaks_against_harm() {
    let catalogue = Catalogue::embedded().unwrap();
    let kinds = |key: &str, amps: f64, reserve: Option<Share>| {
        let (capacity, current) = (AmpHours::new(100.0), Amps::new(amps));
        let question = CutOffQuestion { chemistry: key.into(), capacity, current, reserve, ..Default::default() };
        cut_off_question(&catalogue, &question).unwrap().findings.iter().map(|f| f.kind).collect::<Vec<_>>()
    };
    assert_eq!(kinds("agm", 8.0, None), []);
    assert!(kinds("agm", 800.0, None).contains(&Kind::BatteryRate));
    // Even where nothing is to be kept it is set above where harm begins.
    assert_eq!(kinds("lithium-iron-phosphate", 1.0, Some(Share::ZERO)), []);
}

/// A setting is judged, and a heavy current that was asked about: a stop where more than half of what may be used is
/// left when it opens.
#[test]
fn cut_off_question_judges_a_setting_and_a_heavy_current() {
    let catalogue = Catalogue::embedded().unwrap();
    let asked = |key: &str, at: Option<f64>, heavy: Option<f64>| {
        let question = CutOffQuestion {
            chemistry: key.into(),
            capacity: AmpHours::new(100.0),
            current: Amps::new(8.0),
            heavy: heavy.map(Amps::new),
            at: at.map(Volts::new),
            ..Default::default()
        };
        let answer = cut_off_question(&catalogue, &question).unwrap();
        assert!(at.is_none_or(|at| answer.design.cut == Volts::new(at)));
        answer.findings.iter().map(|f| (f.kind, f.severity)).collect::<Vec<_>>()
    };
    assert_eq!(asked("agm", Some(12.2), None), []);
    assert_eq!(asked("agm", Some(11.9), None), [(Kind::CutOffLow, Severity::Caution)]);
    assert_eq!(asked("agm", Some(10.4), None)[0], (Kind::CutOffLow, Severity::Stop));
    assert_eq!(asked("agm", None, Some(20.0)), []);
    assert_eq!(asked("agm", None, Some(60.0)), [(Kind::CutOffEarly, Severity::Caution)]);
    assert_eq!(asked("lithium-iron-phosphate", None, Some(90.0)), [(Kind::CutOffEarly, Severity::Stop)]);
}

/// The step nearest to the reserve: AGM of 100 Ah at 8 A acts within half a step of the half that is to be kept.
#[test]
fn a_setting_is_rounded_to_the_step_nearest_to_the_reserve() {
    let catalogue = Catalogue::embedded().unwrap();
    let trips = |at: Option<Volts>| {
        let (capacity, current) = (AmpHours::new(100.0), Amps::new(8.0));
        let question = CutOffQuestion { chemistry: "agm".into(), capacity, current, at, ..Default::default() };
        let out = cut_off_question(&catalogue, &question).unwrap().design;
        (out.cut, (out.at_usual().unwrap().trips_at.unwrap().get() - 0.5).abs())
    };
    let (cut, off) = trips(None);
    for other in [-0.1, 0.1] {
        assert!(off <= trips(Some(cut + Volts::new(other))).1, "{cut} is {off} off");
    }
    assert!(off < 0.045, "{off}");
}
