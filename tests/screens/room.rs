//! Words are whole where there is room for them: in lists, forms, questions, headers and plots.

use crate::driver::Driver;
use loomwright::plan::{self, Place, Section, Value};
use loomwright::screens::{Action, Screen, Theme, update};

/// Every hint and every choice of a new plan's questions, at the smallest usual window.
#[test]
fn the_questions_of_a_new_plan_are_whole() {
    let mut d = Driver::new(80, 24);
    d.keys("N");
    for question in 1..=9 {
        d.sees(&format!("question {question} of 9"));
        let screen = d.screen();
        let inside = screen.lines().filter_map(|l| l.split('┃').nth(1)).find(|l| l.contains('…'));
        assert!(question == 2 || inside.is_none(), "{inside:?} in\n{screen}");
        d.keys("Enter");
    }
}

/// What is found is said in full while lines are empty below.
#[test]
fn what_is_found_is_whole_while_lines_are_empty() {
    let mut d = Driver::new(80, 24);
    d.keys("/ 'short circuit'");
    let screen = d.screen();
    let inside: Vec<&str> = screen.lines().filter_map(|l| l.split('┃').nth(1)).collect();
    let empty = inside.iter().filter(|l| l.trim().is_empty()).count();
    assert!(empty < 2 || inside.iter().all(|l| !l.contains('…')), "{screen}");
}

#[test]
fn the_title_is_whole_beside_a_pinned_design() {
    let title = Place::of(Section::Job, "title");
    let long = Value::Text("A seven-metre survey boat of the fen".into());
    let text = plan::set(plan::default_example().text, title, Some(&long)).unwrap();
    let mut d = Driver::on(&text, 80, 24);
    d.keys("p").sees("A seven-metre survey boat of the fen · ").sees("pinned");
}

#[test]
fn an_empty_list_says_whole_how_to_begin() {
    let mut d = Driver::new(80, 24);
    for (tabs, words) in [(5, "own place"), (7, "middle")] {
        d.keys(&format!("H Tab*{tabs}"));
        assert!(d.app.screen == Screen::Carrier && d.app.pane() == tabs);
        d.sees(words);
    }
}

/// A load's whole name stands before its line of outages where the plot has room.
#[test]
fn a_long_name_stands_whole_before_its_outages() {
    let small = Place::of(Section::ServiceBattery, "capacity_ah");
    let text = plan::set(plan::default_example().text, small, Some(&Value::Number(20.0))).unwrap();
    for (width, height) in [(120, 40), (200, 60)] {
        let mut d = Driver::on(&text, width, height);
        d.keys("D Tab z").sees("balance and tablet│");
    }
}

/// Where the form leaves lines empty in its column, what follows from it stands below it.
#[test]
fn the_cut_off_uses_a_wide_window() {
    let mut d = Driver::new(120, 40);
    d.keys("C").sees("Standing draw").sees("Settings and order").sees("Battery's own protection").sees_not("Tab: ");
}

/// What mends it is read without scrolling.
#[test]
fn remedies_are_whole_in_a_usual_window() {
    let mut d = Driver::new(120, 40);
    d.keys("F");
    for _ in 0..d.app.now.design.findings.len() {
        let screen = d.screen();
        let lines = screen.lines().skip_while(|l| !l.starts_with("┌ Remedies")).take_while(|l| !l.starts_with('└'));
        let cut: Vec<&str> = lines.filter(|l| l.split("││").next().is_some_and(|l| l.contains('…'))).collect();
        assert!(cut.is_empty(), "{cut:?} in\n{screen}");
        d.keys("Down");
    }
}

/// Given, chosen and usual are told apart without colour, also where no column has room to say it.
#[test]
fn what_is_given_has_a_sign_where_no_word_says_so() {
    let mut d = Driver::new(80, 24);
    d.app.theme = Theme::Plain;
    d.keys("S");
    // Given in the example; worked out; usual.
    for (label, begins) in [("Alternator ", "=150 A"), ("Output hot at idle", "33 %"), ("Time at idle", "20 %")] {
        let screen = d.screen();
        let line = screen.lines().find(|l| l.contains(label)).unwrap();
        let value = line.split_once(label).unwrap().1.trim_start();
        assert!(value.starts_with(begins), "{line}");
    }
    d.resize(120, 40);
    d.sees("given").sees("chosen").sees("usual");
}

