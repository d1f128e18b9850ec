//! Days of the week and months of loads and sources.

use crate::case::{Case, plan_with, run};
use loomwright::catalogue::Catalogue;
use loomwright::engine::{FindingKind as Kind, Notes, Span, design, endurance};

#[test]
fn a_load_is_sized_for_by_its_days() {
    run(&[
        // Used on Saturdays only, a load of 30 Ah counts once in the days of a week; used every day, seven times.
        Case {
            kind: Kind::BatterySmall,
            raises: r#"
                service_battery.days_without_charge = 7
                load = [{ name = "cooker", at = "panel", current_a = 15, duty = { hours_a_day = 2 } }]"#,
            quiet: r#"
                service_battery.days_without_charge = 7
                load = [{ name = "cooker", at = "panel", current_a = 15, duty = { hours_a_day = 2, days = "sat" } }]"#,
        },
        Case {
            kind: Kind::DutyNever,
            raises: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { months = "none" } }]"#,
            quiet: r#"load = [{ name = "lamp", at = "panel", power_w = 5, duty = { months = "jun" } }]"#,
        },
        Case {
            kind: Kind::DutyNever,
            raises: r#"
                vehicle.driving_days = "mon-fri"
                load = [{ name = "lamp", at = "panel", power_w = 5, duty = { when = "driving", days = "sat" } }]"#,
            quiet: r#"
                vehicle.driving_days = "mon-fri"
                load = [{ name = "lamp", at = "panel", power_w = 5, duty = { when = "driving", days = "fri, sat" } }]"#,
        },
    ]);
}

/// Hours counted by hand on a calendar that begins on a Monday: two weeks have two Saturdays, one of them of week A, and
/// in January a load of the summer has no hours. On Wednesday morning nothing is plugged in that was to begin on
/// Wednesday evening, on Thursday morning it still is.
#[test]
fn loads_and_mains_keep_to_their_days() {
    let changes = r#"
        vehicle.driving = []
        charger.kind = "none"
        mains = { current_a = 5, windows = ["20:00-06:00"], days = ["wed"] }
        load = [
            { name = "weekend", at = "panel", current_a = 1, duty = { days = ["sat"], windows = ["22:00-02:00"] } },
            { name = "each second", at = "panel", current_a = 1, duty = { days = "A: sat", hours_a_day = 3 } },
            { name = "cooler", at = "panel", current_a = 1, duty = { months = ["jun-aug"] } },
            { name = "heater", at = "panel", current_a = 1, duty = { months = ["nov-feb"], windows = ["06:00-07:00"] } },
        ]"#;
    let catalogue = Catalogue::embedded().unwrap();
    let design = design(&plan_with(changes, &catalogue), &catalogue);
    let days = endurance(&design, Span { first_day: 8, ..Span::default() }, &mut Notes::unkept()).unwrap();
    let wanted: Vec<f64> = days.loads.iter().map(|l| l.wanted.get()).collect();
    for (wanted, expected) in wanted.iter().zip([8.0, 3.0, 0.0, 14.0]) {
        assert!((wanted - expected).abs() < 0.02, "{wanted:?}");
    }
    assert!((days.ledger.from_mains.get() - 2.0 * 10.0 * 5.0).abs() < 0.1, "{}", days.ledger.from_mains);
    let charging = |hours: f64| days.points.iter().any(|p| (p.at.get() - hours).abs() < 0.5 && p.current.get() < -0.05);
    assert!(!charging(2.0 * 24.0 + 3.0) && charging(2.0 * 24.0 + 21.0));
}
