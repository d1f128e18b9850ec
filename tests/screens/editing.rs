//! Editing a field, lists, undo, pinned designs, units: plan, keys, what is seen.

use crate::driver::Driver;
use loomwright::plan;

fn text() -> &'static str {
    plan::default_example().text
}

#[test]
fn a_field_takes_units_as_people_write_them_and_shows_the_parsed_value() {
    let mut d = Driver::new(80, 24);
    d.keys("R Right*2 Enter '20 ft'").sees("= 6.1 m");
    d.keys("Enter").sees("R1 feed, length: 4.5 m → 6.1 m");
    assert!(d.app.now.text.contains("length_m = 6.096\n"));
    assert_eq!(d.app.now.text.replace("length_m = 6.096", "length_m = 4.5"), text());
}

#[test]
fn a_refused_value_stays_in_the_cell_with_the_reason() {
    let mut d = Driver::new(80, 24);
    d.keys("Right*3 Enter 'lots' Enter").sees("lots").sees("this is not a number");
    assert_eq!(&*d.app.now.text, text());
    d.keys("Backspace*4 '-5 W' Enter").sees("-5 W").sees("power must be from 0 W to");
    d.keys("Esc").sees("45 W");
    assert!(d.app.editing.is_none());
    assert_eq!(&*d.app.now.text, text());
}

#[test]
fn an_edit_that_would_break_the_plan_is_refused() {
    let mut d = Driver::new(80, 24);
    d.keys("Enter 'table lamps' Enter").sees("two loads are called");
    assert_eq!(&*d.app.now.text, text());
    assert!(d.app.editing.is_some());
}

#[test]
fn taking_a_field_unchanged_changes_nothing() {
    let mut d = Driver::new(80, 24);
    d.keys("R Right*2 Enter Enter t Enter Enter t");
    assert_eq!(&*d.app.now.text, text());
    assert!(d.app.editing.is_none());
}

#[test]
fn a_bare_number_is_meant_in_the_units_shown() {
    let mut d = Driver::new(80, 24);
    d.keys("R t Right*2 Enter '10' Enter").sees("10 ft");
    assert!(d.app.now.text.contains("length_m = 3.048\n"));
    d.keys("t").sees("3.05 m");
}

#[test]
fn a_list_is_filtered_by_typing() {
    let mut d = Driver::new(80, 24);
    d.keys("B Enter 'gel'").sees("gel");
    d.keys("Enter");
    assert!(d.app.now.text.contains("chemistry = \"gel\""));
    d.keys("Enter 'nothing like this'").sees("nothing in the list matches");
}

#[test]
fn emptying_a_field_leaves_it_to_the_program() {
    let mut d = Driver::new(80, 24);
    d.keys("B Down Enter '100' Enter");
    assert!(d.app.now.text.contains("capacity_ah = 100"));
    d.keys("Backspace");
    assert_eq!(&*d.app.now.text, text());
}

#[test]
fn undo_goes_back_byte_for_byte_and_redo_forward_again() {
    let mut d = Driver::new(80, 24);
    d.keys("Right*3 Enter '60 W' Enter c d R d c");
    let last = d.app.now.text.clone();
    d.keys("u*5").sees("undone: fridge, power: 45 W → 60 W");
    assert_eq!(&*d.app.now.text, text());
    d.keys("u").sees("nothing to undo");
    d.keys("r*5");
    assert_eq!(d.app.now.text, last);
    d.keys("r").sees("nothing to redo");
}

#[test]
fn loads_are_added_from_the_list_copied_moved_and_deleted() {
    let mut d = Driver::new(80, 24);
    let count = d.app.now.plan.loads.len();
    d.keys("n 'cool box' Enter").sees("new load: Compressor cool box");
    assert_eq!(d.app.now.plan.loads.len(), count + 1);
    assert_eq!(d.app.now.plan.loads[1].at, "rear panel");
    d.keys("c");
    assert!(d.app.now.plan.loads[2].name.starts_with("Compressor cool box"));
    assert_ne!(d.app.now.plan.loads[1].name, d.app.now.plan.loads[2].name);
    d.keys("K K");
    assert!(d.app.now.plan.loads[0].name.starts_with("Compressor cool box"));
    d.keys("d d d").sees("deleted: Compressor cool box");
    d.keys("n 'my own thing' Enter").sees("new load: my own thing");
    d.keys("u*8");
    assert_eq!(&*d.app.now.text, text());
}