/// The footer says of a field what it is, whole where leaving out its name makes room.
#[test]
fn the_help_of_a_field_is_whole() {
    let mut d = Driver::new(80, 24);
    d.keys("C").sees("Voltage at the sensing point where it opens; leave out to have it chosen.");
    d.keys("H Tab*6").sees("From the ground to the lowest part");
}

/// Each refusal says which rule, and by what numbers.
#[test]
fn a_refused_size_says_why() {
    let mut d = Driver::new(80, 24);
    d.keys("R Tab Up*3").sees("w: why");
    d.keys("w").sees("6 mm² fails: heat, it carries 45.1 A where 54.4 A flow");
    d.keys("Down w").sees("10 mm² fails: fuse, none that bears 54.4 A protects a cable of");
    d.keys("Down*2 w").sees("25 mm² is the thinnest that passes");
    // So does the dash of what cannot be.
    d.keys("Up*9 Right w").sees("far beyond the");
}

/// A saved version is told by what it changed, not by the numbers that keep labels true.
#[test]
fn a_version_that_took_a_load_out_says_which() {
    let folder = tempfile::tempdir().unwrap();
    let mut d = Driver::new(100, 30);
    d.app.keeper = loomwright::screens::Keeper::new(Some(folder.path().join("state")));
    update(&mut d.app, Action::SaveTo(folder.path().join("van.toml")));
    d.keys("d s h").sees("gone: name = \"fridge\"");
}

/// The lines of the pane whose title begins so, without its border.
fn inside<'a>(screen: &'a str, title: &str) -> Vec<&'a str> {
    let column = |line: &str| line.find(&format!("┌ {title}")).map(|at| line[..at].chars().count());
    let from = screen.lines().position(|l| column(l).is_some()).unwrap();
    let at = screen.lines().find_map(column).unwrap();
    let of = |line: &'a str| {
        let begin = line.char_indices().nth(at).filter(|(_, c)| *c == '│').map(|(n, _)| n + '│'.len_utf8())?;
        line[begin..].split(['│', '↓', '›']).next()
    };
    screen.lines().skip(from + 1).map_while(of).collect()
}

/// A list that has the window to itself is read there, not only looked over.
#[test]
fn a_list_with_the_window_to_itself_is_whole() {
    let mut d = Driver::new(80, 24);
    d.keys("F").sees_not("look at the holder");
    d.keys("z").sees("breaks 20 kA at 14.80 V");
    d.keys("Down*7").sees("look at the holder");
    d.keys("Up*7").sees("breaks 20 kA at 14.80 V");
}

/// Names and values that have to be scrolled anyway take the lines that they need: only the last in sight may be cut.
#[test]
fn what_is_scrolled_is_whole() {
    for example in plan::examples() {
        let mut d = Driver::on(example.text, 200, 60);
        for (keys, title) in [("D", "Outcome"), ("F", "Remedies")] {
            d.keys(keys);
            let screen = d.screen();
            let lines = inside(&screen, title);
            let cut: Vec<&&str> = lines.iter().rev().skip(1).filter(|l| l.contains('…')).collect();
            assert!(cut.is_empty(), "{cut:?} in {title} of\n{screen}");
        }
    }
}

/// The whole row of a long list is brought in sight, however many lines the rows above it take.
#[test]
fn the_row_in_hand_is_in_sight_among_rows_of_several_lines() {
    let mut d = Driver::new(200, 60);
    d.keys("D Tab Tab");
    let wear = |d: &Driver| d.screen().lines().any(|l| l.contains("Wear a year"));
    assert!(!wear(&d), "{}", d.screen());
    d.keys("Down*40");
    assert!(wear(&d), "{}", d.screen());
    d.keys("Up*40").sees("Promised");
}

/// What a word says is not cut beside an empty column, and what is not there is a dash.
#[test]
fn the_links_of_a_hold_down_stand_side_by_side() {
    let truck = plan::examples().iter().find(|e| e.text.contains("strip-basket")).unwrap();
    let mut d = Driver::on(truck.text, 120, 40);
    d.keys("H").sees("Corners").sees("Bends, from");
    let screen = d.screen();
    let strap = inside(&screen, "Links").into_iter().find(|l| l.starts_with("side strap")).unwrap();
    assert!(strap.contains('–') && !strap.split_whitespace().any(|w| w == "0"), "{strap}");
    d.keys("Tab Tab").sees("w: why");
    d.keys("w").sees("curved bar's inner face (Winkler, Roark)");
    d.keys("F").sees("usual standard").sees_not("standa…");
}
