//! The battery while nobody uses the vehicle.

use crate::case::{design_of, severities, tell_apart};
use loomwright::engine::{FindingKind as Kind, Severity};

/// Worked on paper: 60 mA for 91 days are 131 Ah. They end 100 Ah, leave a third of 200 Ah and two thirds of 400 Ah, less
/// what it loses by itself.
#[test]
fn sixty_milliamperes_for_three_months() {
    let with = |chemistry: &str, capacity: u32, milliamperes: u32| {
        let draws = f64::from(milliamperes) / 1000.0 - 0.005;
        severities(
            &format!(
                "service_battery = {{ chemistry = \"{chemistry}\", capacity_ah = {capacity} }}\ncut_off.standing_draw_a = {draws}"
            ),
            Kind::LeftStanding,
        )
    };
    assert_eq!(with("agm", 100, 60), [Severity::Stop]);
    assert_eq!(with("flooded", 100, 60), [Severity::Stop]);
    assert_eq!(with("agm", 200, 60), [Severity::Caution]);
    assert_eq!(with("agm", 400, 60), []);
    assert_eq!(with("agm", 100, 15), []);
    // Its own electronics take another 20 mA; its own protection opens before it is ruined.
    assert_eq!(with("lithium-iron-phosphate", 100, 60), [Severity::Caution]);
}

/// Said to be left for so long, it is held against what it may stand at: lead-acid sulphates, lithium comes near empty.
#[test]
fn left_for_so_long_it_wants_to_be_disconnected() {
    let left =
        |chemistry: &str, more: &str| format!("service_battery.chemistry = \"{chemistry}\"\nstanding = {{ {more} }}");
    let agm = |more: &str| left("agm", more);
    tell_apart(Kind::LeftStanding, &agm("days = 120"), &agm("days = 120, disconnected = true"));
    tell_apart(Kind::LeftStanding, &agm("days = 30, charge = 0.6"), &agm("days = 30"));
    let lithium = |more: &str| left("lithium-iron-phosphate", more);
    tell_apart(Kind::LeftStanding, &lithium("days = 120"), &lithium("days = 120, disconnected = true"));
    assert_eq!(severities(&lithium("days = 150"), Kind::LeftStanding), [Severity::Stop]);
}

/// US Army TM 5-4210-230-14&P-1 Table 2: a quarter full it freezes at -15 °C.
#[test]
fn left_discharged_it_freezes() {
    let at = |coldest: i32| {
        format!(
            "service_battery.chemistry = \"flooded\"\nstanding = {{ days = 1, charge = 0.25, disconnected = true, coldest_c = {coldest} }}"
        )
    };
    assert_eq!(severities(&at(-16), Kind::LeftStanding), [Severity::Stop]);
    assert_eq!(severities(&at(-14), Kind::LeftStanding), [Severity::Caution]);
}

/// Days until harm are those after which so much is left.
#[test]
fn days_until_harm_agree_with_what_is_left() {
    let agm = |days: f64| {
        design_of(&format!("service_battery.chemistry = \"agm\"\nstanding.days = {days}")).standing.unwrap()
    };
    let until = agm(30.0).good_for.unwrap().get();
    // 60 % is what AGM may stand at.
    assert!((agm(until).left.get() - 0.6).abs() < 0.001, "{:?}", agm(until));
    assert_eq!(agm(agm(30.0).empty_after.unwrap().get() + 0.1).left.get(), 0.0);
}