#[test]
fn a_new_run_asks_for_its_far_end() {
    let mut d = Driver::new(80, 24);
    d.keys("R Down*3 n 'roof fan' Enter");
    let run = &d.app.now.plan.runs[4];
    assert_eq!((run.from.as_str(), run.to.as_str()), ("cut-off", "roof fan"));
}

#[test]
fn the_last_edit_is_marked_until_the_next_one() {
    let mut d = Driver::new(80, 24);
    d.keys("Right*3 Enter '60 W' Enter").sees("60 W*");
    d.keys("Down Enter '7 W' Enter").sees("7 W*").sees_not("60 W*");
    d.keys("v").sees("What the last edit changed").sees("table lamps, power (of one): 6 W → 7 W");
}

#[test]
fn a_pinned_design_stays_the_measure() {
    let mut d = Driver::new(80, 24);
    d.keys("p Right*3 Enter '60 W' Enter Down Enter '7 W' Enter").sees("60 W*").sees("7 W*");
    d.keys("v").sees("Before (pinned) and after").sees("fridge, power (of one): 45 W → 60 W");
    d.keys("Esc p").sees_not("60 W*");
}

#[test]
fn a_paste_goes_into_a_field_and_nowhere_else() {
    let mut d = Driver::new(80, 24);
    let long = "w".repeat(100_000);
    d.event(loomwright::screens::Event::Paste(format!("d\nd\n{long}")));
    assert_eq!(&*d.app.now.text, text());
    d.keys("Enter");
    d.event(loomwright::screens::Event::Paste(format!("{long}\u{1b}[31m")));
    d.keys("Enter").sees("at most 60 characters");
    assert_eq!(&*d.app.now.text, text());
}

#[test]
fn wide_letters_are_edited_and_drawn_in_their_columns() {
    let mut d = Driver::new(80, 24);
    d.keys("Enter '冷蔵庫' Enter").sees("冷蔵庫");
    let line = d.screen().lines().find(|l| l.contains("冷蔵庫")).unwrap().to_string();
    let end = unicode_width::UnicodeWidthStr::width(line.as_str());
    assert_eq!(end, 80, "{line}");
}

#[test]
fn escape_followed_closely_by_a_letter_is_both() {
    use crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
    let mut d = Driver::new(80, 24);
    d.keys("?");
    d.event(loomwright::screens::Event::Key(KeyEvent::new(KeyCode::Char('R'), KeyModifiers::ALT)));
    d.draw();
    d.sees("R1").sees_not("Keys:");
}

/// Typing replaces the usual answer instead of adding to it.
#[test]
fn the_walk_through_takes_what_is_typed() {
    let mut d = Driver::new(80, 24);
    d.keys("N 'Hut' Enter Enter Enter '6.2m' Enter Enter '0' Enter Enter Enter Enter");
    // Nothing charges it then: that is said, with what would do, and may be left so.
    d.sees("nothing charges the service battery").sees("it is driven 1.5 h");
    d.keys("'leave' Enter").sees("your plan");
    assert_eq!(d.app.now.plan.job.title, "Hut");
    assert_eq!(d.app.now.plan.runs[3].length.get(), 6.2);
    assert!(d.app.now.plan.vehicle.driving.0.is_empty());
}

