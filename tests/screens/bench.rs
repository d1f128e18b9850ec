//! Questions without a plan: asked, answered in the words of the shell, and taken into the plan.

use crate::driver::Driver;

/// The README's own question, and its answer.
#[test]
fn a_cable_is_checked_in_a_few_keys() {
    let mut d = Driver::new(80, 24);
    d.keys("b '20' Down '7 m' Down Down 'floor'")
        .sees("Without a plan")
        .sees("under-floor")
        .sees("25 mm² (voltage drop)");
    d.keys("Down").sees("Insulation: ");
    d.keys("Up Up 'x'").sees("Loss allowed").sees("not a number").sees_not("25 mm²");
}

#[test]
fn a_cut_off_is_picked_and_taken_into_the_plan() {
    let mut d = Driver::new(80, 24);
    d.keys("b Up Right").sees("pick a cut-off");
    d.keys("Down 'agm' Down '100' Down '8' Down")
        .sees("48.6 % of the charge at 8 A")
        .sees("open at 12.20 V, close at 12.50 V");
    d.keys("C-t").sees("cut-off set to open at 12.20 V");
    let cut_off = &d.app.now.plan.cut_off;
    assert_eq!(cut_off.cut.map(|v| v.get()), Some(12.2));
    assert_eq!(d.app.now.plan.service_battery.chemistry, "agm");
    d.keys("u");
    assert_eq!(d.app.now.plan.cut_off.cut, None);
}

/// A setting that somebody has is judged, and a heavy current asked about.
#[test]
fn a_setting_is_judged_on_the_bench() {
    let mut d = Driver::new(80, 24);
    d.keys("b Up Right Down 'agm' Down '100' Down '8' Down Down Down '60' Down Down '11.9 V' Up");
    d.sees("Judge a setting").sees("Air at the battery").sees("open at 11.90 V").sees("12.20 V acts nearest to 50 %");
}

#[test]
fn a_list_of_words_is_turned_through_or_searched() {
    let mut d = Driver::new(80, 24);
    d.keys("b Up Right Down 'gel' Down Up").sees("gel");
    d.keys("Right").sees_not("not known");
    d.keys("Esc").sees_not("Without a plan");
}

#[test]
fn a_checked_cable_becomes_a_run_with_its_load() {
    let mut d = Driver::new(120, 40);
    let (runs, loads) = (d.app.now.plan.runs.len(), d.app.now.plan.loads.len());
    d.keys("b '12.5' Down '6.2m' C-t").sees("new run to");
    let plan = &d.app.now.plan;
    assert_eq!((plan.runs.len(), plan.loads.len()), (runs + 1, loads + 1));
    assert_eq!(plan.runs[runs].length.get(), 6.2);
    assert_eq!(plan.loads[loads].current.map(|a| a.get()), Some(12.5));
    assert_eq!(plan.loads[loads].at, plan.runs[runs].to);
}

/// A winch of 300 A for three minutes in half an hour needs less than one that runs for good.
#[test]
fn a_load_that_comes_and_goes_is_asked_too() {
    let mut d = Driver::new(120, 40);
    d.keys("b '300' Down '5m' Down '10%'");
    let steady = d.screen();
    d.keys("Down*6 '3min' Down '30min'").sees("On for at most");
    assert_ne!(d.screen().lines().find(|l| l.contains("Take ")), steady.lines().find(|l| l.contains("Take ")));
}

/// What cannot be answered says why, and nothing is taken.
#[test]
fn an_empty_value_is_asked_for() {
    let mut d = Driver::new(80, 24);
    d.keys("b Backspace").sees("Current must be given");
    d.keys("C-t").sees("Current must be given").sees("Without a plan");
}

/// A bare number that is left has its unit, and each value says what it means here, where there is no plan.
#[test]
fn a_value_that_is_left_has_its_unit() {
    let mut d = Driver::new(80, 24);
    d.keys("b '23' Enter '7' Enter '4' Enter").sees("23 A").sees("7 m").sees("4 %");
    d.keys("Up*3").sees("Current: What flows through it.");
    d.keys("Up Right Down*2 '180' Enter '9' Enter").sees("180 Ah").sees("9 A");
}
