//! Which side of the cut-off sources and loads are on.

use crate::case::{days_of, design_of, severities, tell_apart};
use loomwright::engine::{FindingKind as Kind, Severity, Span};
use loomwright::quantity::Share;

/// Whichever source it is, and whether another reaches the battery.
#[test]
fn sources_behind_the_cut_off() {
    let none = "charger.kind = \"none\"\n";
    let sun = |at: &str| format!("solar = {{ array_w = 200, at = \"{at}\", sun_hours = 4 }}");
    let mains = |at: &str| {
        format!("mains = {{ current_a = 20, windows = [\"20:00-23:00\"], days = [\"sat\"], at = \"{at}\" }}")
    };
    let (alone, posts) = (format!("{none}{}", sun("panel")), format!("{none}{}", sun("service battery")));
    for (raises, quiet) in [
        (alone.clone(), posts.clone()),
        (sun("panel"), sun("service battery")),
        (format!("{none}{}", mains("panel")), format!("{none}{}", mains("service battery"))),
        // The cut-off's own point is its load side.
        (sun("cut-off"), String::new()),
    ] {
        tell_apart(Kind::SourceBehindCutOff, &raises, &quiet);
    }
    // The only source: nothing closes the cut-off again. Beside a charger at the posts it is only of no use then.
    assert_eq!(severities(&alone, Kind::SourceBehindCutOff), [Severity::Stop]);
    assert_eq!(severities(&sun("panel"), Kind::SourceBehindCutOff), [Severity::Caution]);
}

/// A point that is misspelt, and one on the other battery's side.
#[test]
fn sources_that_reach_no_service_battery() {
    let sun = |at: &str| format!("solar = {{ array_w = 200, at = \"{at}\", sun_hours = 4 }}");
    tell_apart(Kind::SourceLoose, &sun("pannel"), &sun("panel"));
    tell_apart(Kind::SourceLoose, &sun("starter battery"), &sun("service battery"));
}

/// Begun at 25 % (the cut-off acts at 20 %), a fridge of 40 W x 0.4 = 16 W takes
/// 16 x 24 / 13 = 30 Ah a day, 5 Ah are to hand: it opens in the first night. The
/// sun of 400 W x 0.7 x 4 h / 14.2 V = 79 Ah a day brings it back from the posts
/// every morning; from the panel never, so it stays open for all but the first day.
#[test]
fn sun_behind_an_open_cut_off_charges_nothing() {
    let from = Span { days: 7, from: Share::new(0.25), ..Span::default() };
    let plan = |at: &str| format!("charger.kind = \"none\"\nsolar = {{ array_w = 400, at = \"{at}\", sun_hours = 4 }}");
    let behind = days_of(&plan("panel"), from);
    assert_eq!(behind.cuts, 1);
    assert!(behind.cut_hours.get() > 6.0 * 24.0, "{}", behind.cut_hours);
    let posts = days_of(&plan("service battery"), from);
    assert!(posts.cut_hours.get() < 24.0, "{}", posts.cut_hours);
    assert!(posts.ledger.charged.get() > 7.0 * 30.0 * 0.5, "{}", posts.ledger.charged);
}

/// 20 W for 24 h are 20 / 13.1 V = 1.5 A, 36 Ah a day: from the reserve of 20 % of 100 Ah, which a setting in
/// steps of 0.1 V makes up to 26 %, half a day or a little more is left.
#[test]
fn inverter_at_the_posts_goes_on_drawing() {
    let with = |at: &str, hours: u32| {
        format!("inverter = {{ rating_w = 300, idle_w = 20, hours_a_day = {hours}, at = \"{at}\" }}")
    };
    let (posts, panel) = (with("service battery", 24), with("panel", 24));
    tell_apart(Kind::CutOffMissing, &posts, &panel);
    tell_apart(Kind::CutOffMissing, &posts, &with("service battery", 0));
    tell_apart(Kind::StandingDraw, &posts, &panel);
    let days = design_of(&posts).cut_off.days_to_harm.unwrap().get();
    assert!((0.5..0.75).contains(&days), "{days}");
    // And so it does in days of use: 1.5 A x 24 h are 37 Ah a day, the fridge with its 30 Ah is cut off.
    let from = Span { days: 3, from: Share::new(0.22), ..Span::default() };
    let parked = |at: &str| days_of(&format!("vehicle.driving = []\n{}", with(at, 24)), from);
    assert!(parked("service battery").dead_hours.get() > 36.0 && parked("panel").dead_hours.get() == 0.0);
}

#[test]
fn wiring_decides_what_stays_on() {
    let fridge = |at: &str, stays: bool| {
        format!(r#"load = [{{ name = "fridge", at = "{at}", power_w = 40, before_cut_off = {stays} }}]"#)
    };
    let (behind, posts) = (fridge("panel", true), fridge("service battery", true));
    tell_apart(Kind::StaysOnBehind, &behind, &posts);
    tell_apart(Kind::StaysOnBehind, &behind, &fridge("panel", false));
    // 40 W / 12.7 V = 3.1 A go through the cut-off all the same.
    let current = |plan: &str| design_of(plan).cut_off.current.get();
    assert!(current(&behind) > 3.0 && current(&posts) < 0.1, "{} {}", current(&behind), current(&posts));
}