#[test]
fn the_walk_through_gives_a_plan_that_works() {
    let mut d = Driver::new(80, 24);
    d.keys("N").sees("question 1 of 9");
    d.keys("Enter").sees("question 2 of 9").sees("[x]");
    d.keys("'pump' Enter").sees("question 2 of 9");
    d.keys("Enter").sees("question 3 of 9");
    d.keys("Enter").sees("question 4 of 9");
    d.keys("'far' Enter").sees("this is not a number");
    d.keys("Esc Enter Enter").sees("question 5 of 9");
    d.keys("Enter Enter Enter").sees("question 8 of 9").sees("under-deck");
    d.keys("Enter").sees("question 9 of 9");
    d.keys("Enter").sees("your plan").sees("My van").sees("What to buy").sees("fuse box for 2");
    d.keys("Esc").sees_not("What to buy");
    // At -5 °C the lithium battery could not be charged without one.
    assert!(d.app.now.plan.service_battery.heated);
    d.sees_not("STOP");
    assert!(!d.app.now.plan.loads.is_empty());
    assert_eq!(d.app.now.plan.runs.len(), 4);
    assert!(d.app.now.design.installation.circuits.of_run.iter().all(Option::is_some));
    assert!(d.app.unsaved());
}

#[test]
fn days_are_simulated_when_their_screen_is_shown_and_follow_the_plan() {
    let mut d = Driver::new(120, 40);
    d.keys("D").sees("Lowest charge").sees("[14 days]");
    d.keys("Enter").sees("[7 days]");
    d.keys("L Right*3 Enter '95 W' Enter D").sees("→");
    d.keys("Down*4 Enter").sees("Of 300 trials").sees("What matters most");
    d.keys("u D").sees("choose how many trials");
}

#[test]
fn a_worker_tells_how_far_it_is_and_is_dropped_when_the_plan_moves_on() {
    use loomwright::screens::Event;
    let mut d = Driver::new(120, 40);
    let (sender, news) = std::sync::mpsc::channel();
    d.app.listener = Some(sender);
    d.keys("D Down*4 Right*2 Enter").sees("Drawing");
    let first = news.recv().unwrap();
    d.event(first.clone());
    d.draw();
    d.sees("of 10000");
    d.keys("c u").sees("Drawing");
    d.keys("L c D").sees("choose how many trials");
    d.event(first);
    d.draw();
    d.sees("choose how many trials");
    // It stops by itself; what it still says is of no interest.
    while let Ok(event) = news.recv_timeout(std::time::Duration::from_secs(5)) {
        assert!(matches!(event, Event::News(_)));
        d.event(event);
        if news.try_recv().is_err() {
            break;
        }
    }
    d.draw();
    d.sees("choose how many trials");
}

/// What is typed is designed ahead; what is taken is the same as if it were designed then, whether the worker is done,
/// has not begun, or was asked for something that was left again.
#[test]
fn what_was_designed_ahead_is_what_follows_from_what_is_taken() {
    let (sender, _news) = std::sync::mpsc::channel();
    for wait in [0, 5, 400] {
        let (mut ahead, mut alone) = (Driver::new(120, 40), Driver::new(120, 40));
        ahead.app.listener = Some(sender.clone());
        for (typed, taken) in [("Right*3 Enter '46 W'", "Enter"), ("Enter '47'", "Esc"), ("Down Enter '9'", "Enter")] {
            ahead.keys(typed);
            alone.keys(typed);
            std::thread::sleep(std::time::Duration::from_millis(wait));
            ahead.keys(taken);
            alone.keys(taken);
            assert_eq!(ahead.app.now.text, alone.app.now.text);
            let [ahead, alone] = [&ahead, &alone].map(|d| format!("{:?}", d.app.now.design));
            assert!(ahead == alone, "after {wait} ms: {typed} {taken}");
        }
        assert!(ahead.app.now.text.contains("power_w = 46"), "{}", ahead.app.now.text);
        ahead.keys("u u");
        assert_eq!(&*ahead.app.now.text, text());
    }
}

/// A price is entered on the Battery screen and compared beside the chemistries.
#[test]
fn a_price_is_added_on_the_battery_screen() {
    let mut d = Driver::new(200, 60);
    let before = d.app.now.plan.prices.len();
    d.keys("B Tab Tab Tab Tab Tab n '250' Enter");
    assert_eq!(d.app.now.plan.prices.len(), before + 1);
    // Flooded is the first without a price: 2 blocks of 225 Ah at 250 for 100 Ah.
    d.sees("1125");
    d.keys("u u");
    assert_eq!(d.app.now.plan.prices.len(), before);
}

/// A current typed as power says which field takes it.
#[test]
fn a_current_typed_as_power_is_sent_to_its_field() {
    let mut d = Driver::new(80, 24);
    d.keys("Right Right Right Enter '3.5A' Enter").sees("the field Current takes it");
}

/// What a pane cuts is said whole below it.
#[test]
fn a_remedy_that_is_cut_is_said_whole() {
    let mut d = Driver::new(80, 24);
    let findings = &d.app.now.design.findings;
    let of = |f: &loomwright::engine::Finding| f.remedies.iter().position(|r| r.words.contains("tighten each"));
    let (finding, remedy) = findings.iter().enumerate().find_map(|(n, f)| Some((n, of(f)?))).unwrap();
    d.keys(&format!("F Down*{finding} Tab Tab Down*{remedy}")).sees("tighten").sees("each nut");
}

/// Two loads on a plain point: among the boards Enter makes it one, and a load from the list then brings a lead.
#[test]
fn a_plain_point_becomes_a_board() {
    let text = "format = 2\nservice_battery.chemistry = \"agm\"\n[[load]]\nname = \"lamp\"\nat = \"panel\"\npower_w = 8\n[[load]]\nname = \"radio\"\n\
                at = \"panel\"\npower_w = 20\n[[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 1\n\
                [[run]]\nfrom = \"cut-off\"\nto = \"panel\"\nlength_m = 2\n";
    let mut d = Driver::on(text, 120, 40);
    d.keys("R Tab*7").sees("no board").sees("make `panel` a fuse box");
    d.keys("Enter").sees("fuse-box").sees_not("no board");
    assert_eq!(d.app.now.plan.boards[0].name, "panel");
    d.keys("L n 'fridge' Enter");
    assert_eq!(d.app.now.plan.loads.iter().filter(|l| l.lead.length.is_some()).count(), 1);
    d.keys("u u");
    assert_eq!(&*d.app.now.text, text);
}

/// Number of each cable, and of the fuse of each shared way, by what cannot change while rows are added, copied, moved
/// and deleted: its ends, or its load.
fn labels(d: &Driver) -> std::collections::BTreeMap<String, u32> {
    let site = &d.app.now.design.installation;
    site.runs.iter().map(|r| (format!("{} {} {}", r.from, r.to, r.name), r.number.unwrap())).collect()
}

#[test]
fn a_cable_keeps_its_number_whatever_becomes_of_its_neighbours() {
    let mut d = Driver::new(120, 40);
    let mut seed = 7_u32;
    let mut changed = 0;
    for step in 0..60 {
        let (before, text) = (labels(&d), d.app.now.text.clone());
        seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let list = ["L", "R"][(seed >> 30) as usize & 1];
        let row = (seed >> 20) % 6;
        let act = ["d", "J", "K", "n", "c"][(seed >> 8) as usize % if list == "L" { 5 } else { 4 }];
        let typed = match (act, list) {
            ("n", "L") => format!("'thing {step}' Enter Enter"),
            ("n", _) => format!("'end {step}' Enter Esc"),
            _ => String::new(),
        };
        d.keys(&format!("{list} Home Up*30 Down*{row} {act} {typed} Esc"));
        let after = labels(&d);
        changed += usize::from(text != d.app.now.text);
        for (cable, number) in &after {
            if let Some(was) = before.get(cable) {
                assert_eq!(was, number, "`{cable}` after {list} {act} in row {row}:\n{}", d.app.now.text);
            }
        }
        let numbers: std::collections::BTreeSet<_> = after.values().collect();
        assert_eq!(numbers.len(), after.len(), "two cables with one number:\n{}", d.app.now.text);
    }
    assert!(changed > 30, "only {changed} of the steps changed the plan");
}

/// What is said of a run names it by the number that stands on the screen, and the fuse of a shared way keeps its own.
#[test]
fn a_new_run_is_called_by_its_number_and_takes_that_of_none() {
    let mut d = Driver::new(120, 40);
    let way = labels(&d).into_iter().find(|(name, _)| name.contains("way table")).unwrap();
    d.keys("R n 'a new box' Enter");
    let number = d.app.now.design.installation.run_number(1);
    d.sees(&format!("{number} starter battery → new point, to: new point → a new box"));
    assert_eq!(labels(&d).get(&way.0), Some(&way.1), "{}", d.app.now.text);
    d.keys("d").sees(&format!("deleted: {number} starter battery → a new box"));
    // The first of the loads in the way goes, another takes its place: the fuse is still the same.
    d.keys("L Down c");
    let with_three = labels(&d);
    assert_eq!(with_three.get(&way.0), Some(&way.1));
    d.keys("Up d").sees("deleted: table lamps");
    assert_eq!(labels(&d).get(&way.0), Some(&way.1), "{}", d.app.now.text);
}

/// In which units the plan is told is a field like any other.
#[test]
fn the_units_of_a_plan_are_entered_with_its_job() {
    let mut d = Driver::new(120, 40);
    let units = plan::Place::of(plan::Section::Job, "units");
    loomwright::screens::update(&mut d.app, loomwright::screens::Action::Go(units));
    assert_eq!(d.app.cell().unwrap().place, Some(units));
    d.keys("Enter 'imperial' Enter");
    assert!(d.app.now.text.contains("units = \"imperial\""), "{}", d.app.now.text);
    d.sees("ft");
    d.keys("u").sees_not(" ft ");
}

#[test]
fn a_number_is_written_only_where_the_order_would_change_it() {
    let mut d = Driver::new(80, 24);
    d.keys("R J");
    assert!(d.app.now.text.contains("number = 1"), "{}", d.app.now.text);
    d.keys("u");
    assert_eq!(&*d.app.now.text, text());
    d.keys("L Down*30 n 'kettle' Enter");
    assert!(!d.app.now.text.contains("number ="), "{}", d.app.now.text);
}

/// The drawing has the charger once, between both batteries, and each run's line leads to the run and back.
#[test]
fn the_drawing_and_the_runs_lead_to_each_other() {
    let mut d = Driver::new(80, 24);
    d.keys("G").sees("starter battery").sees("service battery");
    assert_eq!(d.screen().matches("▐ charger ▌").count(), 1, "{}", d.screen());
    let sites = d.app.now.design.installation.clone();
    for run in 0..sites.runs.len() {
        let row = sites.listed_runs().iter().position(|r| *r == run).unwrap();
        d.keys(&format!("R Up*30 Down*{row} G"));
        let number = sites.run_number(run);
        let hand = d.buffer().content().iter().filter(|c| c.modifier.contains(ratatui::style::Modifier::REVERSED));
        let line: String = hand.map(|c| c.symbol()).collect();
        assert!(line.contains(&format!(" {number}")), "{number} is not in hand but `{line}`:\n{}", d.screen());
        d.keys("Enter").sees(&format!("Every size for {number}"));
    }
}

#[test]
fn a_size_that_is_given_is_told_from_a_chosen_one_without_colour() {
    let mut d = Driver::new(80, 24);
    d.keys("R Right*3 Enter '35 mm2' Enter").sees("=35 mm²");
}

/// A load that its cable cannot feed has no drop: on the list, and beside its path.
#[test]
fn a_load_that_cannot_be_fed_shows_no_drop() {
    let text = "format = 2\n[service_battery]\nchemistry = \"agm\"\ncapacity_ah = 100\n[charger]\nkind = \"none\"\n\
        [[board]]\nname = \"panel\"\n[[run]]\nfrom = \"service battery\"\nto = \"cut-off\"\nlength_m = 0.5\n\
        [[run]]\nfrom = \"cut-off\"\nto = \"panel\"\nlength_m = 3\n\
        [[load]]\nname = \"pump\"\nat = \"panel\"\npower_w = 300\nlead_m = 90\ndrop = \"critical\"\nduty.hours_a_day = 0.2\n";
    let d = Driver::on(text, 120, 40);
    d.sees("no, not fed");
    assert!(!d.screen().contains("drop 0 %"), "{}", d.screen());
}
